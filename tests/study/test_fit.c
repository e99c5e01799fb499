/* SPDX-License-Identifier: MIT */
/* fit on a small plant whose boiler gives 5 % less than its plate says: a log by the program's own run of it, so that
 * the truth is known; with a gauge at the boiler and a meter of its water; stopped on the way. */
#include "study/nursery.h"

#include "farvessel/fit.h"
#include "study/match.h"

static const char *const plant_text =
    "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: one bin'>"
    "<site altitude='120 m' air='10 degC'/>"
    "<boiler id='boiler' at='t0' output='%s' holds='0.2 bar' relief='0.5 bar' feed='15 degC' known='nameplate'/>"
    "<hose id='s1' from='t0' to='c1' length='4 m' bore='25 mm'/>"
    "<vessel id='bin1' at='c1' volume='0.9 m3' target='90 degC' within='12 h' hold='1 h'>"
    "<coil bore='27 mm' length='1.2 m' holes='10' drill='4 mm'/>"
    "<load form='block' medium='wood' a='11 cm' b='13 cm' c='20 cm' count='80' mass='170 kg' packing='loose'/>"
    "<wall area='4.5 m2'><layer material='plywood' thickness='6 mm'/>"
    "<layer material='mineral-wool' thickness='60 mm'/></wall>"
    "<vent diameter='15 mm' height='0.9 m'/><drain diameter='25 mm'/></vessel>"
    "<probe id='p1' vessel='bin1' at='core' column='CH 1' type='K' class='2'/>%s</network>";

static fv_plant *plant_of(const char *output, const char *more)
{
    fv_text xml = {0};
    fv_text_add(&xml, plant_text, output, more);
    fv_plant *plant = nursery_plant(xml.text, NULL);
    fv_text_free(&xml);
    return plant;
}

/* Up to so many hours, and the water that the boiler gave by then, kg. */
static fv_logfile *log_of(double hours, double *water)
{
    fv_plant *plant = plant_of("9.5 kW", "");
    fv_heat_options options;
    fv_faults *faults = fv_faults_new();
    fv_datafile_options file;
    fv_text csv = {0};
    fv_heat_defaults(&options);
    options.every = 120;
    options.until = hours * 3600;
    fv_heat_result *run = fv_heat_run(plant, &options, NULL, faults);
    assert_non_null(run);
    fv_text_add(&csv, "time,CH 1 (degC),P 1 (mbar),CH 2 (degC),CH 3 (degC)");
    for (size_t i = 0; i < run->series.count; i++) {
        const int s = (int)run->series.time[i];
        fv_text_add(&csv, "\n2031-03-14 %02d:%02d:%02d,%.1f,%.2f,%.1f,%.1f", s / 3600, s / 60 % 60, s % 60,
                    run->series.core[i] - 273.15, 0.01 * run->series.boiler_pressure[i], run->series.core[i] - 273.15,
                    run->series.core[i] - 265.15);
    }
    fv_text_add(&csv, "\n");
    *water = run->boilers[0].water;
    fv_datafile_defaults(&file);
    fv_logfile *log = fv_logfile_read_memory(csv.text, csv.length, "day.csv", &file, faults);
    assert_non_null(log);
    fv_text_free(&csv);
    fv_heat_free(run);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return log;
}

static fv_fit_answer *fit_of(const fv_plant *plant, const fv_logfile *log, const char *now, const fv_progress *progress,
                             fv_faults *faults)
{
    fv_fit_options options;
    fv_fit_defaults(&options);
    options.defects = false;
    options.draws = 192;
    options.lit = "00:00";
    options.now = now;
    return fv_fit_run(plant, log, &options, progress, faults);
}

static const fv_fit_unknown *output_of(const fv_fit_answer *a)
{
    for (size_t i = 0; i < a->unknown_count; i++)
        if (strcmp(a->unknown_list[i].path, "boiler") == 0 && strcmp(a->unknown_list[i].attribute, "output") == 0)
            return &a->unknowns[i];
    fail_msg("no output among the unknowns");
    return NULL;
}

