/* SPDX-License-Identifier: MIT */
/* The least fire for the hold, found from one moment's balances, against the same plants followed in time: walls soaked
 * through, 0.02 above it every hold goes on, 0.02 below it one breaks. */
#include "farvessel/heatup.h"
#include "farvessel/plantfile.h"
#include "heatup/random_run.h"

static const double HOUR = 3600, SOAKED = 40 * 3600.0, HOLD = 200 * 3600.0, LONG = 2000 * 3600.0, BESIDE = 0.02;
static const double RANDOM_LEAST = 0.07; /* of the fire: a search ends at 0.05 */

/* Holds and nothing else that happens; LONG: half a ton of load in thick walls, all at the boiling point when the fire
 * is turned down, gives off heat for some hundred hours. */
static void hold_on(fv_plant *plant, double hold)
{
    plant->action_count = plant->thermostat_count = 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_vessel *v = plant->vessels[i];
        v->hold = fv_given(hold);
        v->within = fv_given(hold);
        v->start_after = NULL;
    }
    for (size_t i = 0; i < plant->boiler_count; i++)
        plant->boilers[i]->feeding = fv_given(FV_FEED_AUTOMATIC);
}

static fv_plant *read_plant(const char *name)
{
    char path[100];
    snprintf(path, sizeof path, "networks/%s.xml", name);
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(path, NULL, faults);
    assert_non_null(plant);
    fv_faults_free(faults);
    hold_on(plant, HOLD);
    return plant;
}

/* How many holds break when all fires are turned to a share of what they are, at a time. */
static int broken(fv_plant *plant, double time, double fire)
{
    for (size_t i = 0; isfinite(time) && i < plant->boiler_count; i++) {
        fv_action *a = fv_plant_add_action(plant, HERE);
        a->boiler = plant->boilers[i]->part.id;
        a->at = fv_given(time);
        a->fire = fv_given(fire * plant->boilers[i]->fire.v);
    }
    fv_faults *faults = fv_faults_new();
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.until = time + plant->vessels[0]->hold.v;
    assert_true(fv_plant_link(plant, faults) != FV_FAIL);
    fv_heat_result *r = fv_heat_run(plant, &options, NULL, faults);
    assert_non_null(r);
    int count = 0;
    for (size_t i = 0; i < r->vessel_count; i++)
        count += !isnan(r->vessels[i].hold_broken);
    fv_heat_free(r);
    fv_faults_free(faults);
    return count;
}

/* When the last core is there, s. */
static double last_core(fv_plant *plant)
{
    fv_faults *faults = fv_faults_new();
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    assert_true(fv_plant_link(plant, faults) != FV_FAIL);
    fv_heat_result *r = fv_heat_run(plant, &options, NULL, faults);
    assert_non_null(r);
    double last = 0;
    for (size_t i = 0; i < r->vessel_count; i++)
        last = isnan(r->vessels[i].core) ? NAN : last + fmax(r->vessels[i].core - last, 0);
    fv_heat_free(r);
    fv_faults_free(faults);
    return last;
}

/* mixed.xml is left out: its uptake is said by hand, and its weather changes. */
static void holds_above_and_breaks_below(void **state)
{
    (void)state;
    static const char *const plants[] = {"far-bench", "four-bins", "ring", "turndown-trap"};
    for (size_t p = 0; p < sizeof plants / sizeof *plants; p++) {
        fv_least_fire least;
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = read_plant(plants[p]);
        assert_true(fv_plant_link(plant, faults) != FV_FAIL);
        assert_int_equal(fv_least_fire_of(plant, 1, NULL, &least, faults), FV_OK);
        assert_true(least.fire > 0);
        const double time = last_core(plant) + SOAKED;
        fv_plant_free(plant);
        int count[2];
        for (int side = 0; side < 2; side++) {
            plant = read_plant(plants[p]);
            count[side] = broken(plant, time, least.fire + (side ? BESIDE : -BESIDE));
            fv_plant_free(plant);
        }
        fv_faults_free(faults);
        printf("check | %s: holds broken 0.02 below and above its least fire %.4f, turned down after %.0f h | 1 or "
               "more, 0 "
               "| got %d, %d | the same balances followed in time\n",
               plants[p], least.fire, time / HOUR, count[0], count[1]);
        assert_true(count[0] > 0 && count[1] == 0);
    }
}

static fv_plant *drawn(bench *b, uint64_t seed)
{
    draw_run(b, seed);
    at_once(b->plant);
    hold_on(b->plant, LONG);
    return b->plant;
}

/* The same of a plant drawn from a seed; with a bed the least fire may be too much, for walls beside it lose less than
 * the chamber's, as which one moment counts them. False: it makes no sense, not all arrive in its 3 days, or the least
 * fire is not found. */
static bool judge_drawn(uint64_t seed, int *wrong)
{
    bench b;
    fv_least_fire least = {.fire = NAN};
    fv_plant *plant = drawn(&b, seed);
    bool told = fv_plant_link(plant, b.faults) != FV_FAIL &&
                fv_least_fire_of(plant, 1, NULL, &least, b.faults) == FV_OK && least.fire > RANDOM_LEAST;
    const double time = told ? last_core(plant) + SOAKED : NAN;
    told = isfinite(time);
    bool bed = false;
    for (size_t i = 0; i < plant->vessel_count; i++)
        bed = bed || fv_word(plant->vessels[i]->load.form) == FV_FORM_BED;
    close_bench(&b);
    int count[2] = {0};
    for (int side = 0; told && side < 2; side++) {
        plant = drawn(&b, seed);
        count[side] = broken(plant, time, fmin(least.fire + (side ? BESIDE : -BESIDE), 1));
        close_bench(&b);
    }
    if (told && ((count[0] == 0 && !bed) || count[1] > 0)) {
        printf("seed %d: least fire %.4f, turned down after %.0f h: %d holds broken below, %d above\n", (int)seed,
               least.fire, time / HOUR, count[0], count[1]);
        ++*wrong;
    }
    return told;
}

/* RANDOM_PLANTS=50 RANDOM_FROM=1: as many seeds as there is time for. */
static void drawn_plants(void **state)
{
    (void)state;
    const char *from_text = getenv("RANDOM_FROM"), *count_text = getenv("RANDOM_PLANTS");
    const uint64_t from = from_text ? strtoull(from_text, NULL, 10) : 1,
                   count = count_text ? strtoull(count_text, NULL, 10) : 50;
    int wrong = 0, told = 0;
    for (uint64_t seed = from; seed < from + count; seed++)
        told += judge_drawn(seed, &wrong);
    printf("check | random plants from seed %d: least fires that hold 0.02 above and break 0.02 below | all | %d of %d "
           "| | the same balances followed in time\n",
           (int)from, told - wrong, told);
    assert_int_equal(wrong, 0);
    assert_true(told > 0 || count_text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(holds_above_and_breaks_below), cmocka_unit_test(drawn_plants)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
