/* SPDX-License-Identifier: MIT */
/* What a field of readings holds. */
#include "datafile/parts.h"

#include <ctype.h>
#include <strings.h>

/* How loggers write a probe that is open or out of range: words, and figures no plant has. Common practice. */
static const char *const open_words[] = {"ol",    "o.l.", "o.l",   "open",  "nan",  "n/a",      "na",     "null",
                                         "none",  "err",  "error", "fault", "over", "under",    "short",  "inf",
                                         "-inf",  "+inf", "--",    "---",   "----", "-----",    "-",      "--.-",
                                         "---.-", "#n/a", "****",  "####",  "ovl",  "overload", "invalid"};
static const double OPEN_ABOVE = 999.0, OPEN_BELOW = -150.0;

static datafile_kind word(const char *text)
{
    for (size_t i = 0; i < sizeof open_words / sizeof *open_words; i++)
        if (strcasecmp(text, open_words[i]) == 0)
            return DATAFILE_OPEN;
    return DATAFILE_TEXT;
}

/* Digits with at most one mark: exact, for up to 15 digits are a whole number that a double holds, and one division
 * rounds once. */
datafile_kind datafile_number(const char *text, double *value, bool *comma)
{
    const char *c = text;
    double whole = 0, scale = 1;
    int digits = 0, points = 0, commas = 0;
    *value = NAN;
    *comma = false;
    if (*text == '\0')
        return DATAFILE_BLANK;
    const bool minus = *c == '-';
    c += *c == '-' || *c == '+';
    for (; isdigit((unsigned char)*c) || *c == '.' || *c == ','; c++) {
        if (*c == '.')
            points++;
        else if (*c == ',')
            commas++;
        else {
            whole = 10 * whole + (*c - '0');
            scale *= points + commas ? 10 : 1;
            digits++;
        }
    }
    int power = 0, used = 0;
    if (digits > 0 && (*c == 'e' || *c == 'E') &&
        (isdigit((unsigned char)c[1]) || (c[1] && isdigit((unsigned char)c[2])))) {
        const bool down = c[1] == '-';
        used = 1 + (c[1] == '-' || c[1] == '+');
        for (; isdigit((unsigned char)c[used]) && power < 400; used++)
            power = 10 * power + (c[used] - '0');
        power = down ? -power : power;
        c += used;
    }
    if (digits == 0 || *c)
        return word(text);
    if (points + commas > 1)
        return DATAFILE_MIXED;
    *comma = commas == 1;
    *value = (minus ? -1 : 1) * whole / scale * (power ? pow(10, power) : 1);
    return *value > OPEN_ABOVE || *value < OPEN_BELOW ? DATAFILE_OPEN : DATAFILE_NUMBER;
}
