/* SPDX-License-Identifier: MIT */
/* A file's bytes as UTF-8, so that what looks at them before the parser does sees the characters that the parser sees.
 */
#include "plantfile/encoding.h"

#include <errno.h>
#include <iconv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { DECLARATION_BYTES = 200, WORD = 64 };

static bool starts(const char *bytes, size_t length, const char *mark, size_t mark_length)
{
    return length >= mark_length && memcmp(bytes, mark, mark_length) == 0;
}

static const char *unread(const char *bytes, size_t length)
{
    if (starts(bytes, length, "\xff\xfe\0\0", 4) || starts(bytes, length, "\0\0\xfe\xff", 4) ||
        starts(bytes, length, "<\0\0\0", 4) || starts(bytes, length, "\0\0\0<", 4))
        return "UTF-32";
    if (starts(bytes, length, "Lo\xa7\x94", 4))
        return "EBCDIC";
    return NULL;
}

/* The encoding in the XML declaration, if the bytes are near enough to ASCII to tell. */
static bool declared(const char *bytes, size_t length, char *name, size_t size)
{
    char head[DECLARATION_BYTES + 1];
    size_t n = length < DECLARATION_BYTES ? length : DECLARATION_BYTES;
    memcpy(head, bytes, n);
    head[n] = '\0';
    char *end = strstr(head, "?>");
    char *word = strstr(head, "encoding");
    if (!end || !word || word > end)
        return false;
    word += strcspn(word, "\"'");
    if (word >= end)
        return false;
    snprintf(name, size, "%.*s", (int)strcspn(word + 1, "\"'"), word + 1);
    return true;
}

/* What iconv calls the encoding; NULL with `word` filled: one that is not read. */
static const char *encoding_of(const char *bytes, size_t length, char word[WORD])
{
    static const struct {
        const char *declared, *is;
    } fair[] = {{"UTF-8", "UTF-8"},    {"UTF8", "UTF-8"},     {"UTF-16", "UTF-8"},
                {"UTF-16LE", "UTF-8"}, {"UTF-16BE", "UTF-8"}, {"ISO-8859-1", "ISO-8859-1"},
                {"US-ASCII", "UTF-8"}, {"ASCII", "UTF-8"}};
    const char *bad = unread(bytes, length);
    if (bad) {
        snprintf(word, WORD, "%s", bad);
        return NULL;
    }
    if (starts(bytes, length, "\xff\xfe", 2) || starts(bytes, length, "<\0", 2))
        return "UTF-16LE";
    if (starts(bytes, length, "\xfe\xff", 2) || starts(bytes, length, "\0<", 2))
        return "UTF-16BE";
    if (!declared(bytes, length, word, WORD))
        return "UTF-8";
    for (size_t i = 0; i < sizeof fair / sizeof *fair; i++)
        if (strcasecmp(word, fair[i].declared) == 0)
            return fair[i].is;
    return NULL;
}

/* NULL: errno says why. */
static char *convert(const char *encoding, const char *bytes, size_t *length)
{
    iconv_t to_utf8 = iconv_open("UTF-8", encoding);
    if (to_utf8 == (iconv_t)-1)
        return NULL;
    const size_t room = 2 * *length + 4; /* two bytes of UTF-16 make at most three of UTF-8, one of Latin-1 two */
    char *made = malloc(room), *out = made;
    union {
        const char *given;
        char *writable;
    } in = {.given = bytes};
    size_t left = *length, free_bytes = room;
    const bool good = made && iconv(to_utf8, &in.writable, &left, &out, &free_bytes) != (size_t)-1;
    const int why = made ? errno : ENOMEM;
    iconv_close(to_utf8);
    if (!good) {
        free(made);
        errno = why;
        return NULL;
    }
    *length = room - free_bytes;
    return made;
}

const char *plantfile_utf8(const char *bytes, size_t *length, const char *name, char **made, fv_faults *faults)
{
    char word[WORD];
    *made = NULL;
    const char *encoding = encoding_of(bytes, *length, word);
    if (!encoding) {
        fv_error(faults, FV_ERR_INPUT, (fv_loc){name, 1},
                 "the encoding is %s; save the file as UTF-8 (UTF-16 and ISO-8859-1 are read, too)",
                 fv_shorten(word, 40).text);
        return NULL;
    }
    if (strcmp(encoding, "UTF-8") == 0)
        return bytes;
    *made = convert(encoding, bytes, length);
    if (!*made && (errno == EILSEQ || errno == EINVAL))
        fv_error(faults, FV_ERR_INPUT, (fv_loc){name, 1}, "the file begins as %s, but is none", encoding);
    else if (!*made)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){name, 0}, "cannot read %s: %s", encoding, strerror(errno));
    return *made;
}

void plantfile_escape(const char *text, char quote, fv_text *out)
{
    for (; *text; text++)
        if (*text == '&')
            fv_text_add(out, "&amp;");
        else if (*text == '<')
            fv_text_add(out, "&lt;");
        else if (*text == '"')
            fv_text_add(out, "&quot;");
        else if (strchr("\t\n\r", *text) || *text == quote)
            fv_text_add(out, "&#%d;", *text);
        else if ((unsigned char)*text >= 0x20u)
            fv_text_add(out, "%c", *text);
}
