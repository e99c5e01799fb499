/* SPDX-License-Identifier: MIT */
/* SI to text and back, and numbers for people. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "farvessel/units.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const fv_dim quantities[] = {
    FV_DIM_NUMBER,
    FV_DIM_COUNT,
    FV_DIM_FRACTION,
    FV_DIM_LENGTH,
    FV_DIM_AREA,
    FV_DIM_VOLUME,
    FV_DIM_MASS,
    FV_DIM_TIME,
    FV_DIM_TEMPERATURE,
    FV_DIM_PRICE,
    FV_DIM_GAUGE_PRESSURE,
    FV_DIM_ABSOLUTE_PRESSURE,
    FV_DIM_POWER,
    FV_DIM_ENERGY,
    FV_DIM_MASS_FLOW,
    FV_DIM_VELOCITY,
    FV_DIM_DENSITY,
    FV_DIM_CONDUCTIVITY,
    FV_DIM_SPECIFIC_HEAT,
    FV_DIM_TEMPERATURE_DIFFERENCE,
    FV_DIM_HEAT_CAPACITY,
    FV_DIM_ANGLE,
    FV_DIM_HEAT_COEFFICIENT,
    FV_DIM_FLOW_COEFFICIENT,
    FV_DIM_HEAT_PER_LENGTH,
    FV_DIM_ENERGY_PER_MASS,
};
enum { QUANTITIES = sizeof quantities / sizeof *quantities };

static double next_share(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static bool signed_kind(fv_dim dim)
{
    return dim != FV_DIM_COUNT && dim != FV_DIM_FRACTION && dim != FV_DIM_TEMPERATURE && dim != FV_DIM_PRICE &&
           dim != FV_DIM_ABSOLUTE_PRESSURE;
}

/* A value that the kind can have: over 24 decades, some with few digits, of either sign where that makes sense. */
static double some_value(fv_dim dim, uint64_t *seed)
{
    double share = next_share(seed), value = pow(10.0, 24.0 * next_share(seed) - 12.0);
    if (dim == FV_DIM_COUNT)
        return floor(share * 1e9);
    if (dim == FV_DIM_FRACTION)
        return share;
    if (dim == FV_DIM_TEMPERATURE)
        value = 1000.0 * share;
    if (next_share(seed) < 0.2)
        value = floor(share * 1000.0) / 100.0;
    return signed_kind(dim) && next_share(seed) < 0.3 ? -value : value;
}

static void reads_back(void *units, fv_dim dim, double value)
{
    fv_text text = {0};
    double back = NAN;
    assert_true(fv_quantity_write(dim, value, &text));
    fv_status status = fv_quantity_parse(units, dim, text.text, &back, NULL);
    if (status != FV_OK || back != value)
        fail_msg("%s: %.17g became \"%s\" and %.17g", fv_dim_name(dim), value, text.text, back);
    fv_text_free(&text);
}

static void round_trip(void **state)
{
    enum { TIMES = 3000 };
    uint64_t seed = 2024;
    for (int i = 0; i < QUANTITIES; i++) {
        reads_back(*state, quantities[i], 0.0);
        for (int n = 0; n < TIMES; n++)
            reads_back(*state, quantities[i], some_value(quantities[i], &seed));
        if (signed_kind(quantities[i])) {
            reads_back(*state, quantities[i], DBL_MAX);
            reads_back(*state, quantities[i], DBL_MIN);
            reads_back(*state, quantities[i], 5e-324);
        }
    }
    printf("check | %d kinds, %d values each, written and read | same double | got same\n", QUANTITIES, TIMES);
}

