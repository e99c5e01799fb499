/* SPDX-License-Identifier: MIT */
/* The common units, so that a plant of ordinary words never waits for UDUNITS-2's database (about 5 ms to read).
 *
 * Each row: word, UDUNITS-2 definition, ratio as two numbers that are exact where the definition is, zero, powers. The
 * tests hold every row against UDUNITS-2. Where the trade and UDUNITS-2 read a word differently, the trade's reading
 * stands here: gal is the US gallon of 231 cubic inches (there a gal is an acceleration), mph miles per hour (there a
 * milliphot), oz an ounce of mass (there of volume), ' and " feet and inches (there of arc), C and F degrees (there
 * coulomb and farad), a boiler horsepower exactly 33475 Btu/h (there 9809.5 W). Btu is the International Table one.
 * A head of water is of 1000 kg/m3 under standard gravity, as in the conventional mmH2O. */
#include "units/unit.h"

#include <string.h>
#include <strings.h>

/* m, kg, s, K, rad */
#define NUMBER                                                                                                         \
    {                                                                                                                  \
        {                                                                                                              \
            0                                                                                                          \
        }                                                                                                              \
    }
#define LENGTH                                                                                                         \
    {                                                                                                                  \
        {                                                                                                              \
            1                                                                                                          \
        }                                                                                                              \
    }
#define AREA                                                                                                           \
    {                                                                                                                  \
        {                                                                                                              \
            2                                                                                                          \
        }                                                                                                              \
    }
#define VOLUME                                                                                                         \
    {                                                                                                                  \
        {                                                                                                              \
            3                                                                                                          \
        }                                                                                                              \
    }
#define MASS                                                                                                           \
    {                                                                                                                  \
        {                                                                                                              \
            0, 1                                                                                                       \
        }                                                                                                              \
    }
#define TIME                                                                                                           \
    {                                                                                                                  \
        {                                                                                                              \
            0, 0, 1                                                                                                    \
        }                                                                                                              \
    }
#define TEMPERATURE                                                                                                    \
    {                                                                                                                  \
        {                                                                                                              \
            0, 0, 0, 1                                                                                                 \
        }                                                                                                              \
    }
#define PRESSURE                                                                                                       \
    {                                                                                                                  \
        {                                                                                                              \
            -1, 1, -2                                                                                                  \
        }                                                                                                              \
    }
#define POWER                                                                                                          \
    {                                                                                                                  \
        {                                                                                                              \
            2, 1, -3                                                                                                   \
        }                                                                                                              \
    }
#define ENERGY                                                                                                         \
    {                                                                                                                  \
        {                                                                                                              \
            2, 1, -2                                                                                                   \
        }                                                                                                              \
    }
#define FORCE                                                                                                          \
    {                                                                                                                  \
        {                                                                                                              \
            1, 1, -2                                                                                                   \
        }                                                                                                              \
    }
#define ANGLE                                                                                                          \
    {                                                                                                                  \
        {                                                                                                              \
            0, 0, 0, 0, 1                                                                                              \
        }                                                                                                              \
    }
#define VELOCITY                                                                                                       \
    {                                                                                                                  \
        {                                                                                                              \
            1, 0, -1                                                                                                   \
        }                                                                                                              \
    }
#define VOLUME_FLOW                                                                                                    \
    {                                                                                                                  \
        {                                                                                                              \
            3, 0, -1                                                                                                   \
        }                                                                                                              \
    }
#define HEAD                                                                                                           \
    {                                                                                                                  \
        {                                                                                                              \
            -2, 1, -2                                                                                                  \
        }                                                                                                              \
    }

#define ROW(word, definition, num, den, powers)                                                                        \
    {                                                                                                                  \
        word, definition,                                                                                              \
        {                                                                                                              \
            num, den, 0.0, powers, UNITS_SAYS_NOTHING                                                                  \
        }                                                                                                              \
    }
#define DEGREES(word, definition, num, den, zero)                                                                      \
    {                                                                                                                  \
        word, definition,                                                                                              \
        {                                                                                                              \
            num, den, zero, TEMPERATURE, UNITS_SAYS_NOTHING                                                            \
        }                                                                                                              \
    }
#define SAYING(word, definition, num, den, powers, says)                                                               \
    {                                                                                                                  \
        word, definition,                                                                                              \
        {                                                                                                              \
            num, den, 0.0, powers, says                                                                                \
        }                                                                                                              \
    }

