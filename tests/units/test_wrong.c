/* SPDX-License-Identifier: MIT */
/* Wrong quantities and the exact line that each gets. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "farvessel/units.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LENGTH "; expected a length with its unit, such as \"19 mm\" or \"3/4 in\""
#define TIME "; expected a time with its unit, such as \"90 min\" or \"6 h 30 min\""
#define MASS "; expected a mass with its unit, such as \"2.3 kg\" or \"5 lb\""
#define TEMPERATURE "; expected a temperature with its unit, such as \"80 degC\" or \"176 degF\""
#define DIFFERENCE "; expected a temperature difference with its unit, such as \"10 K\" or \"18 degF\""
#define GAUGE "; expected a gauge pressure with its unit, such as \"0.25 bar\" or \"4 psi\""
#define ABSOLUTE "; expected an absolute pressure with its unit, such as \"1013 hPa\" or \"14.7 psia\""
#define POWER "; expected a power with its unit, such as \"24 kW\" or \"80000 Btu/h\""
#define COEFFICIENT "; expected a heat coefficient with its unit, such as \"8 W/m2/K\" or \"2 Btu/h/ft2/degF\""
#define NUMBER "; expected a plain number, such as \"0.6\""
#define COUNT "; expected a whole number, such as \"24\""
#define SHARE "; expected a share of 1, such as \"0.6\" or \"60 %\""
#define KV "; expected a flow coefficient Kv, such as \"12 m3/h\" or \"14 Cv\""
#define PRICE "; expected a price, such as \"12.50\""

#define HORSES "may be an engine's (0.746 kW) or a boiler's (9.81 kW); write kW or boiler_hp"
#define TONS "may be 907, 1000 or 1016 kg; write kg, tonne or lb"

static const struct {
    fv_dim dim;
    const char *text, *why;
} rows[] = {
    /* nothing, no number, no unit */
    {FV_DIM_LENGTH, "", "is empty" LENGTH},
    {FV_DIM_LENGTH, " \xC2\xA0 ", "is empty" LENGTH},
    {FV_DIM_LENGTH, "19", "a bare number" LENGTH},
    {FV_DIM_TEMPERATURE, "80", "a bare number" TEMPERATURE},
    {FV_DIM_AREA, "3", "a bare number; expected an area with its unit, such as \"0.5 m2\" or \"6 ft2\""},
    {FV_DIM_VOLUME, "3", "a bare number; expected a volume with its unit, such as \"60 L\" or \"55 gal\""},
    {FV_DIM_ENERGY, "3", "a bare number; expected an energy with its unit, such as \"12.8 kWh\" or \"50 MJ\""},
    {FV_DIM_MASS_FLOW, "3", "a bare number; expected a mass flow with its unit, such as \"20 kg/h\" or \"45 lb/h\""},
    {FV_DIM_VELOCITY, "3", "a bare number; expected a velocity with its unit, such as \"5 m/s\" or \"10 mph\""},
    {FV_DIM_DENSITY, "3", "a bare number; expected a density with its unit, such as \"600 kg/m3\" or \"37 lb/ft3\""},
    {FV_DIM_CONDUCTIVITY, "3",
     "a bare number; expected a conductivity with its unit, such as \"0.04 W/m/K\" or \"0.3 Btu/h/ft/degF\""},
    {FV_DIM_SPECIFIC_HEAT, "3",
     "a bare number; expected a specific heat with its unit, such as \"3.1 kJ/kg/K\" or \"0.7 Btu/lb/degF\""},
    {FV_DIM_HEAT_CAPACITY, "3",
     "a bare number; expected a heat capacity with its unit, such as \"40 kJ/K\" or \"20 Btu/degF\""},
    {FV_DIM_HEAT_PER_LENGTH, "3",
     "a bare number; expected a heat per length with its unit, such as \"90 W/m\" or \"90 Btu/h/ft\""},
    {FV_DIM_ENERGY_PER_MASS, "3",
     "a bare number; expected an energy per mass with its unit, such as \"12.8 kWh/kg\" or \"8000 Btu/lb\""},
    {FV_DIM_ANGLE, "3", "a bare number; expected an angle with its unit, such as \"45 deg\" or \"0.8 rad\""},
    {FV_DIM_LENGTH, "mm", "does not begin with a number" LENGTH},
    {FV_DIM_LENGTH, "about 19 mm", "does not begin with a number" LENGTH},
    {FV_DIM_LENGTH, "--5 mm", "does not begin with a number" LENGTH},
    {FV_DIM_LENGTH, ".", "does not begin with a number" LENGTH},
    /* numbers that are none */
    {FV_DIM_LENGTH, "nan", "is not a finite number" LENGTH},
    {FV_DIM_LENGTH, "NaN mm", "is not a finite number" LENGTH},
    {FV_DIM_LENGTH, "inf m", "is not a finite number" LENGTH},
    {FV_DIM_LENGTH, "-Infinity m", "is not a finite number" LENGTH},
    {FV_DIM_LENGTH, "1e999 m", "is too large a number" LENGTH},
    {FV_DIM_LENGTH, "1e308 km", "is too large a number" LENGTH},
    {FV_DIM_LENGTH, "1e-999 m", "is too small a number" LENGTH},
    {FV_DIM_LENGTH, "1/0 in", "divides by zero" LENGTH},
    {FV_DIM_LENGTH, "1.5/2 in", "has a fraction that is not of two whole numbers, as 3/4 is" LENGTH},
    {FV_DIM_LENGTH, "3/4.5 in", "has a fraction that is not of two whole numbers, as 3/4 is" LENGTH},
    {FV_DIM_LENGTH, "1/2/3 in", "has a fraction that is not of two whole numbers, as 3/4 is" LENGTH},
    {FV_DIM_LENGTH, "0x10 mm", "unknown unit \"x\"" LENGTH},
    /* the decimal comma */
    {FV_DIM_LENGTH, "1,5 m", "has a decimal comma; write \"1.5 m\"" LENGTH},
    {FV_DIM_TEMPERATURE, "-1,25 degC", "has a decimal comma; write \"-1.25 degC\"" TEMPERATURE},
    {FV_DIM_NUMBER, "0,6", "has a decimal comma; write \"0.6\"" NUMBER},
    {FV_DIM_LENGTH, "1,000 mm", "has a comma; write \"1.000 mm\" or \"1000 mm\", whichever is meant" LENGTH},
    {FV_DIM_LENGTH, "5 mm,", "has an unexpected \",\" at its end" LENGTH},
    /* another kind of quantity */
    {FV_DIM_LENGTH, "80 degC", "is a temperature" LENGTH},
    {FV_DIM_LENGTH, "5 m2", "is an area" LENGTH},
    {FV_DIM_LENGTH, "5 kg", "is a mass" LENGTH},
    {FV_DIM_LENGTH, "60 %", "is a plain number" LENGTH},
    {FV_DIM_LENGTH, "5 A", "is an electric current" LENGTH},
    {FV_DIM_LENGTH, "5 ohm", "is another kind of quantity" LENGTH},
    {FV_DIM_MASS, "5 L", "is a volume" MASS},
    {FV_DIM_TIME, "6 h 30 m", "is a length" TIME},
    {FV_DIM_POWER, "24 kWh", "is an energy" POWER},
    {FV_DIM_GAUGE_PRESSURE, "4 lbf", "is a force" GAUGE},
    {FV_DIM_GAUGE_PRESSURE, "4 m/s2", "is an acceleration" GAUGE},
    {FV_DIM_HEAT_COEFFICIENT, "8 W/m2", "is a heat per area" COEFFICIENT},
    {FV_DIM_HEAT_COEFFICIENT, "8 m2 K/W", "is a thermal resistance" COEFFICIENT},
    {FV_DIM_HEAT_COEFFICIENT, "8 W/m/K", "is a conductivity" COEFFICIENT},
    {FV_DIM_HEAT_COEFFICIENT, "8 W/(m2/K)", "is another kind of quantity" COEFFICIENT},
    {FV_DIM_TEMPERATURE_DIFFERENCE, "10 s", "is a time" DIFFERENCE},
    {FV_DIM_MASS, "5 T", "is another kind of quantity, perhaps \"t\" was meant" MASS},
    /* unknown units */
    {FV_DIM_LENGTH, "19 blobs", "unknown unit \"blobs\"" LENGTH},
    {FV_DIM_LENGTH, "19 MM", "unknown unit \"MM\", perhaps \"mm\"" LENGTH},
    {FV_DIM_LENGTH, "19 metrs", "unknown unit \"metrs\", perhaps \"metre\"" LENGTH},
    {FV_DIM_POWER, "24 KW", "unknown unit \"KW\", perhaps \"kW\"" POWER},
    {FV_DIM_POWER, "2 boiler_hosepower", "unknown unit \"boiler_hosepower\", perhaps \"boiler_horsepower\"" POWER},
    {FV_DIM_GAUGE_PRESSURE, "4 pis", "is a plain number, perhaps \"psi\" was meant" GAUGE},
    {FV_DIM_POWER, "5 dBm", "unknown unit \"dBm\"" POWER},
    {FV_DIM_TIME, "5 days since 2000-01-01", "unknown unit \"since\"" TIME},
    /* units that two trades read differently */
    {FV_DIM_POWER, "2.4 hp", "\"hp\" " HORSES POWER},
    {FV_DIM_POWER, "2.4 BHP", "\"BHP\" " HORSES POWER},
    {FV_DIM_MASS, "3 tons", "\"tons\" " TONS MASS},
    {FV_DIM_POWER, "2 MBtu/h", "\"MBtu\" may be a thousand or a million Btu; write kBtu or the number in full" POWER},
    /* gauge and absolute */
    {FV_DIM_GAUGE_PRESSURE, "14 psia", "\"psia\" is absolute, but this pressure counts from the site's air" GAUGE},
    {FV_DIM_GAUGE_PRESSURE, "1.2 bar(a)", "\"bar(a)\" is absolute, but this pressure counts from the site's air" GAUGE},
    {FV_DIM_ABSOLUTE_PRESSURE, "5 psig", "\"psig\" counts from the site's air, but this pressure is absolute" ABSOLUTE},
    {FV_DIM_ABSOLUTE_PRESSURE, "1 barg", "\"barg\" counts from the site's air, but this pressure is absolute" ABSOLUTE},
    /* out of what the kind can be */
    {FV_DIM_TEMPERATURE, "-300 degC", "is below absolute zero" TEMPERATURE},
    {FV_DIM_TEMPERATURE, "-1 K", "is below absolute zero" TEMPERATURE},
    {FV_DIM_TEMPERATURE, "-460 degF", "is below absolute zero" TEMPERATURE},
    {FV_DIM_ABSOLUTE_PRESSURE, "-1 bar", "is below a vacuum" ABSOLUTE},
    {FV_DIM_FRACTION, "60", "is not between 0 and 1" SHARE},
    {FV_DIM_FRACTION, "-1 %", "is not between 0 and 1" SHARE},
    {FV_DIM_FRACTION, "5 m", "is a length" SHARE},
    {FV_DIM_COUNT, "24.5", "is not a whole number" COUNT},
    {FV_DIM_COUNT, "-1", "is below zero" COUNT},
    {FV_DIM_COUNT, "1e12", "is too large a number" COUNT},
    {FV_DIM_PRICE, "-0.01", "is below zero" PRICE},
    {FV_DIM_PRICE, "12 kg", "is a mass" PRICE},
    {FV_DIM_NUMBER, "60 %", "has a unit" NUMBER},
    {FV_DIM_NUMBER, "0.6 m", "is a length" NUMBER},
    {FV_DIM_FLOW_COEFFICIENT, "14 gpm", "is not in m3/h, in which Kv is told" KV},
    {FV_DIM_FLOW_COEFFICIENT, "14 bar", "is a pressure" KV},
    /* rubbish after a quantity, and broken units */
    {FV_DIM_LENGTH, "19 mm !!", "has an unexpected \"!!\" at its end" LENGTH},
    {FV_DIM_LENGTH, "19 !!", "has an unexpected \"!!\" at its end" LENGTH},
    {FV_DIM_LENGTH, "5 m)", "has an unexpected \")\" at its end" LENGTH},
    {FV_DIM_TIME, "6:30", "has an unexpected \":30\" at its end" TIME},
    {FV_DIM_LENGTH, "1 000 mm", "has two numbers in a row" LENGTH},
    {FV_DIM_POWER, "24 kW 3", "has two numbers in a row" POWER},
    {FV_DIM_NUMBER, "1 2", "has two numbers in a row" NUMBER},
    {FV_DIM_TIME, "6 h 30", "has a bare number at its end" TIME},
    {FV_DIM_TIME, "30 min 6 h", "has parts that do not go from large to small" TIME},
    {FV_DIM_TIME, "6 h 6 h", "has parts that do not go from large to small" TIME},
    {FV_DIM_TIME, "6.5 h 30 min", "has a fraction before its last part" TIME},
    {FV_DIM_TIME, "6 h -30 min", "has an unexpected \"-30 min\" at its end" TIME},
    {FV_DIM_LENGTH, "5 m/", "has nothing after \"/\" in its unit" LENGTH},
    {FV_DIM_POWER, "5 kWh per", "has nothing after \"per\" in its unit" POWER},
    {FV_DIM_LENGTH, "5 (m", "has \"(\" without \")\" in its unit" LENGTH},
    {FV_DIM_LENGTH, "5 ()", "has nothing after \"(\" in its unit" LENGTH},
    {FV_DIM_LENGTH, "5 (((((m)))))", "has too many parentheses in its unit" LENGTH},
    {FV_DIM_LENGTH, "5 m^x", "has no whole number after \"^\" in its unit" LENGTH},
    {FV_DIM_LENGTH, "5 m^99", "has powers in its unit that no quantity has" LENGTH},
    {FV_DIM_LENGTH, "5 m9 m9 m9 m9 m9 m9 m9 m9 m9 m9 m9 m9", "has powers in its unit that no quantity has" LENGTH},
    {FV_DIM_LENGTH, "5 mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm",
     "unknown unit \"mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm...\"" LENGTH},
    /* characters */
    {FV_DIM_PRICE,
     "\xE2\x82\xAC"
     "5",
     "cannot read \"\xE2\x82\xAC\" in it" PRICE}, /* euro sign */
    {FV_DIM_LENGTH, "5 \xF0\x9F\x8D\x84", "cannot read \"\xF0\x9F\x8D\x84\" in it" LENGTH},
    {FV_DIM_LENGTH, "5 mm\x07", "has a control character in it" LENGTH},
    {FV_DIM_LENGTH, "5 mm\xFF", "is not valid UTF-8" LENGTH},
    {FV_DIM_LENGTH, "5 mm\xC2", "is not valid UTF-8" LENGTH},
    {FV_DIM_LENGTH, "5 mm\xC0\xA0", "is not valid UTF-8" LENGTH},         /* overlong */
    {FV_DIM_LENGTH, "5 mm\xED\xA0\x80", "is not valid UTF-8" LENGTH},     /* surrogate */
    {FV_DIM_LENGTH, "5 mm\xF4\x90\x80\x80", "is not valid UTF-8" LENGTH}, /* past the last code point */
    /* no quantities at all: a slip in the program, but an answer */
    {FV_DIM_TEXT, "hello", "is not a quantity; expected a text, such as \"any words\""},
    {FV_DIM_ID, "bin1", "is not a quantity; expected a name, such as \"bin1\""},
    {FV_DIM_WORD, "propane", "is not a quantity; expected a word, such as \"propane\""},
};

