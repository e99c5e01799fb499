/* SPDX-License-Identifier: MIT */
#include "print/reword.h"

#include "farvessel/constants.h"
#include "print/show.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* The units that messages are made in, and those that files are written in beside them. */
static const struct {
    const char *unit;
    double si, zero; /* SI = number * si + zero */
    fv_show show;
} known[] = {
    {"mm", 1e-3, 0, FV_SHOW_BORE},
    {"cm", 1e-2, 0, FV_SHOW_BORE},
    {"m", 1, 0, FV_SHOW_LENGTH},
    {"m2", 1, 0, FV_SHOW_AREA},
    {"L", 1e-3, 0, FV_SHOW_VOLUME},
    {"m3", 1, 0, FV_SHOW_VOLUME},
    {"kg", 1, 0, FV_SHOW_MASS},
    {"mbar", 100, 0, FV_SHOW_PRESSURE},
    {"bar", 1e5, 0, FV_SHOW_PRESSURE},
    {"degC", 1, 273.15, FV_SHOW_TEMPERATURE},
    {"K", 1, 0, FV_SHOW_TEMPERATURE_DIFFERENCE},
    {"kg/h", 1 / 3600.0, 0, FV_SHOW_STEAM},
    {"W", 1, 0, FV_SHOW_POWER},
    {"kW", 1e3, 0, FV_SHOW_POWER},
    {"m/s", 1, 0, FV_SHOW_VELOCITY},
    {"in", FV_INCH, 0, FV_SHOW_BORE},
    {"ft", FV_FOOT, 0, FV_SHOW_LENGTH},
    {"gal", 3.785411784e-3, 0, FV_SHOW_VOLUME},
    {"lb", 0.45359237, 0, FV_SHOW_MASS},
    {"psi", 6894.757293168, 0, FV_SHOW_PRESSURE},
};

static bool is_unit_end(char c)
{
    return !isalnum((unsigned char)c) && c != '/' && c != '"';
}

/* Length of "50 mm" at the start of the text, and the quantity; 0: there is none. */
static size_t quantity_at(const char *text, double *si, fv_show *show)
{
    char *end;
    if (!isdigit((unsigned char)*text))
        return 0;
    const double number = strtod(text, &end);
    if (*end != ' ')
        return 0;
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        const size_t length = strlen(known[i].unit);
        if (strncmp(end + 1, known[i].unit, length) == 0 && is_unit_end(end[1 + length])) {
            *si = number * known[i].si + known[i].zero;
            *show = known[i].show;
            return (size_t)(end - text) + 1 + length;
        }
    }
    return 0;
}

void print_reword(fv_unit_system units, const char *text, fv_text *out)
{
    char before = ' ';
    while (*text) {
        double si;
        fv_show show;
        const size_t length = strchr(" (", before) ? quantity_at(text, &si, &show) : 0;
        if (length)
            fv_text_add(out, "%s", print_shown_brief(units, show, si).text);
        else
            fv_text_add(out, "%c", *text);
        before = length ? text[length - 1] : *text;
        text += length ? length : 1;
    }
}
