/* SPDX-License-Identifier: MIT */
/* Fires and valves that keep a load below its limit. */
#include "study/nursery.h"

#include "farvessel/constants.h"
#include "farvessel/overheat.h"

#include <math.h>

/* One opening, at the coil's level: below boiling nothing is drawn in and the balance fits on paper. */
#define DRUMS(load)                                                                                                    \
    "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: two drums'>"                               \
    "<site pressure='101325 Pa' air='15 degC' wind='0 m/s' tees='none'/>"                                              \
    "<boiler id='boiler' at='b0' output='8 kW' relief='0.5 bar' loss='0 W' dryness='100 %'/>"                          \
    "<header id='h' from='b0' to='t' length='2 m' bore='53 mm' lagging='50 mm'/>"                                      \
    "<hose id='s1' from='t' to='c1' length='4 m' bore='19 mm'><valve id='cock' type='ball-valve'/></hose>"             \
    "<hose id='s2' from='t' to='c2' length='4 m' bore='19 mm'/>"                                                       \
    "<kind id='drum' volume='208 L' target='60 degC' hold='1 h' at-most='75 degC'>"                                    \
    "<coil bore='20 mm' length='0.9 m' holes='20' drill='3 mm'/>" load                                                 \
    "<wall area='2 m2' outside='10 W/m2/K'><layer material='mineral-wool' thickness='30 mm'/></wall>"                  \
    "<vent diameter='40 mm' height='0 m'/></kind>"                                                                     \
    "<vessel id='d1' like='drum' at='c1'/><vessel id='d2' like='drum' at='c2'/></network>"
#define STRAW "<load form='cylinder' medium='straw' diameter='12 cm' height='30 cm' count='16' mass='40 kg'/>"
#define BED "<load form='bed' medium='soil' depth='20 cm' area='0.25 m2'/>"

static fv_overheat_answer *answer_of(const fv_plant *plant, fv_heat_result **now)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    fv_faults *faults = fv_faults_new();
    *now = fv_heat_run(plant, &options, NULL, faults);
    assert_non_null(*now);
    fv_overheat_answer *answer = fv_overheat_run(*now, NULL, faults);
    assert_non_null(answer);
    fv_faults_free(faults);
    return answer;
}

/* Loss by hand: mineral wool of 30 mm and an outside film in series. */
static double loss_at(const fv_plant *plant, double t)
{
    const fv_wall_layer *wool = plant->vessels[0]->walls[0]->layers[0];
    return 2 * (t - 15) / (0.03 / wool->conductivity.v + 0.1);
}

static double steam_at(const fv_plant *plant, double fire, size_t vessel)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.fire = fire;
    options.phase = FV_PHASE_HOLDING;
    fv_flow_answer *flow = fv_flow_answer_new(plant, &options, NULL, NULL);
    assert_non_null(flow);
    const double steam = flow->state->vessels[vessel].steam;
    fv_flow_answer_free(flow);
    return steam;
}

static void a_fire_and_a_valve(void **state)
{
    (void)state;
    static const char text[] = DRUMS(STRAW);
    fv_plant *plant = nursery_plant(text, NULL);
    fv_heat_result *now;
    fv_overheat_answer *a = answer_of(plant, &now);
    const fv_overheat_row *row = &a->vessels[0];
    assert_true(row->asked && row->fire > 0.05 && row->fire < 1);
    const double steam = steam_at(plant, row->fire, 0), wanted = loss_at(plant, 74.5) / (2675.6e3 - 311.9e3);
    printf("check | steam at the fire found, kg/h | %.4f | got %.4f | dev %+.1e | loss by hand / (h_g - h_f at 74.5 "
           "degC), IAPWS-IF97\n",
           3600 * wanted, 3600 * steam, steam / wanted - 1);
    assert_true(fabs(steam / wanted - 1) < 0.02);
    assert_true(row->kept && row->core > now->vessels[0].core);
    /* its own valve does it, too, and only the one that has one */
    assert_string_equal(row->valve, "cock");
    assert_true(row->open > 0.01 && row->open < 0.5);
    assert_null(a->vessels[1].valve);
    assert_true(isnan(a->vessels[1].open) && a->vessels[1].asked);
    fv_overheat_free(a);
    fv_heat_free(now);
    fv_plant_free(plant);
}

static void a_bed_has_no_fire(void **state)
{
    (void)state;
    static const char text[] = DRUMS(BED);
    fv_plant *plant = nursery_plant(text, NULL);
    fv_heat_result *now;
    fv_overheat_answer *a = answer_of(plant, &now);
    assert_true(a->vessels[0].asked && isnan(a->vessels[0].fire) && isnan(a->vessels[0].open));
    fv_overheat_free(a);
    fv_heat_free(now);
    fv_plant_free(plant);
}

static void only_what_is_said(void **state)
{
    (void)state;
    static const char text[] = DRUMS(STRAW);
    fv_plant *plant = nursery_plant(text, NULL);
    for (size_t i = 0; i < 2; i++)
        plant->vessels[i]->at_most = (fv_value){.v = NAN, .origin = FV_UNSET};
    fv_heat_result *now;
    fv_overheat_answer *a = answer_of(plant, &now);
    assert_true(now->vessels[0].over > 0 && !a->vessels[0].asked); /* straw's own limit is a note */
    fv_overheat_free(a);
    fv_heat_free(now);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fire_and_a_valve),
        cmocka_unit_test(a_bed_has_no_fire),
        cmocka_unit_test(only_what_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
