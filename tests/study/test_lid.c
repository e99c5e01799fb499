/* SPDX-License-Identifier: MIT */
/* All the steam on one vessel: pressure, the vent that would do, and air back in. */
#include "study/nursery.h"

#include "farvessel/constants.h"
#include "farvessel/lid.h"

#include <math.h>

/* One opening, at the coil's level: the balance fits on paper. */
#define DRUMS(opening)                                                                                                 \
    "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: two drums'>"                               \
    "<site pressure='101325 Pa' air='15 degC' wind='0 m/s' tees='none'/>"                                              \
    "<boiler id='boiler' at='b0' output='30 kW' holds='0.05 bar' relief='0.5 bar' loss='0 W' dryness='100 %'/>"        \
    "<header id='h' from='b0' to='t' length='2 m' bore='53 mm'/>"                                                      \
    "<hose id='s1' from='t' to='c1' length='4 m' bore='19 mm'/>"                                                       \
    "<hose id='s2' from='t' to='c2' length='4 m' bore='19 mm'/>"                                                       \
    "<kind id='drum' volume='208 L'><coil bore='20 mm' length='0.9 m' holes='20' drill='3 mm'/>"                       \
    "<load form='cylinder' medium='straw' diameter='12 cm' height='30 cm' count='24' mass='70 kg'/>"                   \
    "<wall area='2 m2'><layer material='mineral-wool' thickness='30 mm'/></wall>" opening "</kind>"                    \
    "<vessel id='d1' like='drum' at='c1'/><vessel id='d2' like='drum' at='c2'/></network>"

static const double CD = 0.62, RHO = 0.5977, HG_HF = 2256.5e3; /* at 101.325 kPa: IAPWS-IF97 */

static void near(const char *what, double expected, double got, double tolerance, const char *source)
{
    printf("check | %s | %.6g | got %.6g | dev %+.2e | %s\n", what, expected, got, got / expected - 1, source);
    if (!(fabs(got / expected - 1) <= tolerance))
        fail_msg("%s: expected %.9g, got %.9g", what, expected, got);
}

static fv_lid_answer *lids(const fv_plant *plant)
{
    fv_faults *faults = fv_faults_new();
    fv_lid_answer *answer = fv_lid_run(plant, faults);
    assert_non_null(answer);
    fv_faults_free(faults);
    return answer;
}

static double circle(double d)
{
    return 0.25 * 3.14159265358979 * d * d;
}

static double loss_of(const fv_plant *plant)
{
    fv_vessel_need need;
    assert_true(fv_vessel_need_of(plant, plant->vessels[0], fv_sat_line(), &need, NULL) != FV_FAIL);
    return need.wall_loss;
}

static void a_small_vent(void **state)
{
    (void)state;
    static const char plant_text[] = DRUMS("<vent diameter='16 mm' height='0 m'/>");
    fv_plant *plant = nursery_plant(plant_text, NULL);
    fv_lid_answer *a = lids(plant);
    const fv_lid_row *lid = &a->vessels[1];
    assert_true(lid->found == FV_LID_SOLVED);
    const double out = lid->steam - loss_of(plant) / HG_HF, flux = out / (CD * circle(0.016));
    near("chamber with all the steam on it, 16 mm vent, Pa", flux * flux / (2 * RHO), lid->pressure, 0.015,
         "(m/Cd A)^2/(2 rho); expansion left out");
    near("what it lifts, kg/m2", lid->pressure / 9.80665, lid->lifts, 1e-9, "weight");
    /* A freer vessel draws more steam: the vent for the present flow is too small. */
    const double by_flow = sqrt(4 / 3.14159265 * out / (CD * sqrt(2 * RHO * FV_LID_PRESSURE)));
    assert_true(lid->vent > by_flow * 1.02);
    char set[40];
    snprintf(set, sizeof set, "drum.opening1.diameter=%.3f mm", 1e3 * lid->vent);
    fv_plant *wider = nursery_plant(plant_text, (const char *const[]){set, NULL});
    fv_lid_answer *b = lids(wider);
    near("chamber with the vent that would do, Pa", FV_LID_PRESSURE, b->vessels[1].pressure, 5e-4,
         "the plant solved again; the vent to a micrometre");
    assert_true(b->vessels[1].steam > lid->steam);
    fv_faults *faults = fv_faults_new();
    fv_lid_remarks(a, faults);
    assert_true(lid->vent_too_small && lid->found == FV_LID_SOLVED);
    size_t said = 0;
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        said += strstr(fv_faults_at(faults, i)->text, "the vent is too small") != NULL;
    assert_int_equal(said, 1); /* one for all that are alike */
    fv_faults_free(faults);
    fv_lid_free(a);
    fv_lid_free(b);
    fv_plant_free(plant);
    fv_plant_free(wider);
}

static void air_back_in(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(DRUMS("<vent diameter='16 mm' height='0 m'/>"), NULL);
    fv_lid_answer *a = lids(plant);
    const fv_lid_row *lid = &a->vessels[0];
    const double rho_air = 101325 / (287.05 * 288.15), speed = lid->steam / RHO / (CD * circle(0.016));
    near("steam that vanishes, m3/s", lid->steam / RHO, lid->vanishes, 2e-3, "m/rho");
    near("air let in at 10 mbar, m3/s", CD * circle(0.016) * sqrt(2 * FV_LID_VACUUM / rho_air), lid->let_in, 2e-3,
         "Cd A sqrt(2 dp/rho)");
    near("vacuum, Pa", 0.5 * rho_air * speed * speed, lid->vacuum, 5e-3, "rho v^2/2");
    fv_lid_free(a);
    fv_plant_free(plant);
    plant = nursery_plant(DRUMS("<drain diameter='60 mm' seal='50 mm'/>"), NULL);
    a = lids(plant);
    assert_true(a->vessels[0].vacuum > 465 && a->vessels[0].pressure > 465);
    fv_lid_free(a);
    fv_plant_free(plant);
    plant = nursery_plant(DRUMS("<vent diameter='80 mm' height='0 m'/>"), NULL);
    a = lids(plant);
    assert_true(isnan(a->vessels[0].vent) && isnan(a->vessels[0].breaker));
    fv_faults *faults = fv_faults_new();
    fv_lid_remarks(a, faults);
    assert_int_equal(a->vessels[0].found, FV_LID_WIDE);
    assert_false(a->vessels[0].vent_too_small || a->vessels[0].air_too_little);
    assert_int_equal(fv_faults_count(faults), 0);
    fv_faults_free(faults);
    fv_lid_free(a);
    fv_plant_free(plant);
}

