/* SPDX-License-Identifier: MIT */
/* What headings say: names, units, what a column of numbers counts. */
#include "datafile/parts.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

static const struct {
    const char *text;
    fv_log_unit unit;
    double to_pascal;
} units[] = {
    {"degC", FV_LOG_DEG_C, 0},
    {"deg C", FV_LOG_DEG_C, 0},
    {"\xC2\xB0"
     "C",
     FV_LOG_DEG_C, 0},
    {"\xB0"
     "C",
     FV_LOG_DEG_C, 0},
    {"celsius", FV_LOG_DEG_C, 0},
    {"\xE2\x84\x83", FV_LOG_DEG_C, 0},
    {"degF", FV_LOG_DEG_F, 0},
    {"deg F", FV_LOG_DEG_F, 0},
    {"\xC2\xB0"
     "F",
     FV_LOG_DEG_F, 0},
    {"\xB0"
     "F",
     FV_LOG_DEG_F, 0},
    {"fahrenheit", FV_LOG_DEG_F, 0},
    {"\xE2\x84\x89", FV_LOG_DEG_F, 0},
    {"mbar", FV_LOG_PRESSURE, 100},
    {"hPa", FV_LOG_PRESSURE, 100},
    {"kPa", FV_LOG_PRESSURE, 1000},
    {"bar", FV_LOG_PRESSURE, 1e5},
    {"psi", FV_LOG_PRESSURE, 6894.757293168},
    {"mmH2O", FV_LOG_PRESSURE, 9.80665},
    {"Pa", FV_LOG_PRESSURE, 1},
    {"kelvin", FV_LOG_KELVIN, 0},
    {"C", FV_LOG_DEG_C, 0},
    {"F", FV_LOG_DEG_F, 0},
    {"K", FV_LOG_KELVIN, 0},
};

/* The unit as a word of its own: where it stands; single letters only in brackets or after a comma or slash. */
static const char *find_unit(const char *heading, size_t i)
{
    const size_t n = strlen(units[i].text);
    for (const char *c = heading; *c; c++) {
        if (strncasecmp(c, units[i].text, n) != 0 || isalnum((unsigned char)c[n]))
            continue;
        const bool begins = c == heading || !isalnum((unsigned char)c[-1]) || !isalpha((unsigned char)*c);
        const bool bracketed = c > heading && strchr("([,/", c[-1]);
        const bool after = c > heading + 1 && c[-1] == ' ' && strchr(",/", c[-2]);
        if (begins && (n > 1 || bracketed || after))
            return c;
    }
    return NULL;
}

fv_log_unit datafile_unit(const char *heading, double *to_pascal)
{
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (find_unit(heading, i)) {
            *to_pascal = units[i].to_pascal;
            return units[i].unit;
        }
    return FV_LOG_UNIT_UNSAID;
}

const char *datafile_name(fv_arena *arena, const char *heading)
{
    size_t n = strlen(heading);
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        const char *unit = find_unit(heading, i);
        if (unit && unit > heading) {
            n = (size_t)(unit - heading);
            break;
        }
    }
    while (n > 0 && strchr(" ([,/-:_", heading[n - 1]))
        n--;
    return n ? fv_arena_printf(arena, "%.*s", (int)n, heading) : fv_arena_copy(arena, heading);
}

bool datafile_same_name(const char *a, const char *b)
{
    for (;;) {
        while (*a == ' ')
            a++;
        while (*b == ' ')
            b++;
        if (!*a || !*b)
            return !*a && !*b;
        if (tolower((unsigned char)*a++) != tolower((unsigned char)*b++))
            return false;
    }
}

static bool has_word(const char *text, const char *word)
{
    const size_t n = strlen(word);
    for (const char *c = text; *c; c++)
        if (strncasecmp(c, word, n) == 0 && (c == text || !isalpha((unsigned char)c[-1])) &&
            !isalpha((unsigned char)c[n]))
            return true;
    return false;
}

fv_times datafile_times(const char *heading, double *unit)
{
    static const struct {
        const char *word;
        double seconds;
    } spans[] = {{"s", 1},       {"sec", 1},      {"secs", 1},     {"second", 1},  {"seconds", 1}, {"min", 60},
                 {"mins", 60},   {"minute", 60},  {"minutes", 60}, {"h", 3600},    {"hr", 3600},   {"hrs", 3600},
                 {"hour", 3600}, {"hours", 3600}, {"ms", 0.001},   {"days", 86400}};
    static const char *const rows[] = {"no",     "nr",      "row",   "rows",   "record", "rec",
                                       "sample", "reading", "index", "number", "n",      "id"};
    *unit = NAN;
    for (size_t i = 0; i < sizeof spans / sizeof *spans; i++)
        if (has_word(heading, spans[i].word))
            *unit = spans[i].seconds;
    if (!isnan(*unit) || has_word(heading, "elapsed"))
        return FV_TIMES_ELAPSED;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (has_word(heading, rows[i]))
            return FV_TIMES_ROWS;
    return strchr(heading, '#') ? FV_TIMES_ROWS : FV_TIMES_UNSAID;
}