static void every_row(void **state)
{
    size_t count = sizeof rows / sizeof *rows, wrong = 0;
    for (size_t i = 0; i < count; i++) {
        double si = 12345.0;
        char *why = NULL;
        fv_status status = fv_quantity_parse(*state, rows[i].dim, rows[i].text, &si, &why);
        if (status != FV_FAIL || si != 12345.0 || !why || strcmp(why, rows[i].why)) {
            printf("row \"%s\": got  %s\n          want %s\n", rows[i].text, why ? why : "no fault", rows[i].why);
            wrong++;
        }
        free(why);
    }
    printf("check | %zu wrong quantities | all refused | got %zu otherwise\n", count, wrong);
    assert_true(count >= 60);
    assert_int_equal(wrong, 0);
}

static void long_text_and_none(void **state)
{
    char text[202];
    double si;
    char *why = NULL;
    memset(text, ' ', sizeof text);
    memcpy(text, "5 mm", 4);
    text[200] = '\0';
    assert_int_equal(fv_quantity_parse(*state, FV_DIM_LENGTH, text, &si, &why), FV_OK);
    assert_null(why);
    text[200] = ' ';
    text[201] = '\0';
    assert_int_equal(fv_quantity_parse(*state, FV_DIM_LENGTH, text, &si, &why), FV_FAIL);
    assert_string_equal(why, "is longer than 200 bytes" LENGTH);
    free(why);
    assert_int_equal(fv_quantity_parse(*state, FV_DIM_LENGTH, NULL, &si, &why), FV_FAIL);
    assert_string_equal(why, "is empty" LENGTH);
    free(why);
    assert_int_equal(fv_quantity_parse(*state, FV_DIM_LENGTH, "19", &si, NULL), FV_FAIL);
}

