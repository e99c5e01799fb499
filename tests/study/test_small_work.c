/* SPDX-License-Identifier: MIT */
/* What is done once with a bucket against what hands do all night: three drums whose wide vents draw air in by open
 * drains. Held against the plain run of the same plant with its drains under 50 mm of water, as a grower would try. */
#include "yard.h"

#define DRUM(n)                                                                                                        \
    "<hose id=\"s" n "\" from=\"t" n "\" to=\"c" n "\" length=\"1.8 m\" bore=\"19 mm\"><valve/>"                       \
    "<barb bore=\"16 mm\" count=\"2\"/></hose><vessel id=\"d" n "\" like=\"drum\" at=\"c" n "\"/>"
#define DRUMS                                                                                                          \
    "<network xmlns=\"urn:farvessel:network:1\"><site air=\"10 degC\"/>"                                               \
    "<boiler id=\"b\" at=\"b0\" output=\"14 kW\" holds=\"0.2 bar\" relief=\"0.5 bar\"/>"                               \
    "<header id=\"h1\" from=\"b0\" to=\"t1\" length=\"1.5 m\" bore=\"25 mm\"/>"                                        \
    "<header id=\"h2\" from=\"t1\" to=\"t2\" length=\"1.2 m\" bore=\"25 mm\"/>"                                        \
    "<header id=\"h3\" from=\"t2\" to=\"t3\" length=\"1.2 m\" bore=\"25 mm\"/>"                                        \
    "<kind id=\"drum\" volume=\"210 L\" target=\"95 degC\" hold=\"4 h\" within=\"12 h\">"                              \
    "<coil bore=\"25 mm\" length=\"1.8 m\" holes=\"24\" drill=\"3 mm\"/>"                                              \
    "<load medium=\"wood\" form=\"block\" a=\"13 cm\" b=\"13 cm\" c=\"20 cm\" count=\"60\" mass=\"145 kg\" "           \
    "packing=\"loose\"/><wall area=\"2.1 m2\"><layer material=\"steel\" thickness=\"1.2 mm\"/></wall>"                 \
    "<vent diameter=\"38 mm\"/><drain diameter=\"25 mm\"/></kind>" DRUM("1") DRUM("2") DRUM("3") "</network>"

enum { COUNT = 3 };
static const double WITHIN = 12 * 3600, MINUTE = 60;

/* s: the last core with all drains sealed; a core that does not arrive fails. */
static double sealed_by_hand(void)
{
    static const char *const seals[COUNT] = {"d1.drain.seal=50 mm", "d2.drain.seal=50 mm", "d3.drain.seal=50 mm"};
    fv_plant *plant = yard_set(DRUMS, seals, COUNT);
    fv_heat_result *result = yard_run(plant, 1);
    double last = 0;
    for (size_t i = 0; i < COUNT; i++) {
        assert_true(result->vessels[i].core < WITHIN);
        last = fmax(last, result->vessels[i].core);
    }
    fv_heat_free(result);
    fv_plant_free(plant);
    return last;
}

static void nobody_arrives_as_it_is(void **state)
{
    fv_plant *plant = yard_read(DRUMS);
    fv_heat_result *result = yard_run(plant, 1);
    (void)state;
    for (size_t i = 0; i < COUNT; i++)
        assert_true(isnan(result->vessels[i].core));
    fv_heat_free(result);
    fv_plant_free(plant);
}

static void why_names_the_seals_before_a_night_of_starts(void **state)
{
    fv_plant *plant = yard_read(DRUMS);
    fv_why_answer *answer = yard_why(plant);
    (void)state;
    assert_true(answer->cheapest >= 0);
    const fv_why_remedy *step = &answer->remedies[answer->cheapest];
    assert_int_equal(step->kind, FV_REMEDY_SEAL);
    assert_int_equal(step->part_count, COUNT);
    assert_true(step->in_time && fabs(step->slowest - sealed_by_hand()) < MINUTE);
    fv_why_free(answer);
    fv_plant_free(plant);
}

static void plan_is_no_later_than_the_seals_alone(void **state)
{
    fv_plant *plant = yard_read(DRUMS);
    fv_plan_answer *answer = yard_plan(plant, 120);
    (void)state;
    const fv_plan_row *best = &answer->rows[0];
    assert_int_equal(best->late, 0);
    assert_true(best->money == 0);
    assert_true(best->last <= sealed_by_hand() + MINUTE);
    fv_plan_free(answer);
    fv_plant_free(plant);
}

static void carry_tells_what_small_work_does(void **state)
{
    fv_plant *plant = yard_read(DRUMS);
    fv_faults *faults = fv_faults_new();
    fv_carry_options options;
    const fv_carry_way *work = NULL;
    (void)state;
    fv_carry_defaults(&options);
    options.more = 1;
    fv_carry_answer *answer = fv_carry_run(plant, &options, NULL, faults);
    assert_non_null(answer);
    for (size_t i = 0; i < answer->way_count; i++)
        work = answer->ways[i].other == FV_CARRY_SMALL_WORK ? &answer->ways[i] : work;
    assert_non_null(work);
    assert_int_equal(work->work->kind, FV_REMEDY_SEAL);
    assert_true(work->meets && work->cost == 0);
    assert_true(fabs(work->run.slowest - sealed_by_hand()) < MINUTE);
    fv_carry_free(answer);
    fv_faults_free(faults);
    fv_plant_free(plant);
}

static void size_tries_the_bucket_before_it_buys(void **state)
{
    fv_plant *plant = yard_read(DRUMS);
    fv_size_options options;
    (void)state;
    fv_size_defaults(&options);
    options.most = 160;
    fv_size_answer *answer = fv_size_run(plant, &options, NULL, NULL);
    assert_non_null(answer);
    assert_true(answer->work_count > 0 && answer->works[0]->kind == FV_REMEDY_SEAL);
    assert_true(answer->hands > 0);
    const fv_size_row *free = &answer->rows[answer->hands];
    assert_int_equal(free->run.starved, 0);
    assert_true(free->cost == 0 && free->unpriced == 0);
    assert_true(free->run.slowest <= sealed_by_hand() + MINUTE);
    const fv_size_row *best = &answer->rows[answer->best]; /* what is bought has to gain over that */
    assert_true(answer->best == answer->hands || best->run.slowest < 0.97 * free->run.slowest);
    fv_size_free(answer);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nobody_arrives_as_it_is),
        cmocka_unit_test(why_names_the_seals_before_a_night_of_starts),
        cmocka_unit_test(plan_is_no_later_than_the_seals_alone),
        cmocka_unit_test(carry_tells_what_small_work_does),
        cmocka_unit_test(size_tries_the_bucket_before_it_buys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
