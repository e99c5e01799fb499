/* SPDX-License-Identifier: MIT */
/* The built-in units against UDUNITS-2, its database read only when needed, and the time it all takes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "units/unit.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <udunits2.h>
#include <unistd.h>

static ut_unit *si_unit(ut_system *system, units_powers powers)
{
    static const char *const symbols[UNITS_BASE_COUNT] = {"m", "kg", "s", "K", "rad", "A", "mol", "cd"};
    char text[80] = "1";
    for (size_t i = 0; i < UNITS_BASE_COUNT; i++)
        if (powers.of[i])
            snprintf(text + strlen(text), sizeof text - strlen(text), " %s^%d", symbols[i], powers.of[i]);
    return ut_parse(system, text, UT_ASCII);
}

/* Each built-in row: same powers, same value in SI at two points, to 1e-15. */
static void table_agrees(void **state)
{
    (void)state;
    ut_set_error_message_handler(ut_ignore);
    ut_system *system = ut_read_xml(NULL);
    assert_non_null(system);
    double worst = 0.0;
    for (size_t i = 0; i < units_unit_row_count; i++) {
        const units_unit_row *row = &units_unit_rows[i];
        ut_unit *theirs = ut_parse(system, row->definition, UT_ASCII);
        ut_unit *si = si_unit(system, row->unit.powers);
        cv_converter *converter = theirs && si ? ut_get_converter(theirs, si) : NULL;
        if (!converter)
            fail_msg("\"%s\": \"%s\" has other powers, or UDUNITS-2 does not know it", row->word, row->definition);
        for (double value = 1.0; value < 300.0; value += 211.0) {
            double expected = cv_convert_double(converter, value);
            double got = (value + row->unit.zero) * row->unit.num / row->unit.den;
            double deviation = fabs(got - expected) / fabs(expected);
            worst = fmax(worst, deviation);
            if (!(deviation <= 1e-15))
                fail_msg("\"%s\": %.17g, UDUNITS-2 has %.17g for \"%s\"", row->word, got, expected, row->definition);
        }
        cv_free(converter);
        ut_free(si);
        ut_free(theirs);
    }
    ut_free_system(system);
    printf("check | %zu built-in units against UDUNITS-2 | 0 | got %.1e | dev %.1e | UDUNITS 2 database\n",
           units_unit_row_count, worst, worst);
}

/* Nothing stands twice, each word is one that the reader can take, and each is found. */
static void table_is_sound(void **state)
{
    (void)state;
    for (size_t i = 0; i < units_unit_row_count; i++) {
        const units_unit_row *row = &units_unit_rows[i];
        units_unit unit = {0};
        fv_text problem = {0};
        assert_ptr_equal(units_unit_find(row->word), row);
        assert_null(units_unit_refusal(row->word));
        const char *end = units_expression_read(NULL, row->word, row->unit.powers, false, &unit, &problem);
        if (!end || *end || unit.num != row->unit.num || unit.den != row->unit.den)
            fail_msg("\"%s\" is not read as itself: %s", row->word, problem.text ? problem.text : "");
        fv_text_free(&problem);
    }
}

/* SP 811 prints 9809.50 W for a boiler horsepower (from memory), as UDUNITS-2 has it; ours is 33475 Btu_IT/h. */
static void boiler_horsepower_is_ours(void **state)
{
    (void)state;
    fv_units *units = fv_units_new(NULL);
    double ours = 0.0;
    assert_int_equal(fv_quantity_parse(units, FV_DIM_POWER, "1 boiler_horsepower", &ours, NULL), FV_OK);
    double deviation = fabs(ours - 9809.50) / 9809.50;
    printf("check | boiler_horsepower, 33475 Btu_IT/h | 9809.50 | got %.4f | dev %.2e | SP 811\n", ours, deviation);
    assert_true(deviation < 1.2e-4 && fabs(ours - 33475 * 1055.05585262 / 3600) < 1e-9);
    fv_units_free(units);
}

