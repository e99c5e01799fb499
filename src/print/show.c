/* SPDX-License-Identifier: MIT */
#include "print/show.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

print_shown print_shown_as(fv_unit_system system, fv_show show, double si)
{
    print_shown shown;
    char number[PRINT_SHOW_SIZE / 2];
    const char *unit = fv_show_unit(system, show);
    fv_show_number(system, show, si, number, sizeof number);
    snprintf(shown.text, sizeof shown.text, "%s%s%s", number, unit[0] ? " " : "", unit);
    return shown;
}

print_shown print_shown_brief(fv_unit_system system, fv_show show, double si)
{
    print_shown shown;
    char number[PRINT_SHOW_SIZE / 2];
    fv_show_number(system, show, si, number, sizeof number);
    size_t length = strlen(number);
    if (strchr(number, '.') && !strchr(number, 'e')) {
        while (number[length - 1] == '0')
            length--;
        length -= number[length - 1] == '.';
    }
    const char *unit = fv_show_unit(system, show);
    snprintf(shown.text, sizeof shown.text, "%.*s%s%s", (int)length, number, unit[0] ? " " : "", unit);
    return shown;
}

print_shown print_tiny(double value)
{
    print_shown shown;
    snprintf(shown.text, sizeof shown.text, value == 0.0 ? "%.0f" : "%.1e", value);
    return shown;
}

print_shown print_shown_time(double seconds)
{
    print_shown shown;
    double minutes = round(seconds / 60.0), hours = floor(minutes / 60.0);
    minutes -= 60.0 * hours;
    if (seconds < 60.0)
        snprintf(shown.text, sizeof shown.text, "%.3g s", seconds);
    else if (hours < 1.0)
        snprintf(shown.text, sizeof shown.text, "%.0f min", minutes);
    else if (minutes < 1.0)
        snprintf(shown.text, sizeof shown.text, "%.0f h", hours);
    else
        snprintf(shown.text, sizeof shown.text, "%.0f h %.0f min", hours, minutes);
    return shown;
}

/* How a dimension of the plant file is shown. Those without a row are shown in the unit that the file uses. */
static const struct {
    fv_dim dim;
    fv_show show;
} ways[] = {
    {FV_DIM_AREA, FV_SHOW_AREA},
    {FV_DIM_VOLUME, FV_SHOW_VOLUME},
    {FV_DIM_MASS, FV_SHOW_MASS},
    {FV_DIM_TEMPERATURE, FV_SHOW_TEMPERATURE},
    {FV_DIM_TEMPERATURE_DIFFERENCE, FV_SHOW_TEMPERATURE_DIFFERENCE},
    {FV_DIM_GAUGE_PRESSURE, FV_SHOW_PRESSURE},
    {FV_DIM_POWER, FV_SHOW_POWER},
    {FV_DIM_MASS_FLOW, FV_SHOW_STEAM},
    {FV_DIM_VELOCITY, FV_SHOW_VELOCITY},
    {FV_DIM_HEAT_PER_LENGTH, FV_SHOW_HEAT_PER_LENGTH},
    {FV_DIM_FRACTION, FV_SHOW_SHARE},
};

/* What has no row there, in US units: no more than the check lists it. */
static const struct {
    fv_dim dim;
    const char *unit;
    double si;
} us_only[] = {
    {FV_DIM_DENSITY, "lb/ft3", 16.01846337},
    {FV_DIM_SPECIFIC_HEAT, "Btu/lb/degF", 4186.8},
    {FV_DIM_HEAT_CAPACITY, "Btu/degF", 1899.1005},
    {FV_DIM_CONDUCTIVITY, "Btu/h/ft/degF", 1.730734666},
    {FV_DIM_HEAT_COEFFICIENT, "Btu/h/ft2/degF", 5.678263341},
};

/* What a tape measures in millimetres or inches below, in metres or feet above. */
static const double bore_like = 0.3;
static print_shown as_in_file(fv_dim dim, double si)
{
    print_shown shown = {""};
    fv_quantity_print(dim, si, shown.text, sizeof shown.text);
    return shown;
}

print_shown print_shown_said(fv_unit_system system, fv_show show, double si)
{
    enum { DIGITS = 4, DECIMALS = 6 };
    print_shown shown;
    char number[PRINT_SHOW_SIZE / 2];
    double value = fv_show_value(system, show, si);
    int decimals = DIGITS - 1;
    for (double size = fabs(value); size >= 10.0 && decimals > 0; size /= 10.0)
        decimals--;
    for (double size = fabs(value); size > 0.0 && size < 1.0 && decimals < DECIMALS; size *= 10.0)
        decimals++;
    int length = snprintf(number, sizeof number, "%.*f", decimals, value);
    if (length < 0 || (size_t)length >= sizeof number)
        return print_shown_as(system, show, si);
    while (decimals > 0 && number[length - 1] == '0')
        number[--length] = '\0', decimals--;
    if (number[length - 1] == '.')
        number[--length] = '\0';
    snprintf(shown.text, sizeof shown.text, "%s %s", number, fv_show_unit(system, show));
    return shown;
}

print_shown print_shown_value(fv_unit_system system, const fv_attr *attr, double si)
{
    print_shown shown = {"-"};
    if (isnan(si))
        return shown;
    if (attr->dim == FV_DIM_WORD) {
        fv_word_at(attr->words, (int)si, shown.text, sizeof shown.text);
        return shown;
    }
    if (attr->dim == FV_DIM_TIME)
        return print_shown_time(si);
    if (attr->dim == FV_DIM_LENGTH)
        return print_shown_said(system, fabs(si) < bore_like ? FV_SHOW_BORE : FV_SHOW_LENGTH, si);
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++)
        if (ways[i].dim == attr->dim)
            return print_shown_said(system, ways[i].show, si);
    for (size_t i = 0; system == FV_US && i < sizeof us_only / sizeof *us_only; i++)
        if (us_only[i].dim == attr->dim) {
            char number[PRINT_SHOW_SIZE / 2];
            fv_show_number(system, FV_SHOW_NUMBER, si / us_only[i].si, number, sizeof number);
            snprintf(shown.text, sizeof shown.text, "%s %s", number, us_only[i].unit);
            return shown;
        }
    return as_in_file(attr->dim, si);
}