/* Every two-byte and many longer texts: no crash, one line, and a reason whenever it is refused. */
static void any_bytes(void **state)
{
    uint32_t seed = 1;
    static const char common[] = "0123456789 ./-+*^()'\"%,eEmKhWgkbarpsidegCF_\xC2\xB2\xBD\xE2\x85\x9B\xB0";
    for (int round = 0; round < 200000; round++) {
        char text[24];
        size_t length = (size_t)(round % 23);
        for (size_t i = 0; i < length; i++) {
            seed = seed * 1664525u + 1013904223u;
            unsigned pick = seed >> 8;
            text[i] = pick % 16 ? common[pick / 16 % (sizeof common - 1)] : (char)(1 + pick / 16 % 255);
        }
        text[length] = '\0';
        double si = 0.0;
        char *why = NULL;
        fv_status status = fv_quantity_parse(*state, (fv_dim)((seed >> 16) % FV_DIM_KINDS), text, &si, &why);
        assert_true((status == FV_OK) == (why == NULL));
        assert_true(si - si == 0.0);
        assert_true(!why || (!strchr(why, '\n') && strstr(why, "; expected a")));
        free(why);
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
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_row), cmocka_unit_test(long_text_and_none),
                                       cmocka_unit_test(any_bytes)};
    return cmocka_run_group_tests_name("units: wrong quantities", tests, setup, teardown);
}