static void missing_database(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    setenv("UDUNITS2_XML_PATH", "/nowhere/units.xml", 1);
    assert_null(fv_units_new(faults));
    assert_int_equal(fv_faults_errors(faults), 1);
    assert_string_equal(fv_faults_at(faults, 0)->text, "the unit database of UDUNITS-2 cannot be read");
    assert_string_equal(fv_faults_at(faults, 0)->file, "/nowhere/units.xml");
    unsetenv("UDUNITS2_XML_PATH");
    fv_faults_free(faults);
    fv_units_free(NULL);
}

/* A broken database: common words still work, so it was not read for them; a rare word tells. */
static void broken_database(void **state)
{
    (void)state;
    char path[] = "/tmp/units-XXXXXX";
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(write(fd, "<unit-system><", 14), 14);
    close(fd);
    setenv("UDUNITS2_XML_PATH", path, 1);
    fv_units *units = fv_units_new(NULL);
    assert_non_null(units);
    double si = 0.0;
    char *why = NULL;
    assert_int_equal(fv_quantity_parse(units, FV_DIM_HEAT_COEFFICIENT, "2 Btu/h/ft2/degF", &si, NULL), FV_OK);
    for (int twice = 0; twice < 2; twice++) {
        assert_int_equal(fv_quantity_parse(units, FV_DIM_LENGTH, "2 furlongs", &si, &why), FV_FAIL);
        assert_string_equal(why, "unknown unit \"furlongs\" (not built in, and the unit database cannot be read); "
                                 "expected a length with its unit, such as \"19 mm\" or \"3/4 in\"");
        free(why);
    }
    fv_units_free(units);
    unsetenv("UDUNITS2_XML_PATH");
    unlink(path);
}

/* An installed locale with a decimal comma, or one compiled into a new folder; the folder is "" if there was no need.
 */
static bool set_comma_locale(char *folder, size_t size)
{
    static const char *const installed[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "fr_FR.utf8", "nb_NO.UTF-8"};
    folder[0] = '\0';
    for (size_t i = 0; i < sizeof installed / sizeof *installed; i++)
        if (setlocale(LC_ALL, installed[i]) && !strcmp(localeconv()->decimal_point, ","))
            return true;
    char command[200];
    snprintf(folder, size, "/tmp/locale-XXXXXX");
    if (!mkdtemp(folder))
        return false;
    snprintf(command, sizeof command, "localedef -i de_DE -f UTF-8 %s/de_DE.UTF-8 >/dev/null 2>&1", folder);
    bool made = system(command) == 0;
    setenv("LOCPATH", folder, 1);
    return made && setlocale(LC_ALL, "de_DE.UTF-8") && !strcmp(localeconv()->decimal_point, ",");
}

static void unset_comma_locale(const char *folder)
{
    char command[200];
    setlocale(LC_ALL, "C");
    unsetenv("LOCPATH");
    snprintf(command, sizeof command, "rm -rf %s", folder);
    assert_true(!*folder || system(command) == 0);
}

/* Under a decimal comma, reading, writing, showing and the database stay the same. */
static void comma_locale(void **state)
{
    (void)state;
    char folder[40];
    if (!set_comma_locale(folder, sizeof folder)) {
        unset_comma_locale(folder);
        printf("note | no locale with a decimal comma is to be had; that check is left out\n");
        skip();
    }
    fv_units *units = fv_units_new(NULL);
    double si = 0.0;
    char buffer[32];
    fv_text text = {0};
    assert_int_equal(fv_quantity_parse(units, FV_DIM_LENGTH, "1.5 mm", &si, NULL), FV_OK);
    assert_true(si == 0.0015);
    assert_int_equal(fv_quantity_parse(units, FV_DIM_LENGTH, "1,5 mm", &si, NULL), FV_FAIL);
    assert_true(fv_quantity_write(FV_DIM_LENGTH, 0.0015, &text));
    assert_string_equal(text.text, "1.5 mm");
    assert_string_equal(fv_show_number(FV_METRIC, FV_SHOW_LENGTH, 2.5, buffer, sizeof buffer), "2.50");
    assert_int_equal(fv_quantity_parse(units, FV_DIM_LENGTH, "1.5 fathoms", &si, NULL), FV_OK);
    assert_true(fabs(si - 1.5 * 1.828804) < 1e-5); /* SP 811, from memory */
    assert_string_equal(localeconv()->decimal_point, ",");
    fv_text_free(&text);
    fv_units_free(units);
    unset_comma_locale(folder);
}

