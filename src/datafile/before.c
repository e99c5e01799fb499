/* SPDX-License-Identifier: MIT */
/* Lines above the heading: when the logger began, how often it wrote, in which unit. */
#include "datafile/parts.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

/* What follows the first word that begins like one of these; NULL: none does. */
static const char *after_word(const char *line, const char *const *words, size_t count)
{
    for (const char *c = line; *c; c++)
        for (size_t i = 0; i < count; i++) {
            const size_t n = strlen(words[i]);
            if ((c == line || !isalpha((unsigned char)c[-1])) && strncasecmp(c, words[i], n) == 0) {
                c += n;
                while (isalpha((unsigned char)*c))
                    c++;
                return c;
            }
        }
    return NULL;
}

/* The first date and time, or either, in a text. */
static bool find_stamp(const char *text, datafile_stamp *stamp)
{
    for (const char *c = text; *c; c++)
        if (isdigit((unsigned char)*c) && (c == text || !isalnum((unsigned char)c[-1])) &&
            datafile_stamp_read(c, stamp))
            return true;
    return false;
}

void datafile_read_before(datafile_dialect *d, const char *line, int number)
{
    static const char *const start[] = {"start", "began", "begin", "first"};
    static const char *const interval[] = {"interval", "rate", "period", "every"};
    static const char *const unit[] = {"unit", "temperature", "scale"};
    double to_pascal;
    const char *rest = after_word(line, start, sizeof start / sizeof *start);
    datafile_stamp stamp;
    if (rest && !d->has_start && find_stamp(rest, &stamp) && stamp.time) {
        d->has_start = true;
        d->start = stamp;
        d->start_line = number;
    }
    rest = after_word(line, interval, sizeof interval / sizeof *interval);
    if (rest && isnan(d->interval)) {
        while (*rest && !isdigit((unsigned char)*rest))
            rest++;
        d->interval = datafile_duration(rest);
    }
    rest = NULL;
    for (const char *c = line; (c = after_word(c, unit, sizeof unit / sizeof *unit));)
        rest = c;
    if (rest && d->unit_before == FV_LOG_UNIT_UNSAID) {
        /* a single letter counts as a unit here */
        char bracketed[80] = "(";
        while (*rest && strchr(" :=,;(", *rest))
            rest++;
        strncat(bracketed, rest, sizeof bracketed - 3);
        d->unit_before = datafile_unit(bracketed, &to_pascal);
        if (d->unit_before == FV_LOG_PRESSURE)
            d->unit_before = FV_LOG_UNIT_UNSAID;
    }
}