/* Exact: pound and inch of 1959; psi = lbf/in2; Btu_IT = 2326 J/kg * lb * degF/K. */
#define LB_NUM 45359237.0
#define LB_DEN 1e8
#define PSI_NUM 44482216152605.0
#define PSI_DEN 6451600000.0
#define BTU_NUM 105505585262.0
#define BTU_DEN 1e8
#define GAL_NUM 3785411784.0
#define GAL_DEN 1e12
#define BOILER_HP_NUM (33475.0 * BTU_NUM)
#define BOILER_HP_DEN (3600.0 * BTU_DEN)
/* 1 Cv passes 1 US gal/min at 1 psi, 1 Kv 1 m3/h at 1 bar: Kv/Cv = 0.06 * 3.785411784 * sqrt(1 bar / 1 psi). */
#define KV_PER_CV 0.8649776554423018

const units_unit_row units_unit_rows[] = {
    /* length */
    ROW("mm", "mm", 1, 1000, LENGTH),
    ROW("cm", "cm", 1, 100, LENGTH),
    ROW("m", "m", 1, 1, LENGTH),
    ROW("km", "km", 1000, 1, LENGTH),
    ROW("um", "um", 1, 1e6, LENGTH),
    ROW("metre", "m", 1, 1, LENGTH),
    ROW("metres", "m", 1, 1, LENGTH),
    ROW("meter", "m", 1, 1, LENGTH),
    ROW("meters", "m", 1, 1, LENGTH),
    ROW("in", "inch", 254, 10000, LENGTH),
    ROW("inch", "inch", 254, 10000, LENGTH),
    ROW("inches", "inch", 254, 10000, LENGTH),
    ROW("\"", "inch", 254, 10000, LENGTH),
    ROW("ft", "ft", 3048, 10000, LENGTH),
    ROW("foot", "foot", 3048, 10000, LENGTH),
    ROW("feet", "feet", 3048, 10000, LENGTH),
    ROW("'", "ft", 3048, 10000, LENGTH),
    ROW("yd", "yd", 9144, 10000, LENGTH),
    ROW("mi", "international_mile", 1609344, 1000, LENGTH),
    ROW("mile", "international_mile", 1609344, 1000, LENGTH),
    ROW("miles", "international_mile", 1609344, 1000, LENGTH),
    /* area and volume */
    ROW("sqft", "ft2", 9290304, 1e8, AREA),
    ROW("cuft", "ft3", 28316846592.0, 1e12, VOLUME),
    ROW("L", "L", 1, 1000, VOLUME),
    ROW("l", "L", 1, 1000, VOLUME),
    ROW("litre", "L", 1, 1000, VOLUME),
    ROW("litres", "L", 1, 1000, VOLUME),
    ROW("liter", "L", 1, 1000, VOLUME),
    ROW("liters", "L", 1, 1000, VOLUME),
    ROW("mL", "mL", 1, 1e6, VOLUME),
    ROW("ml", "mL", 1, 1e6, VOLUME),
    ROW("gal", "231 in3", GAL_NUM, GAL_DEN, VOLUME),
    ROW("gallon", "231 in3", GAL_NUM, GAL_DEN, VOLUME),
    ROW("gallons", "231 in3", GAL_NUM, GAL_DEN, VOLUME),
    ROW("gpm", "231 in3/min", GAL_NUM, 60 * GAL_DEN, VOLUME_FLOW),
    ROW("cfm", "ft3/min", 28316846592.0, 60e12, VOLUME_FLOW),
    /* mass and force */
    ROW("kg", "kg", 1, 1, MASS),
    ROW("kgs", "kg", 1, 1, MASS),
    ROW("g", "g", 1, 1000, MASS),
    ROW("t", "t", 1000, 1, MASS),
    ROW("tonne", "t", 1000, 1, MASS),
    ROW("tonnes", "t", 1000, 1, MASS),
    ROW("lb", "lb", LB_NUM, LB_DEN, MASS),
    ROW("lbs", "lb", LB_NUM, LB_DEN, MASS),
    ROW("pound", "lb", LB_NUM, LB_DEN, MASS),
    ROW("pounds", "lb", LB_NUM, LB_DEN, MASS),
    ROW("oz", "lb/16", LB_NUM, 16 * LB_DEN, MASS),
    ROW("ounce", "lb/16", LB_NUM, 16 * LB_DEN, MASS),
    ROW("ounces", "lb/16", LB_NUM, 16 * LB_DEN, MASS),
    ROW("N", "N", 1, 1, FORCE),
    ROW("lbf", "lbf", 44482216152605.0, 1e13, FORCE),
    /* time */
    ROW("s", "s", 1, 1, TIME),
    ROW("sec", "s", 1, 1, TIME),
    ROW("secs", "s", 1, 1, TIME),
    ROW("second", "s", 1, 1, TIME),
    ROW("seconds", "s", 1, 1, TIME),
    ROW("min", "min", 60, 1, TIME),
    ROW("mins", "min", 60, 1, TIME),
    ROW("minute", "min", 60, 1, TIME),
    ROW("minutes", "min", 60, 1, TIME),
    ROW("h", "h", 3600, 1, TIME),
    ROW("hr", "h", 3600, 1, TIME),
    ROW("hrs", "h", 3600, 1, TIME),
    ROW("hour", "h", 3600, 1, TIME),
    ROW("hours", "h", 3600, 1, TIME),
    ROW("d", "d", 86400, 1, TIME),
    ROW("day", "d", 86400, 1, TIME),
    ROW("days", "d", 86400, 1, TIME),
    ROW("week", "week", 604800, 1, TIME),
    ROW("weeks", "week", 604800, 1, TIME),
    /* temperature */
    ROW("K", "K", 1, 1, TEMPERATURE),
    ROW("degK", "K", 1, 1, TEMPERATURE),
    DEGREES("degC", "degC", 1, 1, 273.15),
    DEGREES("C", "degC", 1, 1, 273.15),
    DEGREES("degF", "degF", 5, 9, 459.67),
    DEGREES("F", "degF", 5, 9, 459.67),
    /* pressure */
    ROW("Pa", "Pa", 1, 1, PRESSURE),
    ROW("hPa", "hPa", 100, 1, PRESSURE),
    ROW("kPa", "kPa", 1000, 1, PRESSURE),
    ROW("MPa", "MPa", 1e6, 1, PRESSURE),
    ROW("bar", "bar", 1e5, 1, PRESSURE),
    ROW("mbar", "mbar", 100, 1, PRESSURE),
    ROW("psi", "psi", PSI_NUM, PSI_DEN, PRESSURE),
    ROW("PSI", "psi", PSI_NUM, PSI_DEN, PRESSURE),
    ROW("atm", "atm", 101325, 1, PRESSURE),
    ROW("mmH2O", "mm H2O", 980665, 1e5, PRESSURE),
    ROW("cmH2O", "cm H2O", 980665, 1e4, PRESSURE),
    ROW("inH2O", "inch H2O", 24908891, 1e5, PRESSURE),
    ROW("mmWC", "mm H2O", 980665, 1e5, PRESSURE),
    ROW("inWC", "inch H2O", 24908891, 1e5, PRESSURE),
    ROW("H2O", "H2O", 980665, 100, HEAD),
    ROW("WC", "H2O", 980665, 100, HEAD),
    ROW("mmHg", "mmHg", 133322387415.0, 1e9, PRESSURE),
    ROW("inHg", "inHg", 3386388640341.0, 1e9, PRESSURE),
    SAYING("barg", "bar", 1e5, 1, PRESSURE, UNITS_SAYS_GAUGE),
    SAYING("mbarg", "mbar", 100, 1, PRESSURE, UNITS_SAYS_GAUGE),
    SAYING("kPag", "kPa", 1000, 1, PRESSURE, UNITS_SAYS_GAUGE),
    SAYING("psig", "psi", PSI_NUM, PSI_DEN, PRESSURE, UNITS_SAYS_GAUGE),
    SAYING("PSIG", "psi", PSI_NUM, PSI_DEN, PRESSURE, UNITS_SAYS_GAUGE),
    SAYING("bara", "bar", 1e5, 1, PRESSURE, UNITS_SAYS_ABSOLUTE),
    SAYING("mbara", "mbar", 100, 1, PRESSURE, UNITS_SAYS_ABSOLUTE),
    SAYING("kPaa", "kPa", 1000, 1, PRESSURE, UNITS_SAYS_ABSOLUTE),
    SAYING("psia", "psi", PSI_NUM, PSI_DEN, PRESSURE, UNITS_SAYS_ABSOLUTE),
    SAYING("PSIA", "psi", PSI_NUM, PSI_DEN, PRESSURE, UNITS_SAYS_ABSOLUTE),
    /* power and energy */
    ROW("W", "W", 1, 1, POWER),
    ROW("kW", "kW", 1000, 1, POWER),
    ROW("MW", "MW", 1e6, 1, POWER),
    ROW("MBH", "1000 Btu/h", BTU_NUM, 3600e5, POWER),
    ROW("boiler_horsepower", "33475 Btu/h", BOILER_HP_NUM, BOILER_HP_DEN, POWER),
    ROW("boiler_hp", "33475 Btu/h", BOILER_HP_NUM, BOILER_HP_DEN, POWER),
    ROW("J", "J", 1, 1, ENERGY),
    ROW("kJ", "kJ", 1000, 1, ENERGY),
    ROW("MJ", "MJ", 1e6, 1, ENERGY),
    ROW("GJ", "GJ", 1e9, 1, ENERGY),
    ROW("Wh", "W h", 3600, 1, ENERGY),
    ROW("kWh", "kW h", 3.6e6, 1, ENERGY),
    ROW("MWh", "MW h", 3.6e9, 1, ENERGY),
    ROW("Btu", "Btu", BTU_NUM, BTU_DEN, ENERGY),
    ROW("BTU", "Btu", BTU_NUM, BTU_DEN, ENERGY),
    ROW("Btu_IT", "Btu", BTU_NUM, BTU_DEN, ENERGY),
    ROW("kBtu", "1000 Btu", BTU_NUM, 1e5, ENERGY),
    ROW("kcal", "kcal", 41868, 10, ENERGY),
    /* angle, velocity, share, flow coefficient */
    ROW("rad", "rad", 1, 1, ANGLE),
    ROW("deg", "angular_degree", 3.14159265358979323846, 180, ANGLE),
    ROW("degree", "angular_degree", 3.14159265358979323846, 180, ANGLE),
    ROW("degrees", "angular_degree", 3.14159265358979323846, 180, ANGLE),
    ROW("mph", "international_mile/hour", 1609344, 3600e3, VELOCITY),
    ROW("kph", "km/hour", 1000, 3600, VELOCITY),
    ROW("%", "0.01", 1, 100, NUMBER),
    ROW("percent", "0.01", 1, 100, NUMBER),
    ROW("Kv", "m3/hour", 1, 3600, VOLUME_FLOW),
    SAYING("Cv", "0.8649776554423018 m3/hour", KV_PER_CV, 3600, VOLUME_FLOW, UNITS_SAYS_CV),
};
const size_t units_unit_row_count = sizeof units_unit_rows / sizeof *units_unit_rows;

