/* SPDX-License-Identifier: MIT */
/* Numbers for people: the display unit of each system, three significant digits, no exponents at ordinary sizes. */
#include "farvessel/constants.h"
#include "units/unit.h"

#include <math.h>
#include <string.h>

typedef struct {
    const char *unit;
    double num, den, zero; /* shown = si * num / den - zero */
    int decimals_at_most;
} show_row;

#define LB 0.45359237
#define GAL 3.785411784e-3
#define PSI 6894.757293168361
#define MPH 0.44704
#define INH2O 249.08891 /* at 4 degC */
#define KBTU 1055055.85262

static const show_row rows[FV_SHOW_KINDS][2] = {
    [FV_SHOW_BORE] = {{"mm", 1000, 1, 0, 1}, {"in", 1, FV_INCH, 0, 3}},
    [FV_SHOW_LENGTH] = {{"m", 1, 1, 0, 2}, {"ft", 1, FV_FOOT, 0, 2}},
    [FV_SHOW_AREA] = {{"m2", 1, 1, 0, 3}, {"ft2", 1, FV_FOOT *FV_FOOT, 0, 2}},
    [FV_SHOW_VOLUME] = {{"L", 1000, 1, 0, 1}, {"gal", 1, GAL, 0, 2}},
    [FV_SHOW_MASS] = {{"kg", 1, 1, 0, 2}, {"lb", 1, LB, 0, 2}},
    [FV_SHOW_PRESSURE] = {{"mbar", 1, 100, 0, 2}, {"psi", 1, PSI, 0, 3}},
    [FV_SHOW_TEMPERATURE] = {{"degC", 1, 1, 273.15, 1}, {"degF", 9, 5, 459.67, 1}},
    [FV_SHOW_TEMPERATURE_DIFFERENCE] = {{"K", 1, 1, 0, 1}, {"degF", 9, 5, 0, 1}},
    [FV_SHOW_STEAM] = {{"kg/h", 3600, 1, 0, 2}, {"lb/h", 3600, LB, 0, 2}},
    [FV_SHOW_POWER] = {{"kW", 1, 1000, 0, 2}, {"kBtu/h", 3600, KBTU, 0, 2}},
    [FV_SHOW_ENERGY] = {{"kWh", 1, 3.6e6, 0, 2}, {"kBtu", 1, KBTU, 0, 2}},
    [FV_SHOW_VELOCITY] = {{"m/s", 1, 1, 0, 2}, {"ft/s", 1, FV_FOOT, 0, 1}},
    [FV_SHOW_HEAT_PER_LENGTH] = {{"W/m", 1, 1, 0, 1}, {"Btu/h/ft", 3600 * FV_FOOT, KBTU / 1000, 0, 1}},
    [FV_SHOW_SHARE] = {{"%", 100, 1, 0, 1}, {"%", 100, 1, 0, 1}},
    [FV_SHOW_WATER] = {{"kg", 1, 1, 0, 2}, {"gal", 1, 1000 * GAL, 0, 2}},
    [FV_SHOW_WIND] = {{"m/s", 1, 1, 0, 2}, {"mph", 1, MPH, 0, 1}},
    [FV_SHOW_DROP] = {{"mbar", 1, 100, 0, 2}, {"inH2O", 1, INH2O, 0, 2}},
    [FV_SHOW_NUMBER] = {{"", 1, 1, 0, 4}, {"", 1, 1, 0, 4}},
};

static const show_row *row_of(fv_unit_system system, fv_show show)
{
    return &rows[(int)show >= 0 && show < FV_SHOW_KINDS ? show : FV_SHOW_NUMBER][system == FV_US];
}

const char *fv_show_unit(fv_unit_system system, fv_show show)
{
    return row_of(system, show)->unit;
}

double fv_show_value(fv_unit_system system, fv_show show, double si)
{
    const show_row *row = row_of(system, show);
    return si * row->num / row->den - row->zero;
}

/* Decimals that leave three significant digits, as far as the value itself has them in front of the point. */
static int decimals_for(double magnitude, int at_most)
{
    int decimals = 2;
    for (double limit = 9.995; decimals > 0 && magnitude >= limit; limit *= 10.0)
        decimals--;
    for (double limit = 0.9995; decimals < at_most && magnitude < limit; limit /= 10.0)
        decimals++;
    return decimals < at_most ? decimals : at_most;
}

char *fv_show_number(fv_unit_system system, fv_show show, double si, char *buffer, size_t size)
{
    enum { EXPONENT_FROM = 10000000 }; /* more would not fit eight characters with a sign */
    double value = fv_show_value(system, show, si);
    if (!size)
        return buffer;
    if (!isfinite(value)) {
        const char *word = isnan(value) ? "-" : value > 0.0 ? "inf" : "-inf";
        size_t length = strlen(word) < size ? strlen(word) : size - 1;
        memcpy(buffer, word, length);
        buffer[length] = '\0';
        return buffer;
    }
    double magnitude = fabs(value);
    int decimals = decimals_for(magnitude, row_of(system, show)->decimals_at_most);
    if (magnitude >= EXPONENT_FROM - 0.5)
        units_number_print(buffer, size, 'e', 2, value);
    else if (magnitude < 0.5 * pow(10.0, -decimals)) /* would show as 0.00 or -0.00 */
        units_number_print(buffer, size, 'f', 0, 0.0);
    else
        units_number_print(buffer, size, 'f', decimals, value);
    return buffer;
}