static double milliseconds(clock_t since)
{
    return 1e3 * (double)(clock() - since) / CLOCKS_PER_SEC;
}

/* Times mean nothing under valgrind, which shows itself in this variable. */
static bool times_count(void)
{
    const char *preload = getenv("LD_PRELOAD");
    return !preload || !strstr(preload, "vgpreload");
}

static void fast_enough(void **state)
{
    (void)state;
    static const struct {
        fv_dim dim;
        const char *text;
    } plant[] = {
        {FV_DIM_LENGTH, "19 mm"},         {FV_DIM_LENGTH, "1 1/2 in"},     {FV_DIM_POWER, "2.4 boiler_horsepower"},
        {FV_DIM_TIME, "6 h 30 min"},      {FV_DIM_TEMPERATURE, "80 degC"}, {FV_DIM_HEAT_COEFFICIENT, "8 W/m2K"},
        {FV_DIM_GAUGE_PRESSURE, "4 psi"}, {FV_DIM_FRACTION, "60 %"},       {FV_DIM_CONDUCTIVITY, "0.04 W/(m K)"},
        {FV_DIM_LENGTH, "3/4 in"},
    };
    double si;
    clock_t start = clock();
    fv_units *units = fv_units_new(NULL);
    double made = milliseconds(start);
    start = clock();
    for (int i = 0; i < 1000; i++)
        assert_int_equal(fv_quantity_parse(units, plant[i % 10].dim, plant[i % 10].text, &si, NULL), FV_OK);
    double common = milliseconds(start);
    start = clock();
    assert_int_equal(fv_quantity_parse(units, FV_DIM_LENGTH, "1 fathom", &si, NULL), FV_OK);
    double rare = milliseconds(start);
    start = clock();
    for (int i = 0; i < 1000; i++)
        assert_int_equal(fv_quantity_parse(units, FV_DIM_LENGTH, "1 fathom", &si, NULL), FV_OK);
    double rare_again = milliseconds(start);
    start = clock();
    for (int i = 0; i < 1000; i++) {
        fv_text text = {0};
        assert_true(fv_quantity_write(FV_DIM_LENGTH, 0.01905 + i * 1e-4, &text));
        fv_text_free(&text);
    }
    double written = milliseconds(start);
    printf("check | make the unit system | - | got %.3f ms\n", made);
    printf("check | read 1000 common quantities | < 20 ms | got %.3f ms\n", common);
    printf("check | read the first rare one, with the database | - | got %.3f ms\n", rare);
    printf("check | read 1000 rare ones | < 20 ms | got %.3f ms\n", rare_again);
    printf("check | write 1000 quantities | < 100 ms | got %.3f ms\n", written);
    assert_true(!times_count() || (common < 20.0 && rare_again < 20.0 && written < 100.0));
    fv_units_free(units);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_agrees),
        cmocka_unit_test(table_is_sound),
        cmocka_unit_test(boiler_horsepower_is_ours),
        cmocka_unit_test(missing_database),
        cmocka_unit_test(broken_database),
        cmocka_unit_test(comma_locale),
        cmocka_unit_test(fast_enough),
    };
    return cmocka_run_group_tests_name("units: database", tests, NULL, NULL);
}
