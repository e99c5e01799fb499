/* SPDX-License-Identifier: MIT */
/* Forms as browsers send them: application/x-www-form-urlencoded (URL standard, section 5). */
#include "desk/session.h"

#include <string.h>

static int hex(char c)
{
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
}

/* Decodes in place of a copy; "%" without two digits behind it stays. */
static void decode(const char *from, size_t length, char *to)
{
    for (size_t i = 0; i < length; i++) {
        if (from[i] == '%' && length - i > 2 && hex(from[i + 1]) >= 0 && hex(from[i + 2]) >= 0) {
            *to++ = (char)(16 * hex(from[i + 1]) + hex(from[i + 2]));
            i += 2;
        } else {
            *to++ = from[i] == '+' ? ' ' : from[i];
        }
    }
    *to = '\0';
}

/* UTF-8 without control characters. */
static bool is_text(const char *text)
{
    while (*text) {
        unsigned code;
        const size_t bytes = fv_utf8_read(text, &code);
        if (bytes == 0 || !fv_utf8_is_text(code))
            return false;
        text += bytes;
    }
    return true;
}

const char *desk_form_value(const char *form, size_t length, const char *name, fv_arena *arena)
{
    const size_t name_length = strlen(name);
    for (size_t at = 0; at < length;) {
        const char *end = memchr(form + at, '&', length - at);
        const size_t to = end ? (size_t)(end - form) : length;
        if (to - at > name_length && form[at + name_length] == '=' && memcmp(form + at, name, name_length) == 0) {
            const size_t from = at + name_length + 1;
            char *value = fv_arena_alloc(arena, to - from + 1, 1);
            if (!value)
                return NULL;
            decode(form + from, to - from, value);
            return is_text(value) ? value : NULL;
        }
        at = to + 1;
    }
    return NULL;
}
