/* SPDX-License-Identifier: MIT */
/* Times at a temperature and what they are worth, errors of probes, cleaning; against a worked table, closed forms and
 * the printed tolerances. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "farvessel/log.h"
#include "study/log/spans.h"
#include "study/readings.h"

/* reference/log/lethality_worked.csv: 14 readings, reference 98 degC, z 10 K; the last column is exact for straight
 * lines between readings (computed). */
static void worked_table(void **state)
{
    (void)state;
    char line[256];
    double before_t = 0, before = 0, sum = 0;
    int rows = 0;
    FILE *file = fopen("reference/log/lethality_worked.csv", "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file)) {
        double t, c, rate, trap, exact;
        if (sscanf(line, "%lf,%lf,%lf,%lf,%lf", &t, &c, &rate, &trap, &exact) != 5)
            continue;
        if (rows++ > 0)
            sum += log_lethality(before + 273.15, c + 273.15, t - before_t, 98 + 273.15, 10);
        printf("check | lethality after %g min | %.9g | got %.9g | worked table, computed\n", t, exact, sum);
        assert_true(fabs(sum - exact) <= 1e-7 * exact + 1e-12);
        before_t = t;
        before = c;
    }
    fclose(file);
    assert_int_equal(rows, 14);
}

/* IEC 60584-1 types K and T, IEC 60751, at 100 degC. */
static void tolerances(void **state)
{
    (void)state;
    static const struct {
        fv_probe_type type;
        fv_probe_class class;
        double tolerance;
    } rows[] = {{FV_PROBE_K, FV_PROBE_CLASS_1, 1.5},       {FV_PROBE_K, FV_PROBE_CLASS_2, 2.5},
                {FV_PROBE_T, FV_PROBE_CLASS_1, 0.5},       {FV_PROBE_T, FV_PROBE_CLASS_2, 1.0},
                {FV_PROBE_PT100, FV_PROBE_CLASS_AA, 0.27}, {FV_PROBE_PT100, FV_PROBE_CLASS_A, 0.35},
                {FV_PROBE_PT100, FV_PROBE_CLASS_B, 0.80},  {FV_PROBE_PT100, FV_PROBE_CLASS_C, 1.60}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double got = study_probe_tolerance(rows[i].type, rows[i].class, 373.15);
        printf("check | tolerance at 100 degC, row %zu | %g K | got %g | IEC 60584-1, IEC 60751\n", i,
               rows[i].tolerance, got);
        assert_true(fabs(got - rows[i].tolerance) < 1e-12);
    }
    fv_probe_readings r = {0};
    study_probe_error(NULL, &r);
    assert_true(fabs(r.error - 2.5 / sqrt(3)) < 1e-12 && fabs(r.reach - 2.0) < 1e-12);
}

static fv_log_answer *run_text(const char *text, fv_logfile **log, const fv_log_options *options)
{
    fv_datafile_options plain;
    fv_datafile_defaults(&plain);
    *log = fv_logfile_read_memory(text, strlen(text), "log.csv", &plain, NULL);
    assert_non_null(*log);
    fv_log_answer *a = fv_log_run(NULL, *log, options, NULL);
    assert_non_null(a);
    return a;
}

/* A straight rise of 1 K a minute from 50 to 70, and down again: above 60 for 20 min; a class 2 probe is within 2 K
 * eight times in ten, so 16 to 24 min. By hand. */
static void a_triangle(void **state)
{
    (void)state;
    fv_logfile *log;
    fv_log_options o;
    fv_log_defaults(&o);
    const char *text =
        "Time,a degC\n2027-03-14 06:00,50\n2027-03-14 06:10,60\n2027-03-14 06:20,70\n2027-03-14 06:30,60\n"
        "2027-03-14 06:40,50\n";
    static const struct {
        double hold;
        fv_log_verdict verdict;
    } rows[] = {{15 * 60, FV_LOG_HELD}, {20 * 60, FV_LOG_CANNOT_TELL}, {25 * 60, FV_LOG_SHORT}};
    for (size_t i = 0; i < 3; i++) {
        o.hold = rows[i].hold;
        fv_log_answer *a = run_text(text, &log, &o);
        const fv_log_probe *p = &a->probes[0];
        assert_true(fabs(p->as_read.longest - 1200) < 1e-6);
        assert_true(fabs(p->low.longest - 960) < 1e-6 && fabs(p->high.longest - 1440) < 1e-6);
        assert_true(fabs(p->as_read.first - log->time[1]) < 1e-6);
        assert_int_equal(a->verdict, rows[i].verdict);
        if (i == 2)
            assert_true(fabs(p->short_by - 540) < 1e-6);
        fv_log_free(a);
        fv_logfile_free(log);
    }
    o.target = 75 + 273.15;
    fv_log_answer *a = run_text(text, &log, &o);
    assert_int_equal(a->verdict, FV_LOG_NOT_REACHED);
    fv_log_free(a);
    fv_logfile_free(log);
}

/* 40 CFR 503.32(a)(3): 131 700 000 / 10^(0.14 t) days; at 55 degC 3783.98 min, at 60 755.002, at 80 no less than 20. */
static void class_a(void **state)
{
    (void)state;
    static const struct {
        int celsius;
        double minutes;
    } rows[] = {{55, 3783.98}, {60, 755.002}, {70, 30.0572}, {80, 20}};
    size_t count;
    const fv_log_rule *rules = fv_log_rules(&count);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[200];
        fv_logfile *log;
        fv_log_options o;
        fv_log_defaults(&o);
        snprintf(text, sizeof text, "Time,a degC\n2027-03-14 06:00,%d\n2027-03-14 06:10,%d\n", rows[i].celsius,
                 rows[i].celsius);
        fv_log_answer *a = run_text(text, &log, &o);
        assert_string_equal(rules[0].name, "class_a");
        const double got = 10 / a->probes[0].rules[0].done;
        printf("check | class A at %d degC | %.6g min | got %.6g | 40 CFR 503.32(a)(3)\n", rows[i].celsius,
               rows[i].minutes, got);
        assert_true(fabs(got / rows[i].minutes - 1) < 1e-5);
        fv_log_free(a);
        fv_logfile_free(log);
    }
}

/* A hold is bridged over a gap of 14 min, and broken by one of 16. */
static void gaps(void **state)
{
    (void)state;
    fv_logfile *log;
    fv_log_options o;
    fv_log_defaults(&o);
    fv_log_answer *a = run_text("Time,a degC\n2027-03-14 06:00,90\n2027-03-14 06:14,90\n", &log, &o);
    assert_true(fabs(a->probes[0].as_read.longest - 840) < 1e-6);
    fv_log_free(a);
    fv_logfile_free(log);
    a = run_text("Time,a degC\n2027-03-14 06:00,90\n2027-03-14 06:16,90\n", &log, &o);
    assert_true(a->probes[0].as_read.longest == 0);
    fv_log_free(a);
    fv_logfile_free(log);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(worked_table), cmocka_unit_test(tolerances),
                                       cmocka_unit_test(a_triangle), cmocka_unit_test(class_a), cmocka_unit_test(gaps)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
