/* SPDX-License-Identifier: MIT */
/* Choices with the same draws. What holds by construction: a choice against its own copy gains nought in each draw; the
 * bands of one choice are those of odds with as many runs, for both draw from one function. What physics asks: more
 * output never makes the last core later. */
#include "study/nursery.h"
#include "study/odds/parts.h"

static fv_choices_answer *compare(const fv_choice *choices, size_t count, size_t threads)
{
    fv_choices_options options;
    fv_faults *faults = fv_faults_new();
    fv_choices_defaults(&options);
    options.runs = 64;
    options.threads = threads;
    fv_choices_answer *answer = fv_choices_run(choices, count, &options, NULL, faults);
    if (!answer)
        nursery_say(faults);
    fv_faults_free(faults);
    assert_non_null(answer);
    assert_int_equal(answer->count, count);
    return answer;
}

static void its_own_copy(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    fv_setting more = {"boiler", "output", 40e3};
    const fv_change stronger = {.settings = &more, .count = 1};
    const fv_choice choices[] = {{.name = "as it is", .plant = plant, .pick = 2},
                                 {.name = "copy", .plant = plant, .pick = 2},
                                 {.name = "stronger", .plant = plant, .change = &stronger, .pick = 2},
                                 {.name = "the same", .plant = plant, .change = &stronger, .pick = 2}};
    fv_choices_answer *a = compare(choices, 4, 1), *b = compare(choices, 4, 3);
    const fv_choice_odds *copy = &a->rows[1], *strong = &a->rows[2];
    assert_true(copy->gain.low == 0 && copy->gain.middle == 0 && copy->gain.high == 0);
    assert_true(strong->gain.low > 0);
    assert_true(!copy->tie && copy->behind.low == strong->gain.low && copy->behind.high == strong->gain.high);
    assert_true(a->rows[3].tie && a->rows[3].behind.low == 0 && a->rows[3].behind.high == 0);
    assert_true(isnan(a->rows[0].gain.middle) && isnan(strong->behind.middle));
    /* 30 kW to 40 kW: all that the boiler limits is up to a quarter earlier */
    assert_true(strong->gain.high < 0.25 * a->rows[0].last.high);
    for (size_t i = 0; i < 4; i++)
        assert_memory_equal(&a->rows[i].last, &b->rows[i].last, sizeof a->rows[i].last);
    fv_choices_free(a);
    fv_choices_free(b);
    fv_plant_free(plant);
}

static void as_odds(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    const fv_choice choice = {.name = "as it is", .plant = plant};
    fv_choices_answer *a = compare(&choice, 1, 0);
    fv_odds_options options;
    fv_odds_defaults(&options);
    options.runs = 64;
    fv_odds_answer *odds = fv_odds_run(plant, &options, NULL, NULL);
    assert_non_null(odds);
    assert_int_equal(a->unknown_count, odds->unknown_count);
    assert_int_equal(a->rows[0].vessel_count, 3);
    for (size_t i = 0; i < 3; i++) {
        const fv_choice_vessel *v = &a->rows[0].vessels[i];
        assert_float_equal(v->core.low, odds->vessels[i].core.low, 1e-3);
        assert_float_equal(v->core.middle, odds->vessels[i].core.middle, 1e-3);
        assert_float_equal(v->core.high, odds->vessels[i].core.high, 1e-3);
        assert_float_equal(v->within, odds->vessels[i].within, 1e-12);
    }
    assert_float_equal(a->rows[0].all_within, odds->all_within, 1e-12);
    assert_true(odds->over_relief == 0); /* the control holds 0.2 bar, the valve opens at 0.5 bar */
    fv_odds_free(odds);
    fv_choices_free(a);
    fv_plant_free(plant);
}

/* A vessel's time counts from the opening of its steam, not from the fire, by definition (farvessel/model.h). */
static void from_its_opening(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    const double within = plant->vessels[0]->within.v;
    fv_vessel_history history = {.opened = within, .core = 1.5 * within};
    const fv_heat_result result = {.plant = plant, .vessels = &history, .vessel_count = 1};
    assert_int_equal(odds_verdict(&result, 0), FV_FED);
    history.core = 2.1 * within;
    assert_int_equal(odds_verdict(&result, 0), FV_STARVED);
    history.opened = NAN;
    assert_int_equal(odds_verdict(&result, 0), FV_SHUT_OFF);
    fv_plant_free(plant);
}

static bool stop_after_first(void *context, double share, const char *what)
{
    (void)context, (void)what;
    return share < 0.6;
}

static void stopped(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    fv_choices_options options;
    const fv_choice choices[] = {{.name = "one", .plant = plant}, {.name = "two", .plant = plant}};
    const fv_progress progress = {.tick = stop_after_first};
    fv_choices_defaults(&options);
    options.runs = 64;
    fv_choices_answer *a = fv_choices_run(choices, 2, &options, &progress, NULL);
    assert_non_null(a);
    assert_true(a->stopped);
    assert_int_equal(a->count, 1);
    fv_choices_free(a);
    options.runs = 63;
    fv_faults *faults = fv_faults_new();
    assert_null(fv_choices_run(choices, 2, &options, NULL, faults));
    assert_int_equal(fv_faults_errors(faults), 1);
    fv_faults_free(faults);
    assert_null(fv_choices_run(NULL, 0, NULL, NULL, NULL));
    fv_choices_free(NULL);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(its_own_copy), cmocka_unit_test(as_odds),
                                       cmocka_unit_test(from_its_opening), cmocka_unit_test(stopped)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