/* What was read is written as it was, or shorter. */
static void as_a_grower_writes(void **state)
{
    static const struct {
        fv_dim dim;
        const char *read, *written;
    } rows[] = {
        {FV_DIM_NUMBER, "0.6", "0.6"},
        {FV_DIM_COUNT, "24", "24"},
        {FV_DIM_FRACTION, "60 %", "60 %"},
        {FV_DIM_FRACTION, "1", "1"},
        {FV_DIM_LENGTH, "19 mm", "19 mm"},
        {FV_DIM_LENGTH, "3/4 in", "0.75 in"},
        {FV_DIM_LENGTH, "1 1/2 in", "1.5 in"},
        {FV_DIM_LENGTH, "2.5 m", "2.5 m"},
        {FV_DIM_LENGTH, "120 m", "120 m"},
        {FV_DIM_LENGTH, "2 ft 6 in", "30 in"},
        {FV_DIM_LENGTH, "-1 ft 6 in", "-18 in"},
        {FV_DIM_LENGTH, "8 ft", "8 ft"},
        {FV_DIM_LENGTH, "0.045 mm", "0.045 mm"},
        {FV_DIM_AREA, "0.5 m2", "0.5 m2"},
        {FV_DIM_AREA, "12 ft2", "12 ft2"},
        {FV_DIM_VOLUME, "60 L", "60 L"},
        {FV_DIM_VOLUME, "55 gal", "55 gal"},
        {FV_DIM_VOLUME, "2 m3", "2 m3"},
        {FV_DIM_MASS, "2.3 kg", "2.3 kg"},
        {FV_DIM_MASS, "5 lb", "5 lb"},
        {FV_DIM_TIME, "90 min", "90 min"},
        {FV_DIM_TIME, "60 min", "1 h"},
        {FV_DIM_TIME, "6 h 30 min", "6.5 h"},
        {FV_DIM_TIME, "2 d", "2 d"},
        {FV_DIM_TIME, "30 s", "30 s"},
        {FV_DIM_TEMPERATURE, "80 degC", "80 degC"},
        {FV_DIM_TEMPERATURE, "175 degF", "175 degF"},
        {FV_DIM_TEMPERATURE, "-5 degC", "-5 degC"},
        {FV_DIM_TEMPERATURE, "350 K", "350 K"},
        {FV_DIM_TEMPERATURE_DIFFERENCE, "10 degC", "10 K"},
        {FV_DIM_TEMPERATURE_DIFFERENCE, "7 degF", "7 degF"},
        {FV_DIM_GAUGE_PRESSURE, "0.25 bar", "250 mbar"},
        {FV_DIM_GAUGE_PRESSURE, "0.5 bar", "0.5 bar"},
        {FV_DIM_GAUGE_PRESSURE, "4 psi", "4 psi"},
        {FV_DIM_GAUGE_PRESSURE, "30 mmH2O", "30 mmH2O"},
        {FV_DIM_GAUGE_PRESSURE, "12 inH2O", "12 inH2O"},
        {FV_DIM_ABSOLUTE_PRESSURE, "1013 hPa", "1013 hPa"},
        {FV_DIM_ABSOLUTE_PRESSURE, "29.92 inHg", "29.92 inHg"},
        {FV_DIM_POWER, "24 kW", "24 kW"},
        {FV_DIM_POWER, "80000 Btu/h", "80000 Btu/h"},
        {FV_DIM_POWER, "2.4 boiler_horsepower", "2.4 boiler_hp"},
        {FV_DIM_ENERGY, "12.8 kWh", "12.8 kWh"},
        {FV_DIM_MASS_FLOW, "20 kg/h", "20 kg/h"},
        {FV_DIM_MASS_FLOW, "45 lb/h", "45 lb/h"},
        {FV_DIM_VELOCITY, "2 m/s", "2 m/s"},
        {FV_DIM_VELOCITY, "10 mph", "10 mph"},
        {FV_DIM_DENSITY, "600 kg/m3", "600 kg/m3"},
        {FV_DIM_CONDUCTIVITY, "0.04 W/mK", "0.04 W/m/K"},
        {FV_DIM_SPECIFIC_HEAT, "3.1 kJ/kgK", "3.1 kJ/kg/K"},
        {FV_DIM_HEAT_COEFFICIENT, "8 W/m2K", "8 W/m2/K"},
        {FV_DIM_HEAT_PER_LENGTH, "90 Btu/h/ft", "90 Btu/h/ft"},
        {FV_DIM_ENERGY_PER_MASS, "12.8 kWh/kg", "12.8 kWh/kg"},
        {FV_DIM_ANGLE, "45 deg", "45 deg"},
        {FV_DIM_FLOW_COEFFICIENT, "12", "12 m3/h"},
        {FV_DIM_FLOW_COEFFICIENT, "14 Cv", "14 Cv"},
        {FV_DIM_PRICE, "12.50", "12.5"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double si = NAN;
        fv_text text = {0};
        assert_int_equal(fv_quantity_parse(*state, rows[i].dim, rows[i].read, &si, NULL), FV_OK);
        assert_true(fv_quantity_write(rows[i].dim, si, &text));
        assert_string_equal(text.text, rows[i].written);
        fv_text_free(&text);
    }
}

static void what_cannot_be_written(void **state)
{
    (void)state;
    fv_text text = {0};
    assert_false(fv_quantity_write(FV_DIM_LENGTH, NAN, &text));
    assert_false(fv_quantity_write(FV_DIM_LENGTH, INFINITY, &text));
    assert_false(fv_quantity_write(FV_DIM_TEMPERATURE, -1.0, &text));
    assert_false(fv_quantity_write(FV_DIM_FRACTION, 1.5, &text));
    assert_false(fv_quantity_write(FV_DIM_COUNT, 2.5, &text));
    assert_false(fv_quantity_write(FV_DIM_TEXT, 1.0, &text));
    assert_false(fv_quantity_write(FV_DIM_KINDS, 1.0, &text));
    assert_null(text.text);
}

/* Conversions: 1959 pound and yard, SP 811 (from memory); the digits by hand. */
static void shown(void **state)
{
    (void)state;
    static const struct {
        fv_show show;
        double si;
        const char *metric, *us;
    } rows[] = {
        {FV_SHOW_BORE, 0.019, "19.0", "0.748"},
        {FV_SHOW_BORE, 0.01905, "19.1", "0.750"},
        {FV_SHOW_BORE, 0.002, "2.0", "0.079"},
        {FV_SHOW_LENGTH, 2.5, "2.50", "8.20"},
        {FV_SHOW_LENGTH, 120, "120", "394"},
        {FV_SHOW_AREA, 0.5, "0.500", "5.38"},
        {FV_SHOW_VOLUME, 0.06, "60.0", "15.9"},
        {FV_SHOW_VOLUME, 1, "1000", "264"},
        {FV_SHOW_MASS, 2.3, "2.30", "5.07"},
        {FV_SHOW_MASS, 12345.6, "12346", "27217"},
        {FV_SHOW_PRESSURE, 25000, "250", "3.63"},
        {FV_SHOW_PRESSURE, 27579.029, "276", "4.00"},
        {FV_SHOW_PRESSURE, 280, "2.80", "0.041"},
        {FV_SHOW_PRESSURE, -500, "-5.00", "-0.073"},
        {FV_SHOW_PRESSURE, 99950, "1000", "14.5"},
        {FV_SHOW_TEMPERATURE, 353.15, "80.0", "176"},
        {FV_SHOW_TEMPERATURE, 373.15, "100", "212"},
        {FV_SHOW_TEMPERATURE, 372.75, "99.6", "211"},
        {FV_SHOW_TEMPERATURE, 268.15, "-5.0", "23.0"},
        {FV_SHOW_TEMPERATURE, 273.15, "0", "32.0"},
        {FV_SHOW_TEMPERATURE_DIFFERENCE, 10, "10.0", "18.0"},
        {FV_SHOW_STEAM, 20 / 3600.0, "20.0", "44.1"},
        {FV_SHOW_STEAM, 0.5 / 3600.0, "0.50", "1.10"},
        {FV_SHOW_POWER, 24000, "24.0", "81.9"},
        {FV_SHOW_POWER, 880, "0.88", "3.00"},
        {FV_SHOW_ENERGY, 3.6e6, "1.00", "3.41"},
        {FV_SHOW_ENERGY, 46.08e6, "12.8", "43.7"},
        {FV_SHOW_VELOCITY, 5, "5.00", "16.4"},
        {FV_SHOW_HEAT_PER_LENGTH, 90, "90.0", "93.6"},
        {FV_SHOW_SHARE, 0.6, "60.0", "60.0"},
        {FV_SHOW_WATER, 3.785411784, "3.79", "1.00"}, /* US gallon, 231 in3, of 1 kg/L (NIST SP 811, B.8) */
        {FV_SHOW_WIND, 4.4704, "4.47", "10.0"},       /* mph: 0.44704 m/s (NIST SP 811, B.8) */
        {FV_SHOW_DROP, 249.0889, "2.49", "1.00"},     /* inch of water, 4 degC: 249.0889 Pa (NIST SP 811, B.8) */
        {FV_SHOW_SHARE, 1, "100", "100"},
        {FV_SHOW_SHARE, 0.0004, "0", "0"},
        {FV_SHOW_NUMBER, 0, "0", "0"},
        {FV_SHOW_NUMBER, -0.0, "0", "0"},
        {FV_SHOW_NUMBER, 0.012345, "0.0123", "0.0123"},
        {FV_SHOW_NUMBER, 0.99949, "0.999", "0.999"},
        {FV_SHOW_NUMBER, 0.9996, "1.00", "1.00"},
        {FV_SHOW_NUMBER, 9.996, "10.0", "10.0"},
        {FV_SHOW_NUMBER, 99.96, "100", "100"},
        {FV_SHOW_NUMBER, -1234567, "-1234567", "-1234567"},
        {FV_SHOW_NUMBER, 12345678, "1.23e+07", "1.23e+07"},
        {FV_SHOW_NUMBER, NAN, "-", "-"},
        {FV_SHOW_TEMPERATURE, NAN, "-", "-"},
        {FV_SHOW_NUMBER, INFINITY, "inf", "inf"},
        {FV_SHOW_NUMBER, -INFINITY, "-inf", "-inf"},
    };
    char buffer[32];
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_string_equal(fv_show_number(FV_METRIC, rows[i].show, rows[i].si, buffer, sizeof buffer), rows[i].metric);
        assert_true(strlen(buffer) <= 8);
        assert_string_equal(fv_show_number(FV_US, rows[i].show, rows[i].si, buffer, sizeof buffer), rows[i].us);
        assert_true(strlen(buffer) <= 8);
    }
    assert_string_equal(fv_show_number(FV_METRIC, FV_SHOW_MASS, 12345.6, buffer, 3), "12"); /* cut, but whole text */
    assert_string_equal(fv_show_number(FV_METRIC, FV_SHOW_MASS, INFINITY, buffer, 3), "in");
}

