/* SPDX-License-Identifier: MIT */
/* Characters of UTF-8, and which of them are text. Source: RFC 3629 for the encoding; ISO/IEC 6429 for the control
 * characters C0, DEL and C1; Unicode's property Bidi_Control for those that change the order in which text is shown. */
#include "farvessel/base.h"

#include <stdio.h>
#include <string.h>

static bool goes_on(char byte)
{
    return ((unsigned char)byte & 0xC0u) == 0x80u;
}

size_t fv_utf8_read(const char *text, unsigned *code)
{
    if (!code)
        return 0;
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char first = text ? (unsigned char)text[0] : 0;
    const size_t length = first < 0x80 ? 1 : first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 0;
    if (first == 0 || length == 0 || first > 0xF4)
        return 0;
    *code = length == 1 ? first : first & (0xFFu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if (!goes_on(text[i]))
            return 0;
        *code = *code << 6 | ((unsigned char)text[i] & 0x3Fu);
    }
    const bool surrogate = *code >= 0xD800 && *code < 0xE000;
    return *code < least[length] || *code > 0x10FFFF || surrogate ? 0 : length;
}

bool fv_utf8_is_text(unsigned code)
{
    const bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
    const bool separator = code == 0x2028 || code == 0x2029;
    const bool reorders = code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) ||
                          (code >= 0x2066 && code <= 0x2069);
    return !control && !separator && !reorders;
}

fv_shortened fv_shorten(const char *text, size_t most)
{
    fv_shortened cut;
    const size_t length = text ? strlen(text) : 0, room = sizeof cut.text - sizeof "...";
    size_t bytes = most < room ? most : room;
    if (length <= bytes) {
        snprintf(cut.text, sizeof cut.text, "%s", text ? text : "");
        return cut;
    }
    while (bytes > 0 && goes_on(text[bytes]))
        bytes--;
    snprintf(cut.text, sizeof cut.text, "%.*s...", (int)bytes, text);
    return cut;
}
