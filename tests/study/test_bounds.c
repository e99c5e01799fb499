/* SPDX-License-Identifier: MIT */
/* The bounds are bounds: on plants drawn from seeds no handling is earlier, neither one that the search found, nor one
 * drawn at random, nor the best of the brute force kept in reference/advice/brute-force.csv. The runs that they are
 * held to know nothing of them. A boiler lit later moves them by as much. BOUNDS_PLANTS=200 tries more. */
#include "../advice/seeded.h"

#include "study/bounds.h"

enum { PLANTS = 6, DRAWN = 12, PLANS = 40 };

static const study_outcome *follow(study_adviser *a, const int *point)
{
    study_settings settings;
    const study_outcome *outcome;
    study_settings_open(&settings);
    study_handling_settings(&a->handling, point, &settings);
    const study_ask ask = {.change = &settings.change, .fineness = 1, .until = INFINITY};
    assert_int_equal(study_evaluate(a->evaluator, &ask, 1, &outcome), STUDY_DONE);
    study_settings_free(&settings);
    return outcome;
}

static void open_bounds(study_adviser *a, const fv_plant *plant, study_bounds *bounds)
{
    const study_work work = {.threads = 1};
    int point[64] = {0};
    assert_true(study_adviser_open(a, plant, &work));
    assert_true(study_bounds_find(a, follow(a, point), NULL, bounds) != FV_FAIL);
    assert_true(bounds->conduction > 0 && bounds->energy > 0);
}

static void holds_for(const study_bounds *bounds, double last)
{
    assert_true(bounds->conduction <= last);
    assert_true(bounds->energy <= last);
}

static void no_handling_is_earlier(void **state)
{
    const size_t count = seeded_count("BOUNDS_PLANTS", PLANTS);
    double nearest = 0;
    (void)state;
    for (uint64_t seed = 301; seed < 301 + count; seed++) {
        fv_plant *plant = seeded_plant(seed);
        study_adviser a;
        study_bounds bounds;
        seeded_dice dice = {.state = seed};
        open_bounds(&a, plant, &bounds);
        for (int k = 0; k < DRAWN; k++) {
            int point[64] = {0};
            for (size_t i = 0; i < a.handling.count; i++)
                if (seeded_throw(&dice) < 0.4)
                    point[i] = (int)(seeded_throw(&dice) * fmin(12, a.handling.knobs[i].places));
            const study_outcome *o = follow(&a, point);
            if (o->ran)
                holds_for(&bounds, o->last);
        }
        const study_advice_options options = {.objective = {.goal = FV_PLAN_EARLIEST, .span = INFINITY},
                                              .valves = true,
                                              .starts = true,
                                              .turns = true,
                                              .most = PLANS};
        study_advice advice = {0};
        assert_int_equal(study_advise(&a, &options, NULL, 0, &advice), STUDY_DONE);
        holds_for(&bounds, advice.score.outcome->last);
        nearest = fmax(nearest, fmax(bounds.conduction, bounds.energy) / advice.score.outcome->last);
        study_adviser_close(&a);
        fv_plant_free(plant);
    }
    print_message("%zu plants; the nearest bound is %.0f %% of the plan\n", count, 100 * nearest);
    assert_true(nearest > 0.5); /* one that is far below all plans would hold, and say nothing */
}

static void nor_is_brute_force(void **state)
{
    char line[4096];
    FILE *file = fopen("reference/advice/brute-force.csv", "r");
    size_t done = 0;
    (void)state;
    assert_non_null(file);
    while (done < PLANTS && fgets(line, sizeof line, file)) {
        unsigned long long seed;
        double last;
        if (sscanf(line, "%llu,%*[^,],%*[^,],%*[^,],%lf", &seed, &last) != 2)
            continue;
        fv_plant *plant = seeded_plant(seed);
        study_adviser a;
        study_bounds bounds;
        open_bounds(&a, plant, &bounds);
        holds_for(&bounds, 60 * last);
        study_adviser_close(&a);
        fv_plant_free(plant);
        done++;
    }
    fclose(file);
    assert_int_equal(done, PLANTS);
}

static void a_boiler_lit_later_moves_them(void **state)
{
    fv_plant *plant = seeded_plant(301);
    study_adviser a;
    study_bounds now, later;
    (void)state;
    open_bounds(&a, plant, &now);
    study_adviser_close(&a);
    plant->boilers[0]->start = fv_given(1800);
    open_bounds(&a, plant, &later);
    assert_true(fabs(later.conduction - now.conduction - 1800) < 1);
    assert_true(fabs(later.energy - now.energy - 1800) < 1);
    study_adviser_close(&a);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(no_handling_is_earlier), cmocka_unit_test(nor_is_brute_force),
                                       cmocka_unit_test(a_boiler_lit_later_moves_them)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
