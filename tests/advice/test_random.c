/* SPDX-License-Identifier: MIT */
/* Advice for plants drawn from seeds: `heat` keeps each promise to the second, also after the plan was written to a
 * file and read back; no plan passes a relief pressure or lifts a lid more than the plant does; and no single thing
 * that hands could do by itself beats it by more than a minute and what the more to do must gain. ADVICE_PLANTS=200
 * ADVICE_FROM=1 tries more of them. */
#include "seeded.h"

enum { PLANTS = 3, PLANS = 240, SINGLES = 64 };
static const double MINUTE = 60; /* s */

/* What heat says of the plan, once it was saved. */
static void keeps_its_promise(const fv_plant *plant, const fv_plan_row *row)
{
    fv_faults *faults = fv_faults_new();
    fv_text xml = {0};
    fv_plant *changed = fv_change_copy(&row->change, plant, faults);
    assert_non_null(changed);
    assert_true(fv_plantfile_write(changed, &xml));
    fv_plant *again = seeded_read(xml.text);
    fv_heat_result *result = seeded_run(again);
    assert_non_null(result);
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const double core = result->vessels[i].core;
        assert_true((isnan(core) && isnan(row->core[i])) || fabs(core - row->core[i]) < 1);
    }
    for (size_t i = 0; i < plant->boiler_count && row->unsafe == 0; i++)
        assert_true(result->boilers[i].pressure_most <= plant->boilers[i]->relief.v * (1 + 1e-6));
    fv_heat_free(result);
    fv_plant_free(again);
    fv_plant_free(changed);
    fv_text_free(&xml);
    fv_faults_free(faults);
}

/* Some places of a knob, by itself. */
static size_t add_singles(const study_handling *h, size_t knob, int *points, size_t count)
{
    static const double shares[] = {0.5, 0.35, 0.25}, starts[] = {1800, 3600, 7200, 14400};
    const study_knob *k = &h->knobs[knob];
    const bool start = k->kind == STUDY_KNOB_START;
    for (size_t i = 0; i < (start ? 4 : 3) && count < SINGLES; i++) {
        const double value = start ? starts[i] : k->kind == STUDY_KNOB_WASHER ? shares[i] * 1.6 * k->bore : shares[i];
        memset(points + count * h->count, 0, h->count * sizeof *points);
        points[count * h->count + knob] = study_knob_place(k, value);
        count++;
    }
    return count;
}

static double best_single(const fv_plant *plant, size_t *late)
{
    const study_work work = {.threads = 2};
    study_adviser a;
    double best = INFINITY;
    size_t count = 0;
    const study_outcome *outcome;
    assert_true(study_adviser_open(&a, plant, &work));
    int *points = calloc(SINGLES * a.handling.count, sizeof *points);
    for (size_t i = 0; i < a.handling.count; i++)
        count = add_singles(&a.handling, i, points, count);
    *late = SIZE_MAX;
    for (size_t i = 0; i < count; i++) {
        study_settings settings;
        study_settings_open(&settings);
        study_handling_settings(&a.handling, points + i * a.handling.count, &settings);
        const study_ask ask = {.change = &settings.change, .follow = true, .fineness = 1, .until = INFINITY};
        assert_int_equal(study_evaluate(a.evaluator, &ask, 1, &outcome), STUDY_DONE);
        const bool better = outcome->ran && outcome->unsafe == 0 &&
                            (outcome->late < *late || (outcome->late == *late && outcome->last < best));
        *late = better ? outcome->late : *late;
        best = better ? outcome->last : best;
        study_settings_free(&settings);
    }
    free(points);
    study_adviser_close(&a);
    return best;
}

static void advice_for_random_plants(void **state)
{
    const size_t from = seeded_count("ADVICE_FROM", 1), count = seeded_count("ADVICE_PLANTS", PLANTS);
    size_t beaten = 0;
    double gained = 0;
    (void)state;
    for (size_t seed = from; seed < from + count; seed++) {
        fv_plant *plant = seeded_plant(seed);
        fv_plan_options options;
        fv_plan_defaults(&options);
        options.goal = FV_PLAN_EARLIEST;
        options.buy = false;
        options.most = PLANS;
        options.threads = 2;
        fv_faults *faults = fv_faults_new();
        fv_plan_answer *plan = fv_plan_run(plant, &options, NULL, faults);
        assert_non_null(plan);
        const fv_plan_row *row = &plan->rows[0];
        size_t late;
        const double single = best_single(plant, &late);
        const double more = STUDY_EACH * ((double)row->step_count - 1);
        const bool is_beaten = late < row->late || (late == row->late && single + MINUTE < row->last + more);
        print_message("seed %zu: %zu vessels, %.0f min, late %zu; now %.0f min, late %zu; best single %.0f min, late "
                      "%zu; %zu things, %zu plans%s\n",
                      seed, plant->vessel_count, row->last / 60, row->late, plan->now.last / 60, plan->now.late,
                      single / 60, late, row->step_count, plan->looked_at, is_beaten ? " BEATEN" : "");
        assert_true(row->unsafe <= plan->now.unsafe && row->late <= plan->now.late);
        assert_true(row->late < plan->now.late || row->last <= plan->now.last + 60);
        keeps_its_promise(plant, row);
        beaten += is_beaten;
        gained += isfinite(plan->now.last) ? 1 - row->last / plan->now.last : 1;
        fv_plan_free(plan);
        fv_faults_free(faults);
        fv_plant_free(plant);
    }
    print_message("%zu plants, %zu beaten by a single move; gained %.1f %% on average\n", count, beaten,
                  100 * gained / (double)count);
    assert_int_equal(beaten, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(advice_for_random_plants)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
