/* SPDX-License-Identifier: MIT */
/* SI to text that reads back to the same double, in the unit that makes the shortest number: 0.019 m is "19 mm",
 * 0.01905 m "0.75 in". What no handy unit holds exactly takes up to 17 digits; the SI unit always can. */
#include "units/unit.h"

#include <math.h>
#include <string.h>

enum { CANDIDATES = 6, NUMBER_BYTES = 40 };

/* In order of preference where numbers are of equal length; "" stands for no unit. */
static const char *const candidates[FV_DIM_KINDS][CANDIDATES] = {
    [FV_DIM_NUMBER] = {""},
    [FV_DIM_COUNT] = {""},
    [FV_DIM_FRACTION] = {"", "%"},
    [FV_DIM_LENGTH] = {"mm", "m", "in", "ft"},
    [FV_DIM_AREA] = {"m2", "cm2", "ft2", "in2"},
    [FV_DIM_VOLUME] = {"L", "m3", "gal", "ft3"},
    [FV_DIM_MASS] = {"kg", "g", "lb", "oz"},
    [FV_DIM_TIME] = {"h", "min", "s", "d"},
    [FV_DIM_TEMPERATURE] = {"degC", "degF", "K"},
    [FV_DIM_TEMPERATURE_DIFFERENCE] = {"K", "degF"},
    [FV_DIM_GAUGE_PRESSURE] = {"bar", "mbar", "psi", "mmH2O", "inH2O", "Pa"},
    [FV_DIM_ABSOLUTE_PRESSURE] = {"hPa", "bar", "psi", "inHg", "atm", "Pa"},
    [FV_DIM_POWER] = {"kW", "W", "Btu/h", "boiler_hp"},
    [FV_DIM_ENERGY] = {"kWh", "MJ", "Btu", "J"},
    [FV_DIM_MASS_FLOW] = {"kg/h", "lb/h", "kg/s"},
    [FV_DIM_VELOCITY] = {"m/s", "km/h", "mph", "ft/s"},
    [FV_DIM_DENSITY] = {"kg/m3", "lb/ft3"},
    [FV_DIM_CONDUCTIVITY] = {"W/m/K", "Btu/h/ft/degF"},
    [FV_DIM_SPECIFIC_HEAT] = {"kJ/kg/K", "J/kg/K", "Btu/lb/degF"},
    [FV_DIM_HEAT_CAPACITY] = {"kJ/K", "J/K", "Btu/degF"},
    [FV_DIM_HEAT_COEFFICIENT] = {"W/m2/K", "Btu/h/ft2/degF"},
    [FV_DIM_HEAT_PER_LENGTH] = {"W/m", "Btu/h/ft"},
    [FV_DIM_ENERGY_PER_MASS] = {"kWh/kg", "MJ/kg", "kJ/kg", "Btu/lb", "J/kg"},
    [FV_DIM_ANGLE] = {"deg", "rad"},
    [FV_DIM_FLOW_COEFFICIENT] = {"m3/h", "Cv"},
    [FV_DIM_PRICE] = {""},
};

/* The value of si in the candidate unit. */
static bool in_unit(fv_dim dim, const char *word, double si, double *value)
{
    units_unit unit = {.num = 1.0, .den = 1.0};
    fv_text problem = {0};
    const char *end = units_expression_read(NULL, word, units_dim_powers(dim), false, &unit, &problem);
    fv_text_free(&problem);
    if (dim == FV_DIM_FLOW_COEFFICIENT)
        *value = unit.says == UNITS_SAYS_CV ? si / unit.num : si;
    else
        *value = si * unit.den / unit.num - (dim == FV_DIM_TEMPERATURE ? unit.zero : 0.0);
    return end != NULL;
}

/* The shortest text of value in that unit that reads back as si; false: none of up to 17 digits does. It starts at 12
 * digits, since the last ones of a Fahrenheit temperature are noise of the conversion. */
static bool exact_text(fv_dim dim, const char *word, double si, double value, char *buffer, size_t size)
{
    for (int digits = 12; digits <= 17; digits++) {
        double back;
        units_number_print(buffer, size, 'g', digits, value);
        if (*word) {
            size_t used = strlen(buffer);
            buffer[used] = ' ';
            memcpy(buffer + used + 1, word, strlen(word) + 1);
        }
        if (fv_quantity_parse(NULL, dim, buffer, &back, NULL) == FV_OK && back == si)
            return true;
    }
    return false;
}

bool fv_quantity_print(fv_dim dim, double si, char *buffer, size_t size)
{
    char best[2 * NUMBER_BYTES] = "", text[2 * NUMBER_BYTES];
    size_t best_length = NUMBER_BYTES;
    if (units_dim_kind_of(dim) == UNITS_KIND_OTHER || !isfinite(si))
        return false;
    for (int i = 0; i < CANDIDATES && candidates[dim][i]; i++) {
        const char *word = candidates[dim][i];
        double value;
        if (!in_unit(dim, word, si, &value) || !isfinite(value) || !exact_text(dim, word, si, value, text, sizeof text))
            continue;
        size_t length = strcspn(text, " ");
        if (length < best_length) {
            memcpy(best, text, sizeof best);
            best_length = length;
        }
    }
    if (!*best || strlen(best) >= size)
        return false;
    memcpy(buffer, best, strlen(best) + 1);
    return true;
}

bool fv_quantity_write(fv_dim dim, double si, fv_text *out)
{
    if (!out)
        return false;
    char text[2 * NUMBER_BYTES];
    if (!fv_quantity_print(dim, si, text, sizeof text))
        return false;
    fv_text_add(out, "%s", text);
    return !out->failed;
}
