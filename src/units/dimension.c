/* SPDX-License-Identifier: MIT */
/* What each dimension is called, how it is written, and the kinds of quantity that a wrong unit may be. */
#include "units/unit.h"

#include <string.h>

typedef struct {
    const char *name;
    const char *example; /* one, or two joined by " or " */
    const char *si_unit, *suffix;
    units_dim_kind kind;
    units_powers powers;
} dim_row;

/* m, kg, s, K, rad */
static const dim_row rows[FV_DIM_KINDS] = {
    [FV_DIM_NUMBER] = {"a plain number", "0.6", "", "", UNITS_KIND_PLAIN, {{0}}},
    [FV_DIM_COUNT] = {"a whole number", "24", "", "", UNITS_KIND_PLAIN, {{0}}},
    [FV_DIM_FRACTION] = {"a share of 1", "0.6 or 60 %", "", "", UNITS_KIND_PLAIN, {{0}}},
    [FV_DIM_LENGTH] = {"a length", "19 mm or 3/4 in", "m", "_m", UNITS_KIND_UNIT, {{1}}},
    [FV_DIM_AREA] = {"an area", "0.5 m2 or 6 ft2", "m2", "_m2", UNITS_KIND_UNIT, {{2}}},
    [FV_DIM_VOLUME] = {"a volume", "60 L or 55 gal", "m3", "_m3", UNITS_KIND_UNIT, {{3}}},
    [FV_DIM_MASS] = {"a mass", "2.3 kg or 5 lb", "kg", "_kg", UNITS_KIND_UNIT, {{0, 1}}},
    [FV_DIM_TIME] = {"a time", "90 min or 6 h 30 min", "s", "_s", UNITS_KIND_UNIT, {{0, 0, 1}}},
    [FV_DIM_TEMPERATURE] = {"a temperature", "80 degC or 176 degF", "K", "_k", UNITS_KIND_UNIT, {{0, 0, 0, 1}}},
    [FV_DIM_TEMPERATURE_DIFFERENCE] =
        {"a temperature difference", "10 K or 18 degF", "K", "_k", UNITS_KIND_UNIT, {{0, 0, 0, 1}}},
    [FV_DIM_GAUGE_PRESSURE] =
        {"a gauge pressure", "0.25 bar or 4 psi", "Pa", "_pa_gauge", UNITS_KIND_UNIT, {{-1, 1, -2}}},
    [FV_DIM_ABSOLUTE_PRESSURE] =
        {"an absolute pressure", "1013 hPa or 14.7 psia", "Pa", "_pa_absolute", UNITS_KIND_UNIT, {{-1, 1, -2}}},
    [FV_DIM_POWER] = {"a power", "24 kW or 80000 Btu/h", "W", "_w", UNITS_KIND_UNIT, {{2, 1, -3}}},
    [FV_DIM_ENERGY] = {"an energy", "12.8 kWh or 50 MJ", "J", "_j", UNITS_KIND_UNIT, {{2, 1, -2}}},
    [FV_DIM_MASS_FLOW] = {"a mass flow", "20 kg/h or 45 lb/h", "kg/s", "_kg_s", UNITS_KIND_UNIT, {{0, 1, -1}}},
    [FV_DIM_VELOCITY] = {"a velocity", "5 m/s or 10 mph", "m/s", "_m_s", UNITS_KIND_UNIT, {{1, 0, -1}}},
    [FV_DIM_DENSITY] = {"a density", "600 kg/m3 or 37 lb/ft3", "kg/m3", "_kg_m3", UNITS_KIND_UNIT, {{-3, 1}}},
    [FV_DIM_CONDUCTIVITY] =
        {"a conductivity", "0.04 W/m/K or 0.3 Btu/h/ft/degF", "W/m/K", "_w_m_k", UNITS_KIND_UNIT, {{1, 1, -3, -1}}},
    [FV_DIM_SPECIFIC_HEAT] =
        {"a specific heat", "3.1 kJ/kg/K or 0.7 Btu/lb/degF", "J/kg/K", "_j_kg_k", UNITS_KIND_UNIT, {{2, 0, -2, -1}}},
    [FV_DIM_HEAT_CAPACITY] =
        {"a heat capacity", "40 kJ/K or 20 Btu/degF", "J/K", "_j_k", UNITS_KIND_UNIT, {{2, 1, -2, -1}}},
    [FV_DIM_HEAT_COEFFICIENT] =
        {"a heat coefficient", "8 W/m2/K or 2 Btu/h/ft2/degF", "W/m2/K", "_w_m2_k", UNITS_KIND_UNIT, {{0, 1, -3, -1}}},
    [FV_DIM_HEAT_PER_LENGTH] =
        {"a heat per length", "90 W/m or 90 Btu/h/ft", "W/m", "_w_m", UNITS_KIND_UNIT, {{1, 1, -3}}},
    [FV_DIM_ENERGY_PER_MASS] =
        {"an energy per mass", "12.8 kWh/kg or 8000 Btu/lb", "J/kg", "_j_kg", UNITS_KIND_UNIT, {{2, 0, -2}}},
    [FV_DIM_ANGLE] = {"an angle", "45 deg or 0.8 rad", "rad", "_rad", UNITS_KIND_UNIT, {{0, 0, 0, 0, 1}}},
    [FV_DIM_FLOW_COEFFICIENT] =
        {"a flow coefficient Kv", "12 m3/h or 14 Cv", "m3/h", "_m3_h", UNITS_KIND_PLAIN, {{3, 0, -1}}},
    [FV_DIM_PRICE] = {"a price", "12.50", "", "", UNITS_KIND_PLAIN, {{0}}},
    [FV_DIM_TEXT] = {"a text", "any words", "", "", UNITS_KIND_OTHER, {{0}}},
    [FV_DIM_ID] = {"a name", "bin1", "", "", UNITS_KIND_OTHER, {{0}}},
    [FV_DIM_WORD] = {"a word", "propane", "", "", UNITS_KIND_OTHER, {{0}}},
};

