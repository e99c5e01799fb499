/* SPDX-License-Identifier: MIT */
/* A file's bytes, and a first look at them before the parser sees them. */
#include "plantfile/bytes.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { LONGEST_TAG = 8192, DECLARATION_BYTES = 200 };

static bool starts(const char *bytes, size_t length, const char *mark, size_t mark_length)
{
    return length >= mark_length && memcmp(bytes, mark, mark_length) == 0;
}

static const char *bad_start(const char *bytes, size_t length)
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

static bool has_fair_encoding(const char *bytes, size_t length, const char *name, fv_faults *faults)
{
    static const char *const fair[] = {"UTF-8",    "UTF8",       "UTF-16",   "UTF-16LE",
                                       "UTF-16BE", "ISO-8859-1", "US-ASCII", "ASCII"};
    char word[64];
    const char *bad = bad_start(bytes, length);
    if (!bad && declared(bytes, length, word, sizeof word)) {
        bad = word;
        for (size_t i = 0; i < sizeof fair / sizeof *fair; i++)
            if (strcasecmp(word, fair[i]) == 0)
                bad = NULL;
    }
    if (bad)
        fv_error(faults, FV_ERR_INPUT, (fv_loc){name, 1},
                 "the encoding is %.40s; save the file as UTF-8 (UTF-16 and ISO-8859-1 are read, too)", bad);
    return !bad;
}

/* Reads characters of UTF-8 and, by passing over zero bytes, of UTF-16 well enough to find tags. */
typedef struct {
    const char *at, *end;
    int line;
} scanner;

static int next(scanner *s)
{
    while (s->at < s->end && *s->at == '\0')
        s->at++;
    if (s->at == s->end)
        return -1;
    int c = (unsigned char)*s->at++;
    s->line += c == '\n';
    return c;
}

/* Passes over a comment, CDATA section or processing instruction that ends with `mark`. */
static void pass(scanner *s, const char *mark)
{
    size_t matched = 0, length = strlen(mark);
    for (int c = next(s); c >= 0 && matched < length; c = matched < length ? next(s) : 0) {
        if (c == mark[matched])
            matched++;
        else if (!(matched == 2 && length == 3 && c == mark[1])) /* "--->" and "]]]>" end, too */
            matched = c == mark[0];
    }
}

bool plantfile_bytes_are_fair(const char *bytes, size_t length, const char *name, fv_faults *faults)
{
    if (!has_fair_encoding(bytes, length, name, faults))
        return false;
    scanner s = {bytes, bytes + length, 1};
    for (int c = next(&s); c >= 0; c = next(&s)) {
        if (c != '<')
            continue;
        int line = s.line;
        size_t tag = 1;
        c = next(&s);
        if (c == '?') {
            pass(&s, "?>");
        } else if (c == '!') {
            c = next(&s);
            pass(&s, c == '-' ? "-->" : c == '[' ? "]]>" : ">");
        } else {
            for (; c >= 0 && c != '>'; c = next(&s))
                if (++tag > LONGEST_TAG) {
                    fv_error(faults, FV_ERR_INPUT, (fv_loc){name, line},
                             "a tag of more than %d characters; nothing that a plant needs is so long", LONGEST_TAG);
                    return false;
                }
        }
    }
    return true;
}