/* Words that two trades read differently, so that guessing would be wrong by a factor. */
static const struct {
    const char *word, *refusal;
} refusals[] = {
    {"hp", "may be an engine's (0.746 kW) or a boiler's (9.81 kW); write kW or boiler_hp"},
    {"bhp", "may be an engine's (0.746 kW) or a boiler's (9.81 kW); write kW or boiler_hp"},
    {"horsepower", "may be an engine's (0.746 kW) or a boiler's (9.81 kW); write kW or boiler_hp"},
    {"MBtu", "may be a thousand or a million Btu; write kBtu or the number in full"},
    {"ton", "may be 907, 1000 or 1016 kg; write kg, tonne or lb"},
    {"tons", "may be 907, 1000 or 1016 kg; write kg, tonne or lb"},
};

const units_unit_row *units_unit_find(const char *word)
{
    for (size_t i = 0; i < units_unit_row_count; i++)
        if (units_unit_rows[i].word[0] == word[0] && !strcmp(units_unit_rows[i].word, word))
            return &units_unit_rows[i];
    return NULL;
}

const char *units_unit_refusal(const char *word)
{
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++)
        if (!strcasecmp(refusals[i].word, word))
            return refusals[i].refusal;
    return NULL;
}

/* One letter changed, added, left out, or two neighbours swapped. */
static bool one_slip_apart(const char *a, const char *b)
{
    while (*a && *a == *b) {
        a++;
        b++;
    }
    if (!*a || !*b)
        return strlen(a) + strlen(b) == 1;
    return !strcmp(a + 1, b + 1) || !strcmp(a + 1, b) || !strcmp(a, b + 1) ||
           (a[0] == b[1] && a[1] == b[0] && !strcmp(a + 2, b + 2));
}

const char *units_unit_nearest(const char *word, units_powers wanted, bool any_kind)
{
    const char *best = NULL;
    int best_cost = 4;
    for (size_t i = 0; i < units_unit_row_count; i++) {
        const units_unit_row *row = &units_unit_rows[i];
        int letters = !strcasecmp(row->word, word) ? 0 : strlen(word) > 2 && one_slip_apart(row->word, word) ? 2 : 4;
        bool other_kind = !units_powers_equal(row->unit.powers, wanted);
        int cost = letters + other_kind;
        if (cost < best_cost && (any_kind || !other_kind)) {
            best = row->word;
            best_cost = cost;
        }
    }
    return best;
}
