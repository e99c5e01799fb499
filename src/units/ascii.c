/* SPDX-License-Identifier: MIT */
/* The many ways to write the same thing, brought to ASCII: "1½ m²" becomes "1 1/2 m^2". */
#include "units/unit.h"

#include <stdint.h>
#include <string.h>

/* No replacement is longer than twice the bytes it replaces. */
static const struct {
    uint32_t code;
    const char *ascii;
} spellings[] = {
    {0x00A0, " "},    {0x2007, " "},    {0x2009, " "},    {0x202F, " "},    {0x00BC, " 1/4"}, {0x00BD, " 1/2"},
    {0x00BE, " 3/4"}, {0x2153, " 1/3"}, {0x2154, " 2/3"}, {0x215B, " 1/8"}, {0x215C, " 3/8"}, {0x215D, " 5/8"},
    {0x215E, " 7/8"}, {0x2044, "/"},    {0x2215, "/"},    {0x00B0, "deg"},  {0x00BA, "deg"},  {0x2103, "degC"},
    {0x2109, "degF"}, {0x00B5, "u"},    {0x03BC, "u"},    {0x2032, "'"},    {0x2019, "'"},    {0x2033, "\""},
    {0x201D, "\""},   {0x00B7, "*"},    {0x22C5, "*"},    {0x00D7, "*"},    {0x2010, "-"},    {0x2011, "-"},
    {0x2012, "-"},    {0x2013, "-"},    {0x2212, "-"},
};

static const struct {
    uint32_t code;
    char ascii;
} superscripts[] = {
    {0x00B9, '1'}, {0x00B2, '2'}, {0x00B3, '3'}, {0x2070, '0'}, {0x2074, '4'}, {0x2075, '5'},
    {0x2076, '6'}, {0x2077, '7'}, {0x2078, '8'}, {0x2079, '9'}, {0x207A, '+'}, {0x207B, '-'},
};

/* Bytes of the character at `at`; 0: not UTF-8. */
static size_t decode(const unsigned char *at, uint32_t *code)
{
    size_t more = at[0] < 0x80 ? 0 : at[0] >= 0xC2 && at[0] < 0xE0 ? 1 : (at[0] & 0xF0) == 0xE0 ? 2 : 3;
    if (more == 3 && (at[0] < 0xF0 || at[0] > 0xF4))
        return 0;
    *code = more ? at[0] & (0x3Fu >> more) : at[0];
    for (size_t i = 1; i <= more; i++) {
        if ((at[i] & 0xC0) != 0x80)
            return 0;
        *code = *code << 6 | (at[i] & 0x3Fu);
    }
    static const uint32_t least[] = {0, 0x80, 0x800, 0x10000};
    return *code < least[more] || *code > 0x10FFFF || (*code >= 0xD800 && *code < 0xE000) ? 0 : more + 1;
}

static const char *spelling_of(uint32_t code)
{
    for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++)
        if (spellings[i].code == code)
            return spellings[i].ascii;
    return NULL;
}

static char superscript_of(uint32_t code)
{
    for (size_t i = 0; i < sizeof superscripts / sizeof *superscripts; i++)
        if (superscripts[i].code == code)
            return superscripts[i].ascii;
    return '\0';
}

bool units_ascii_from(const char *text, char *ascii, fv_text *problem)
{
    char *out = ascii;
    bool raised = false; /* the last character was a superscript */
    for (const unsigned char *at = (const unsigned char *)text; *at;) {
        uint32_t code = 0;
        size_t bytes = decode(at, &code);
        if (!bytes) {
            fv_text_add(problem, "is not valid UTF-8");
            return false;
        }
        const char *spelling = spelling_of(code);
        char power = superscript_of(code);
        if (power) {
            if (!raised)
                *out++ = '^';
            *out++ = power;
        } else if (spelling) {
            size_t length = strlen(spelling);
            memcpy(out, spelling, length);
            out += length;
        } else if (code == '\t' || code == '\n' || code == '\r') {
            *out++ = ' ';
        } else if (code >= 0x20 && code < 0x7F) {
            *out++ = (char)code;
        } else if (code < 0xA0) {
            fv_text_add(problem, "has a control character in it");
            return false;
        } else {
            fv_text_add(problem, "cannot read \"%.*s\" in it", (int)bytes, (const char *)at);
            return false;
        }
        raised = power != '\0';
        at += bytes;
    }
    *out = '\0';
    return true;
}
