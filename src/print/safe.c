/* SPDX-License-Identifier: MIT */
#include "print/safe.h"

#include "farvessel/print.h"

#include <ctype.h>
#include <string.h>

void print_safe(const char *text, fv_text *out)
{
    const char *shown = text; /* from here on nothing was added yet */
    while (*text) {
        unsigned code;
        const size_t bytes = fv_utf8_read(text, &code);
        if (bytes > 0 && fv_utf8_is_text(code)) {
            text += bytes;
            continue;
        }
        fv_text_add(out, "%.*s%c", (int)(text - shown), shown,
                    *text == '\n' || *text == '\r' || *text == '\t' ? ' ' : '?');
        shown = text += bytes ? bytes : 1;
    }
    fv_text_add(out, "%s", shown);
}

void print_safe_json(const char *text, size_t bytes, fv_text *out)
{
    const char *shown = text, *end = text + bytes;
    while (text < end) {
        unsigned code;
        const size_t n = fv_utf8_read(text, &code);
        if (n > 0 && !fv_utf8_is_text(code) && *text != '\n') {
            fv_text_add(out, "%.*s\\u%04x", (int)(text - shown), shown, code);
            shown = text + n;
        }
        text += n ? n : 1;
    }
    fv_text_add(out, "%.*s", (int)(end - shown), shown);
}

void print_shell_word(const char *word, fv_text *out)
{
    const char *dot = word[0] == '-' ? "./" : "";
    bool plain = *word != '\0';
    for (const char *c = word; *c; c++)
        plain = plain && (isalnum((unsigned char)*c) || (unsigned char)*c >= 0x80 || strchr("-_./,:+@%", *c));
    if (plain) {
        fv_text_add(out, "%s%s", dot, word);
        return;
    }
    fv_text_add(out, "'%s", dot);
    for (; *word; word++) {
        if (*word == '\'')
            fv_text_add(out, "'\\''");
        else
            fv_text_add(out, "%c", *word);
    }
    fv_text_add(out, "'");
}

void fv_report_safe(fv_text *text)
{
    if (!text)
        return;
    char *to = text->text;
    for (const char *from = text->text; from && *from;) {
        unsigned code;
        const size_t bytes = fv_utf8_read(from, &code);
        if (bytes > 0 && (fv_utf8_is_text(code) || *from == '\n' || *from == '\t')) {
            memmove(to, from, bytes);
            to += bytes;
        } else {
            *to++ = '?';
        }
        from += bytes ? bytes : 1;
    }
    if (to) {
        *to = '\0';
        text->length = (size_t)(to - text->text);
    }
}
