/* SPDX-License-Identifier: MIT */
/* A first look at a file before the parser sees it. */
#include "plantfile/bytes.h"

#include <string.h>

enum { LONGEST_TAG = PLANTFILE_TAG_MOST };

typedef struct {
    const char *at, *end;
    int line;
} scanner;

static int next(scanner *s)
{
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

/* Passes over a tag, in whose quotes a '>' may stand; a '<' may not, and ends what is no tag. False: too long. */
static bool pass_tag(scanner *s)
{
    int quote = 0;
    for (size_t length = 1; length <= LONGEST_TAG; length++) {
        if (s->at < s->end && *s->at == '<')
            return true;
        int c = next(s);
        if (c < 0 || (c == '>' && !quote))
            return true;
        if (c == quote)
            quote = 0;
        else if (!quote && (c == '"' || c == '\''))
            quote = c;
    }
    return false;
}

bool plantfile_bytes_are_fair(const char *bytes, size_t length, const char *name, fv_faults *faults)
{
    scanner s = {bytes, bytes + length, 1};
    for (int c = next(&s); c >= 0; c = next(&s)) {
        if (c != '<')
            continue;
        const int line = s.line;
        const int sort = s.at < s.end ? *s.at : -1;
        if (sort == '?') {
            pass(&s, "?>");
        } else if (sort == '!') {
            next(&s);
            c = next(&s);
            pass(&s, c == '-' ? "-->" : c == '[' ? "]]>" : ">");
        } else if (!pass_tag(&s)) {
            fv_error(faults, FV_ERR_INPUT, (fv_loc){name, line},
                     "a tag of more than %d characters; nothing that a plant needs is so long", LONGEST_TAG);
            return false;
        }
    }
    return true;
}