static void display_units(void **state)
{
    (void)state;
    static const char *const units[FV_SHOW_KINDS][2] = {
        {"mm", "in"},        {"m", "ft"},   {"m2", "ft2"},    {"L", "gal"},     {"kg", "lb"},      {"mbar", "psi"},
        {"degC", "degF"},    {"K", "degF"}, {"kg/h", "lb/h"}, {"kW", "kBtu/h"}, {"kWh", "kBtu"},   {"m/s", "ft/s"},
        {"W/m", "Btu/h/ft"}, {"%", "%"},    {"kg", "gal"},    {"m/s", "mph"},   {"mbar", "inH2O"}, {"", ""},
    };
    /* The dimension that reads each unit; plain numbers for the last one. */
    static const fv_dim dims[FV_SHOW_KINDS] = {
        FV_DIM_LENGTH,
        FV_DIM_LENGTH,
        FV_DIM_AREA,
        FV_DIM_VOLUME,
        FV_DIM_MASS,
        FV_DIM_GAUGE_PRESSURE,
        FV_DIM_TEMPERATURE,
        FV_DIM_TEMPERATURE_DIFFERENCE,
        FV_DIM_MASS_FLOW,
        FV_DIM_POWER,
        FV_DIM_ENERGY,
        FV_DIM_VELOCITY,
        FV_DIM_HEAT_PER_LENGTH,
        FV_DIM_FRACTION,
        FV_DIM_NUMBER, /* gallons of water are a mass: below */
        FV_DIM_VELOCITY,
        FV_DIM_GAUGE_PRESSURE,
        FV_DIM_NUMBER,
    };
    for (int show = 0; show < FV_SHOW_KINDS; show++)
        for (int system = FV_METRIC; system <= FV_US; system++) {
            const char *unit = fv_show_unit((fv_unit_system)system, (fv_show)show);
            assert_string_equal(unit, units[show][system]);
            if (show == FV_SHOW_WATER)
                continue;
            /* What is shown, read again, is what was: the display agrees with the reader. */
            char text[64];
            double si = dims[show] == FV_DIM_FRACTION ? 0.37 : 313.7, back = NAN;
            snprintf(text, sizeof text, "%.17g %s", fv_show_value((fv_unit_system)system, (fv_show)show, si), unit);
            assert_int_equal(fv_quantity_parse(*state, dims[show], text, &back, NULL), FV_OK);
            assert_true(fabs(back - si) <= 1e-14 * si);
        }
}