/* A vessel that has its only opening, a drain, from its kind: the vent is a further one, and found all the same. */
static void a_vent_beside_the_kind_s_drain(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(DRUMS("<drain diameter='12 mm' height='0 m'/>"), NULL);
    fv_lid_answer *a = lids(plant);
    const fv_lid_row *lid = &a->vessels[0];
    assert_true(lid->vent_too_small);
    char set[40];
    snprintf(set, sizeof set, "drum.opening2.diameter=%.3f mm", 1e3 * lid->vent);
    fv_plant *with = nursery_plant(DRUMS("<drain diameter='12 mm' height='0 m'/><vent diameter='16 mm' height='1 m'/>"),
                                   (const char *const[]){set, NULL});
    fv_lid_answer *b = lids(with);
    near("chamber with the vent that would do beside the drain, Pa", FV_LID_PRESSURE, b->vessels[0].pressure, 5e-4,
         "the plant solved again; the vent to a micrometre");
    /* What the drain lets out at 2 mbar is not the vent's to pass; walls and head of steam left out. */
    const double both = b->vessels[0].steam / (CD * sqrt(2 * RHO * FV_LID_PRESSURE)), area = both - circle(0.012);
    near("that vent, m", sqrt(4 / 3.14159265 * area), lid->vent, 0.05, "m/(Cd sqrt(2 rho dp))");
    fv_lid_free(b);
    fv_plant_free(with);
    fv_lid_free(a);
    fv_plant_free(plant);
}

/* Vessels of no kind, each a little freer than the next: the twelve with the smallest openings are worked out. The
 * first has but a wide drain behind a water seal, whose 15 mbar let nothing in at 10 (hydrostatics). */
static void of_many_the_least_open(void **state)
{
    (void)state;
    enum { MANY = 15, WORKED_OUT = 12 };
    fv_text text = {0};
    fv_text_add(&text,
                "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: many'><site air='15 degC'/>"
                "<boiler id='b' at='b0' output='60 kW' holds='0.05 bar' relief='0.5 bar'/>");
    for (int i = 0; i < MANY; i++)
        fv_text_add(
            &text,
            "<hose id='s%d' from='b0' to='c%d' length='4 m' bore='19 mm'/>"
            "<vessel id='d%d' at='c%d' volume='208 L'><coil bore='20 mm' length='0.9 m' holes='20' drill='3 mm'/>"
            "<load form='block' a='10 cm' b='10 cm' c='20 cm' count='10'/><%s diameter='%d mm' height='0 m'/>"
            "</vessel>",
            i, i, i, i, i == 0 ? "drain seal='90 mm'" : "vent", i == 0 ? 60 : 30 - i);
    fv_text_add(&text, "</network>");
    fv_plant *plant = nursery_plant(text.text, NULL);
    fv_lid_answer *a = lids(plant);
    for (int i = 0; i < MANY; i++)
        assert_int_equal(a->vessels[i].found, i > 0 && i <= MANY - WORKED_OUT ? FV_LID_LIKE : FV_LID_SOLVED);
    assert_true(a->vessels[MANY - 1].pressure > a->vessels[MANY - 2].pressure);
    fv_lid_free(a);
    fv_plant_free(plant);
    fv_text_free(&text);
}

/* Of thirteen of a kind the first is shut: the second is worked out for them. */
static void a_twin_that_is_shut(void **state)
{
    (void)state;
    fv_text text = {0};
    fv_text_add(&text, "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: twins'>"
                       "<boiler id='b' at='b0' output='60 kW' holds='0.05 bar' relief='0.5 bar'/>"
                       "<kind id='drum' volume='208 L'><coil bore='20 mm' length='0.9 m' holes='20' drill='3 mm'/>"
                       "<load form='block' a='10 cm' b='10 cm' c='20 cm' count='10'/>"
                       "<vent diameter='16 mm' height='0 m'/></kind>");
    for (int i = 0; i < 13; i++)
        fv_text_add(&text,
                    "<hose id='s%d' from='b0' to='c%d' length='4 m' bore='19 mm'/>"
                    "<vessel id='d%d' like='drum' at='c%d' phase='%s'/>",
                    i, i, i, i, i == 0 ? "shut" : "heating");
    fv_text_add(&text, "</network>");
    fv_plant *plant = nursery_plant(text.text, NULL);
    fv_lid_answer *a = lids(plant);
    const fv_lid_found expected[] = {FV_LID_SHUT, FV_LID_SOLVED, FV_LID_LIKE};
    for (int i = 0; i < 3; i++)
        assert_int_equal(a->vessels[i].found, expected[i]);
    fv_lid_free(a);
    fv_plant_free(plant);
    fv_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_small_vent), cmocka_unit_test(air_back_in),
                                       cmocka_unit_test(a_vent_beside_the_kind_s_drain),
                                       cmocka_unit_test(of_many_the_least_open), cmocka_unit_test(a_twin_that_is_shut)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