/* m, kg, s, K, rad, A. Only what a slip of the pen is likely to be. */
static const struct {
    const char *name;
    units_powers powers;
} kinds[] = {
    {"a plain number", {{0}}},
    {"a length", {{1}}},
    {"an area", {{2}}},
    {"a volume", {{3}}},
    {"a mass", {{0, 1}}},
    {"a time", {{0, 0, 1}}},
    {"a temperature", {{0, 0, 0, 1}}},
    {"a pressure", {{-1, 1, -2}}},
    {"a power", {{2, 1, -3}}},
    {"an energy", {{2, 1, -2}}},
    {"a mass flow", {{0, 1, -1}}},
    {"a velocity", {{1, 0, -1}}},
    {"a density", {{-3, 1}}},
    {"a conductivity", {{1, 1, -3, -1}}},
    {"a specific heat", {{2, 0, -2, -1}}},
    {"a heat capacity", {{2, 1, -2, -1}}},
    {"a heat coefficient", {{0, 1, -3, -1}}},
    {"a heat per length", {{1, 1, -3}}},
    {"an energy per mass", {{2, 0, -2}}},
    {"an angle", {{0, 0, 0, 0, 1}}},
    {"a volume flow", {{3, 0, -1}}},
    {"a force", {{1, 1, -2}}},
    {"an acceleration", {{1, 0, -2}}},
    {"a frequency", {{0, 0, -1}}},
    {"a heat per area", {{0, 1, -3}}},
    {"a heat loss per temperature difference", {{2, 1, -3, -1}}},
    {"a thermal resistance", {{0, -1, 3, 1}}},
    {"an area per time", {{2, 0, -1}}},
    {"a volume per mass", {{3, -1}}},
    {"a mass per length", {{-1, 1}}},
    {"a mass per area", {{-2, 1}}},
    {"a pressure per length", {{-2, 1, -2}}},
    {"an electric current", {{0, 0, 0, 0, 0, 1}}},
    {"a voltage", {{2, 1, -3, 0, 0, -1}}},
};

bool units_powers_equal(units_powers a, units_powers b)
{
    return memcmp(a.of, b.of, sizeof a.of) == 0;
}

static bool known(fv_dim dim)
{
    return (int)dim >= 0 && dim < FV_DIM_KINDS;
}

const char *fv_dim_name(fv_dim dim)
{
    return known(dim) ? rows[dim].name : "";
}

const char *fv_dim_example(fv_dim dim)
{
    return known(dim) ? rows[dim].example : "";
}

const char *fv_dim_si_unit(fv_dim dim)
{
    return known(dim) ? rows[dim].si_unit : "";
}

const char *fv_dim_json_suffix(fv_dim dim)
{
    return known(dim) ? rows[dim].suffix : "";
}

units_dim_kind units_dim_kind_of(fv_dim dim)
{
    return known(dim) ? rows[dim].kind : UNITS_KIND_OTHER;
}

units_powers units_dim_powers(fv_dim dim)
{
    return known(dim) ? rows[dim].powers : (units_powers){{0}};
}

void units_dim_expect(fv_dim dim, fv_text *out)
{
    if (!known(dim))
        return;
    const dim_row *row = &rows[dim];
    const char *second = strstr(row->example, " or ");
    int first = second ? (int)(second - row->example) : (int)strlen(row->example);
    fv_text_add(out, "%s%s, such as \"%.*s\"", row->name, row->kind == UNITS_KIND_UNIT ? " with its unit" : "", first,
                row->example);
    if (second)
        fv_text_add(out, " or \"%s\"", second + strlen(" or "));
}

const char *units_powers_name(units_powers powers)
{
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (units_powers_equal(kinds[i].powers, powers))
            return kinds[i].name;
    return NULL;
}
