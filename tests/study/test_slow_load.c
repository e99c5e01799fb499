/* SPDX-License-Identifier: MIT */
/* A load that steam in plenty does not bring there in its time: nothing mends that, and the advice is what brings the
 * last core earliest, not what opens the steam late. Straw in pieces of 40 cm, allowed 10 h, with 13 h 40 min needed;
 * held against one valve typed by hand. */
#include "yard.h"

#define STRAW                                                                                                          \
    "<network xmlns=\"urn:farvessel:network:1\"><site altitude=\"300 m\" air=\"4 degC\" wind=\"2 m/s\"/>"              \
    "<boiler id=\"stove\" at=\"b0\" output=\"20 kW\" holds=\"0.15 bar\" relief=\"0.4 bar\"/>"                          \
    "<header id=\"h1\" from=\"b0\" to=\"t1\" length=\"4 m\" bore=\"53 mm\" lagging=\"25 mm\"/>"                        \
    "<header id=\"h2\" from=\"t1\" to=\"t2\" length=\"3 m\" bore=\"41 mm\"/>"                                          \
    "<hose id=\"n\" from=\"t1\" to=\"c1\" length=\"5 m\" bore=\"25 mm\"><valve/><barb bore=\"21 mm\"/></hose>"         \
    "<hose id=\"f\" from=\"t2\" to=\"c2\" length=\"14 m\" bore=\"25 mm\" sag=\"120 mm\"><valve/></hose>"               \
    "<kind id=\"basket\" volume=\"2.2 m3\" target=\"65 degC\" hold=\"8 h\" within=\"10 h\">"                           \
    "<coil bore=\"27 mm\" length=\"2.4 m\" holes=\"36\" drill=\"3 mm\"/>"                                              \
    "<load medium=\"straw\" form=\"cylinder\" diameter=\"40 cm\" height=\"60 cm\" count=\"18\" mass=\"500 kg\" "       \
    "moisture=\"72 %\" packing=\"loose\"/><wall area=\"9 m2\"><layer material=\"plywood\" thickness=\"15 mm\"/>"       \
    "<layer material=\"mineral-wool\" thickness=\"60 mm\"/></wall>"                                                    \
    "<vent diameter=\"50 mm\" height=\"1.4 m\"/><drain diameter=\"30 mm\" seal=\"50 mm\"/></kind>"                     \
    "<vessel id=\"near\" like=\"basket\" at=\"c1\"/><vessel id=\"far\" like=\"basket\" at=\"c2\"/></network>"

static double last_of(const fv_plant *plant)
{
    fv_heat_result *result = yard_run(plant, 1);
    const double last = fmax(result->vessels[0].core, result->vessels[1].core);
    assert_true(result->vessels[0].core_ample > plant->vessels[0]->within.v);
    fv_heat_free(result);
    return last;
}

static void plan_brings_the_last_core_earlier(void **state)
{
    static const char *const by_hand[] = {"n.valve.open=35 %"};
    fv_plant *plant = yard_read(STRAW), *throttled = yard_set(STRAW, by_hand, 1);
    fv_plan_answer *answer = yard_plan(plant, 120);
    (void)state;
    assert_int_equal(answer->rows[0].late, 2);
    assert_true(answer->rows[0].last < last_of(plant));
    assert_true(answer->rows[0].last < last_of(throttled) + 60);
    assert_true(answer->slow >= 0 && answer->slow_takes > plant->vessels[0]->within.v);
    fv_plan_free(answer);
    fv_plant_free(throttled);
    fv_plant_free(plant);
}

/* Where nothing brings them in time, four fifths of the most that can be gained for nothing come before a boiler. */
static void why_takes_hands_before_a_boiler(void **state)
{
    fv_plant *plant = yard_read(STRAW);
    fv_why_answer *answer = yard_why(plant);
    (void)state;
    assert_true(answer->cheapest >= 0 && answer->strongest >= 0);
    const fv_why_remedy *step = &answer->remedies[answer->cheapest], *most = &answer->remedies[answer->strongest];
    assert_true(!step->in_time && !most->in_time);
    assert_int_not_equal(step->effort, FV_EFFORT_BUY);
    assert_true(step->worth >= 0.8 * most->worth);
    fv_why_free(answer);
    fv_plant_free(plant);
}

/* A stove fed by hand runs dry long before: feeding it is what helps, however late the core comes then. */
static void why_feeds_a_stove_that_runs_dry(void **state)
{
    static const char *const by_hand[] = {"stove.feeding=by-hand", "stove.water=120 L", "stove.usable=60 L"};
    fv_plant *plant = yard_set(STRAW, by_hand, 3);
    fv_why_answer *answer = yard_why(plant);
    (void)state;
    assert_true(answer->cheapest >= 0);
    assert_int_equal(answer->remedies[answer->cheapest].kind, FV_REMEDY_FEED);
    fv_why_free(answer);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plan_brings_the_last_core_earlier),
        cmocka_unit_test(why_takes_hands_before_a_boiler),
        cmocka_unit_test(why_feeds_a_stove_that_runs_dry),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