static void names(void **state)
{
    (void)state;
    static const struct {
        fv_dim dim;
        const char *name, *unit, *suffix;
    } rows[] = {
        {FV_DIM_NUMBER, "a plain number", "", ""},
        {FV_DIM_LENGTH, "a length", "m", "_m"},
        {FV_DIM_TEMPERATURE, "a temperature", "K", "_k"},
        {FV_DIM_GAUGE_PRESSURE, "a gauge pressure", "Pa", "_pa_gauge"},
        {FV_DIM_ABSOLUTE_PRESSURE, "an absolute pressure", "Pa", "_pa_absolute"},
        {FV_DIM_POWER, "a power", "W", "_w"},
        {FV_DIM_MASS_FLOW, "a mass flow", "kg/s", "_kg_s"},
        {FV_DIM_HEAT_COEFFICIENT, "a heat coefficient", "W/m2/K", "_w_m2_k"},
        {FV_DIM_KINDS, "", "", ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_string_equal(fv_dim_name(rows[i].dim), rows[i].name);
        assert_string_equal(fv_dim_si_unit(rows[i].dim), rows[i].unit);
        assert_string_equal(fv_dim_json_suffix(rows[i].dim), rows[i].suffix);
    }
    assert_string_equal(fv_dim_example(FV_DIM_LENGTH), "19 mm or 3/4 in");
    assert_string_equal(fv_dim_example(FV_DIM_KINDS), "");
    for (int dim = 0; dim < FV_DIM_KINDS; dim++)
        assert_true(strlen(fv_dim_name((fv_dim)dim)) > 2 && *fv_dim_example((fv_dim)dim));
}

/* Every example that a message offers is read, and so is every SI unit. */
static void examples_are_read(void **state)
{
    for (int i = 0; i < QUANTITIES; i++) {
        char text[100];
        double si = NAN;
        snprintf(text, sizeof text, "%s", fv_dim_example(quantities[i]));
        char *second = strstr(text, " or ");
        if (second) {
            *second = '\0';
            assert_int_equal(fv_quantity_parse(*state, quantities[i], second + 4, &si, NULL), FV_OK);
        }
        assert_int_equal(fv_quantity_parse(*state, quantities[i], text, &si, NULL), FV_OK);
        snprintf(text, sizeof text, "1 %s", fv_dim_si_unit(quantities[i]));
        assert_int_equal(fv_quantity_parse(*state, quantities[i], text, &si, NULL), FV_OK);
        assert_true(si == 1.0);
    }
}

static int setup(void **state)
{
    *state = fv_units_new(NULL);
    return *state ? 0 : -1;
}

static int teardown(void **state)
{
    fv_units_free(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(round_trip),
        cmocka_unit_test(as_a_grower_writes),
        cmocka_unit_test(what_cannot_be_written),
        cmocka_unit_test(shown),
        cmocka_unit_test(display_units),
        cmocka_unit_test(names),
        cmocka_unit_test(examples_are_read),
    };
    return cmocka_run_group_tests_name("units: SI to text", tests, setup, teardown);
}
