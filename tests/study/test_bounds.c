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

/* More steam must come to a bed than heats it: its front is uneven. One that is even is bounded earlier by that factor.
 */
static void a_bed_wants_more(void **state)
{
    static const char xml[] =
        "<network xmlns='urn:farvessel:network:1'><site air='10 degC'/><boiler id='b' at='b0' output='16 kW'/>"
        "<hose id='s' from='b0' to='c' length='3 m' bore='20 mm'/><vessel id='box' at='c' volume='0.6 m3' "
        "target='82 degC' hold='30 min' within='6 h'><coil bore='16 mm' length='1.8 m' holes='20' drill='3 mm'/>"
        "<load form='bed' medium='soil' depth='40 cm' area='0.96 m2' mass='450 kg' start-temperature='10 degC'/>"
        "<wall area='4 m2'><layer material='plywood' thickness='18 mm'/></wall><vent diameter='30 mm'/></vessel>"
        "</network>";
    fv_plant *plant = fv_plantfile_read_memory(xml, strlen(xml), "box.xml", NULL, NULL);
    const study_outcome *now;
    study_adviser a;
    study_bounds uneven, even;
    const int point[64] = {0};
    (void)state;
    assert_non_null(plant);
    for (int even_front = 0; even_front < 2; even_front++) {
        plant->vessels[0]->load.front_factor = fv_given(even_front ? 1.0 : 1.5);
        open_bounds(&a, plant, even_front ? &even : &uneven);
        now = follow(&a, point);
        assert_true(now->ran);
        holds_for(even_front ? &even : &uneven, now->last);
        study_adviser_close(&a);
    }
    print_message("energy: %.0f s even, %.0f s uneven\n", even.energy, uneven.energy);
    assert_true(uneven.energy > 1.3 * even.energy);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(no_handling_is_earlier), cmocka_unit_test(nor_is_brute_force),
                                       cmocka_unit_test(a_boiler_lit_later_moves_them),
                                       cmocka_unit_test(a_bed_wants_more)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