static void they_tell_of_the_boiler(void **state)
{
    (void)state;
    double water;
    char meter[200];
    fv_logfile *log = log_of(3, &water);
    snprintf(meter, sizeof meter, "<meter what='water' boiler='boiler' value='%.2f L' error='0.3 L'/>", water);
    const char *const more[] = {"", "<gauge id='g1' at='t0' column='P 1'/>", meter};
    double narrower[3];
    for (size_t k = 0; k < 3; k++) {
        fv_plant *plant = plant_of("10 kW", more[k]);
        fv_faults *faults = fv_faults_new();
        fv_fit_answer *a = fit_of(plant, log, NULL, NULL, faults);
        if (!a)
            nursery_say(faults);
        assert_non_null(a);
        const fv_fit_unknown *output = output_of(a);
        narrower[k] = output->narrower;
        print_message("output %.0f to %.0f W, %.2f of what it was\n", output->low, output->high, output->narrower);
        assert_int_equal(a->instrument_count, k > 0);
        assert_int_equal(a->probe_count, 1);
        if (k > 0) {
            const fv_fit_probe *tells = &a->probes[1];
            assert_true(tells->used == (k == 1 ? log->count : 1));
            /* nothing was put on the readings, so they are met within half of their errors */
            assert_true(tells->rms < (k == 1 ? 100 : 0.15));
            assert_true(output->low < 9500 && output->high > 9500 - 0.03 * 9500);
        }
        fv_fit_free(a);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    assert_true(narrower[1] < 0.9 * narrower[0]); /* the leap of pressure counts as known in time to a sample */
    assert_true(narrower[2] < 0.6 * narrower[0]);
    fv_logfile_free(log);
}

/* A figure of the whole run says nothing of a part of it; that it waits is said. */
static void a_meter_waits_for_the_end(void **state)
{
    (void)state;
    double water;
    fv_logfile *log = log_of(3, &water);
    fv_plant *plant = plant_of("10 kW", "<meter what='water' boiler='boiler' value='90 L'/>");
    fv_faults *faults = fv_faults_new();
    fv_fit_answer *a = fit_of(plant, log, "02:00", NULL, faults);
    assert_non_null(a);
    assert_int_equal(a->instrument_count, 0);
    assert_true(fv_faults_count(faults) > 0);
    assert_non_null(strstr(fv_faults_at(faults, fv_faults_count(faults) - 1)->text, "not used before that ends"));
    fv_fit_free(a);
    fv_plant_free(plant);
    fv_faults_free(faults);
    fv_logfile_free(log);
}

/* Three probes in one core, the third 8 K too high, which a class 2 probe of 1.44 K is not. */
static void a_probe_that_departs(void **state)
{
    (void)state;
    double water;
    fv_logfile *log = log_of(3, &water);
    fv_plant *plant = plant_of("9.5 kW", "<probe id='p2' vessel='bin1' at='core' column='CH 2' type='K' class='2'/>"
                                         "<probe id='p3' vessel='bin1' at='core' column='CH 3' type='K' class='2'/>");
    fv_faults *faults = fv_faults_new();
    fv_fit_answer *a = fit_of(plant, log, NULL, NULL, faults);
    if (!a)
        nursery_say(faults);
    assert_non_null(a);
    for (size_t i = 0; i < 3; i++)
        print_message("%s: others say %.1f +- %.1f K, score %.1f\n", a->cleaned[i].readings.name, a->probes[i].others,
                      a->probes[i].others_error, a->probes[i].departs);
    assert_true(a->probes[2].departs > 3);
    assert_true(fabs(a->probes[2].others - 8) < 2 * a->probes[2].others_error);
    assert_true(fabs(a->probes[0].departs) < 3 && fabs(a->probes[1].departs) < 3);
    fv_fit_free(a);
    fv_plant_free(plant);
    fv_faults_free(faults);
    fv_logfile_free(log);
}

static bool stop_at(void *context, double share, const char *what)
{
    const double *at = context;
    (void)what;
    return share < *at;
}

/* Once the most probable plant is known there is an answer, marked; before there is none. */
static void stopped_on_the_way(void **state)
{
    (void)state;
    double water, at;
    fv_logfile *log = log_of(3, &water);
    fv_plant *plant = plant_of("10 kW", "");
    fv_faults *faults = fv_faults_new();
    const fv_progress progress = {.tick = stop_at, .context = &at};
    at = 0.1;
    assert_null(fit_of(plant, log, NULL, &progress, faults));
    assert_int_equal(fv_faults_errors(faults), 0);
    at = 0.86;
    fv_fit_answer *a = fit_of(plant, log, NULL, &progress, faults);
    assert_non_null(a);
    assert_true(a->stopped);
    assert_true(a->draws >= 32 && a->draws < 192);
    assert_true(a->vessels[0].core.low < a->vessels[0].core.high);
    fv_fit_free(a);
    fv_plant_free(plant);
    fv_faults_free(faults);
    fv_logfile_free(log);
}

/* A fit that begins anew has all readings again, also those that an earlier one left out, as after a hold that came too
 * early in it. */
static void a_second_fit_has_all_readings(void **state)
{
    (void)state;
    double water;
    fv_logfile *log = log_of(9, &water);
    fv_plant *plant = plant_of("10 kW", "");
    fv_fit_options options;
    fv_fit_defaults(&options);
    options.lit = "00:00";
    size_t readings[2];
    for (int early = 0; early < 2; early++) {
        study_match match;
        match_mode modes[MATCH_MODES_MOST];
        const study_defect none = {FV_DEFECT_NONE, -1, -1};
        fv_arena *arena = fv_arena_new();
        fv_faults *faults = fv_faults_new();
        size_t count;
        assert_int_equal(study_match_open(&match, plant, log, &options, arena, NULL, faults), FV_OK);
        const size_t all = match.residuals;
        memset(modes, 0, sizeof modes);
        if (early) {
            assert_true(study_match_mode_new(&match, &none, modes));
            for (size_t k = 0; k < match.unknowns.count; k++)
                if (strcmp(match.unknowns.list[k].attribute, "output") == 0)
                    modes[0].x[k] = 3;
            assert_int_equal(study_match_errors(&match, modes), FV_OK);
            assert_true(match.residuals < all);
        }
        assert_int_equal(study_match_modes(&match, false, modes, &count), STUDY_DONE);
        readings[early] = match.residuals;
        study_match_close(&match);
        fv_faults_free(faults);
        fv_arena_free(arena);
    }
    print_message("%zu readings, %zu after an early hold\n", readings[0], readings[1]);
    assert_int_equal(readings[0], readings[1]);
    fv_plant_free(plant);
    fv_logfile_free(log);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(they_tell_of_the_boiler), cmocka_unit_test(a_meter_waits_for_the_end),
        cmocka_unit_test(a_probe_that_departs), cmocka_unit_test(a_second_fit_has_all_readings),
        cmocka_unit_test(stopped_on_the_way)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
