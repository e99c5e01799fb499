/* SPDX-License-Identifier: MIT */
/* A loose bed: heat balance of the front, what it soaks up, following the chamber, cooling. */
#include "checks.h"

#include "farvessel/heat.h"
#include "heatup/bed.h"

#define LATENT_STEAM 2256.5e3 /* J/kg at 1 atm: reference/props, IF97 */

static heatup_bed_spec sawdust(void)
{
    return (heatup_bed_spec){
        .mass = 400,
        .specific_heat = 3070,
        .moisture = 0.6,
        .depth = 0.8,
        .area = 1.25,
        .conductivity = 0.35,
        .h_cooling = 12,
        .front_factor = 1,
        .t_start = KELVIN + 15,
    };
}

/* A step without walls: the heat over it, a + b t. */
static heatup_line ask(heatup_bed *bed, double dt, double h_top)
{
    heatup_line in, out;
    heatup_bed_prepare(bed, &(heatup_bed_step){.dt = dt, .h_top = h_top}, &in, &out);
    assert_true(out.a == 0 && out.b == 0);
    return in;
}

static void test_front(void **state)
{
    (void)state;
    heatup_bed_spec spec = sawdust();
    heatup_bed *bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    const double steam = KELVIN + 100, whole = 400 * 3070 * 85.0;
    assert_int_equal(heatup_bed_phase_of(bed), HEATUP_BED_CLIMBING);
    check_dev("bed of 400 kg from 15 to 100 degC wants, J", whole, heatup_bed_wants(bed, steam), 1e-14, "m c dT");
    double given = 0;
    for (int i = 1; i <= 9; i++) {
        double taken = heatup_bed_give(bed, whole / 10, steam, whole / 10 / LATENT_STEAM);
        assert_true(fabs(taken - whole / 10) < 1e-9 * whole);
        given += taken;
        assert_true(fabs(heatup_bed_front(bed) - 0.08 * i) < 1e-12);
        assert_true(heatup_bed_core(bed) == spec.t_start); // the top has heard nothing
        assert_true(fabs(heatup_bed_mean(bed) - (spec.t_start + 8.5 * i)) < 1e-9);
        const heatup_line none = ask(bed, 60, 12);
        assert_true(none.a == 0 && none.b == 0);
    }
    double last = heatup_bed_give(bed, whole, steam, whole / 10 / LATENT_STEAM);
    given += last;
    check_dev("bed: heat taken until the front is through, J", whole, given, 1e-13, "m c dT");
    assert_int_equal(heatup_bed_phase_of(bed), HEATUP_BED_THROUGH);
    assert_true(fabs(heatup_bed_core(bed) - steam) < 1e-9 && heatup_bed_wants(bed, steam + 1) == 0);
    assert_true(fabs(heatup_bed_front(bed) - 0.8) < 1e-12 && fabs(heatup_bed_heat(bed) - given) < 1e-9 * given);
    assert_true(heatup_bed_give(bed, 1e6, steam, 1) == 0);
    check_dev("condensate of 100 kg of wet sawdust, kg", 12, heatup_bed_gain(bed) / 4, 0.04,
              "common practice, no source");
    heatup_bed_free(bed);
}

/* Steam per cubic metre from 15 to 100 degC, condensate left at 100 degC. */
static void test_steam_per_volume(void **state)
{
    (void)state;
    const double capacity[] = {1.5e6, 2.0e6, 2.5e6, 3.0e6}, expected[] = {56.5, 75.3, 94.2, 113.0};
    for (int i = 0; i < 4; i++) {
        heatup_bed_spec spec = sawdust();
        spec.mass = 1000;
        spec.depth = spec.area = 1;
        spec.specific_heat = capacity[i] / 1000;
        heatup_bed *bed = heatup_bed_new(&spec);
        assert_non_null(bed);
        char what[96];
        snprintf(what, sizeof what, "steam for 1 m3 of medium, %.1f MJ/m3K, 15 to 100 degC, kg", capacity[i] / 1e6);
        check_dev(what, expected[i], heatup_bed_wants(bed, KELVIN + 100) / LATENT_STEAM, 2e-3,
                  "C dT/h_fg by hand, IF97's h_fg");
        heatup_bed_free(bed);
    }
}

static void test_frozen(void **state)
{
    (void)state;
    heatup_bed_spec spec = sawdust();
    spec.t_start = KELVIN - 10;
    spec.specific_heat_frozen = 1800;
    heatup_bed *bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    double whole = 400 * (1800 * 10 + 0.6 * FV_LATENT_ICE + 3070 * 100);
    check_dev("bed from -10 to 100 degC wants, J", whole, heatup_bed_wants(bed, KELVIN + 100), 1e-13,
              "m (c_ice 10 + w L + c 100)");
    heatup_bed_give(bed, whole / 2, KELVIN + 100, 0);
    assert_true(fabs(heatup_bed_front(bed) - 0.4) < 1e-12 && heatup_bed_core(bed) == spec.t_start);
    heatup_bed_give(bed, whole, KELVIN + 100, 0);
    assert_true(fabs(heatup_bed_mean(bed) - KELVIN - 100) < 1e-9);
    double above = whole / 2 / 400 - 1800 * 10 - 0.6 * FV_LATENT_ICE; // half the heat, spread evenly, is 19 degC or so
    heatup_bed_free(bed);
    bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    heatup_bed_give(bed, whole / 2, KELVIN + 100, 0);
    heatup_bed_begin_cooling(bed);
    check_off("half heated, evened out, degC", fmax(above / 3070, 0), heatup_bed_mean(bed) - KELVIN, 1e-9,
              "heat balance");
    heatup_bed_free(bed);
}

static void test_follows(void **state)
{
    (void)state;
    heatup_bed_spec spec = sawdust();
    heatup_bed *bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    heatup_bed_give(bed, 1e12, KELVIN + 100, 40);
    double heat = heatup_bed_heat(bed), promised = 0;
    // the chamber above is still cold: the bed waits
    heatup_line line = ask(bed, 60, 12);
    assert_true(line.a == 0 && line.b == 0);
    heatup_bed_advance(bed, KELVIN + 99.8);
    assert_true(heatup_bed_heat(bed) == heat);
    const double path[] = {100.2, 100.4, 99.0, 97.0, 100.0};
    for (int i = 0; i < 5; i++) {
        double next = KELVIN + path[i];
        line = ask(bed, 60, 12);
        promised += line.a + line.b * next;
        heatup_bed_advance(bed, next);
        assert_true(fabs(heatup_bed_core(bed) - next) < 1e-9);
    }
    check_worst("bed that follows: heat promised less booked, share",
                fabs(heatup_bed_heat(bed) - heat - promised) / heat, 1e-13, "identity");
    heatup_bed_free(bed);
}

/* Cooling: half of a slab twice as deep, seen from the top. */
static void test_cooling(void **state)
{
    (void)state;
    heatup_bed_spec spec = sawdust();
    heatup_bed *bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    heatup_bed_give(bed, 1e12, KELVIN + 100, 40);
    double hot = heatup_bed_heat(bed), promised = 0;
    heatup_bed_begin_cooling(bed);
    heatup_bed_begin_cooling(bed); // said twice, done once
    for (int i = 0; i < 24; i++) {
        const heatup_line line = ask(bed, 3600, 12);
        promised += line.a + line.b * (KELVIN + 10);
        heatup_bed_advance(bed, KELVIN + 10);
    }
    check_worst("bed that cools: heat promised less booked, share", fabs(heatup_bed_heat(bed) - hot - promised) / hot,
                1e-12, "identity");
    double theta, mean, density = 400 / (0.8 * 1.25), fourier = 0.35 / (density * 3070) * 86400 / 0.64,
                        biot = 12 * 0.8 / 0.35;
    assert_int_equal(fv_heat_theta(FV_SLAB, biot, fourier, 0, &theta), FV_OK);
    assert_int_equal(fv_heat_theta_mean(FV_SLAB, biot, fourier, &mean), FV_OK);
    check_off("bottom of an 80 cm bed after a day in 10 degC, degC", 10 + 90 * theta, heatup_bed_hottest(bed) - KELVIN,
              0.3, "series of a slab with one face tight");
    check_off("its mean, degC", 10 + 90 * mean, heatup_bed_mean(bed) - KELVIN, 0.3,
              "series of a slab with one face tight");
    assert_true(heatup_bed_top(bed) < heatup_bed_mean(bed));
    // steam again: a new front through what has cooled
    double wants = heatup_bed_wants(bed, KELVIN + 100), cold_top = heatup_bed_top(bed);
    check_dev("wants again, J", hot - heatup_bed_heat(bed), wants, 1e-9, "heat balance");
    heatup_bed_give(bed, wants / 2, KELVIN + 100, 1);
    assert_int_equal(heatup_bed_phase_of(bed), HEATUP_BED_CLIMBING);
    assert_true(fabs(heatup_bed_core(bed) - cold_top) < 1e-9); // above the front all is as at the top
    heatup_bed_give(bed, wants, KELVIN + 100, 1);
    assert_true(fabs(heatup_bed_core(bed) - KELVIN - 100) < 1e-6);
    // and cooled once more: from even again
    double full = heatup_bed_heat(bed);
    heatup_bed_begin_cooling(bed);
    assert_true(fabs(heatup_bed_core(bed) - KELVIN - 100) < 1e-6 && fabs(heatup_bed_mean(bed) - KELVIN - 100) < 1e-6);
    assert_true(fabs(heatup_bed_heat(bed) - full) < 1e-9 * full);
    heatup_bed_free(bed);
}

/* A front that breaks through early: what is taken and what passes by. */
static void test_front_factor(void **state)
{
    (void)state;
    const double steam = KELVIN + 100, whole = 400 * 3070 * 85.0;
    heatup_bed_spec spec = sawdust();
    spec.front_factor = 2;
    heatup_bed *bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    check_dev("front factor 2: to be supplied over wanted", 2, heatup_bed_to_supply(bed, steam) / whole, 1e-12,
              "definition");
    /* from the start its share falls from 1 to 0: of all that is supplied half is taken */
    double taken = 0;
    for (int i = 1; i <= 199; i++) {
        taken += heatup_bed_give(bed, whole / 100, steam, 0);
        const double s = i / 100.0;
        assert_true(fabs(taken / whole - (s - s * s / 4)) < 1e-9);
    }
    assert_int_equal(heatup_bed_phase_of(bed), HEATUP_BED_CLIMBING);
    taken += heatup_bed_give(bed, whole / 100 * 1.000001, steam, 0);
    assert_int_equal(heatup_bed_phase_of(bed), HEATUP_BED_THROUGH);
    check_dev("front factor 2: share of the steam's heat taken", 0.5, taken / (2 * whole), 1e-9, "integral of 1 - S/2");
    heatup_bed_free(bed);
    spec.front_factor = 1.5;
    bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    check_dev("front factor 1.5: all is taken until half is supplied", 0.5,
              heatup_bed_accepts(bed, 0.5 * whole, steam) / whole, 1e-12, "definition");
    check_dev("and at the whole", 1 - 0.25 / 2, heatup_bed_accepts(bed, whole, steam) / whole, 1e-12, "by hand");
    heatup_bed_free(bed);
}

/* Sides and floor that lose as the top does: the product of three slabs' series. */
static void test_skin(void **state)
{
    (void)state;
    heatup_bed_spec spec = sawdust();
    heatup_bed *bed = heatup_bed_new(&spec);
    assert_non_null(bed);
    heatup_bed_give(bed, 1e12, KELVIN + 100, 40);
    heatup_bed_begin_cooling(bed);
    const double h = 12, side = sqrt(1.25), skin = 1.25 + 4 * side * 0.8, density = 400 / (0.8 * 1.25);
    double before = heatup_bed_heat(bed), out = 0, in = 0;
    for (int i = 0; i < 48; i++) {
        heatup_line top, walls;
        heatup_bed_prepare(bed, &(heatup_bed_step){.dt = 1800, .skin = h * skin, .t_skin = KELVIN + 10, .h_top = h},
                           &top, &walls);
        in += top.a + top.b * (KELVIN + 10);
        out += walls.a + walls.b * (KELVIN + 10);
        heatup_bed_advance(bed, KELVIN + 10);
    }
    check_worst("heat in less out less stored, share", fabs(heatup_bed_heat(bed) - before - in + out) / out, 1e-11,
                "identity");
    double across, along, product;
    const double diffusivity = 0.35 / (density * 3070), day = 86400;
    assert_int_equal(fv_heat_theta_mean(FV_SLAB, h * side / 2 / 0.35, diffusivity * day / (side * side / 4), &across),
                     FV_OK);
    assert_int_equal(fv_heat_theta_mean(FV_SLAB, h * 0.4 / 0.35, diffusivity * day / 0.16, &along), FV_OK);
    product = across * across * along;
    check_off("mean of a bed after a day in 10 degC, all faces 12 W/m2/K, degC", 10 + 90 * product,
              heatup_bed_mean(bed) - KELVIN, 0.6, "product of the series (Newman 1936)");
    assert_true(heatup_bed_core(bed) < heatup_bed_top(bed) && heatup_bed_hottest(bed) > heatup_bed_mean(bed));
    heatup_bed_free(bed);
}

static void test_refuses(void **state)
{
    (void)state;
    heatup_bed_spec good = sawdust(), spec;
    spec = good;
    spec.front_factor = 0.9;
    assert_null(heatup_bed_new(&spec));
    double *figures[] = {&spec.mass,         &spec.specific_heat, &spec.depth,  &spec.area,
                         &spec.conductivity, &spec.h_cooling,     &spec.t_start};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        spec = good;
        *figures[i] = 0;
        assert_null(heatup_bed_new(&spec));
    }
    heatup_bed *bed = heatup_bed_new(&good);
    assert_non_null(bed);
    assert_true(heatup_bed_give(bed, -5, KELVIN + 100, 0) == 0 && heatup_bed_heat(bed) == 0);
    heatup_bed_free(bed);
    heatup_bed_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_front),        cmocka_unit_test(test_steam_per_volume),
        cmocka_unit_test(test_frozen),       cmocka_unit_test(test_follows),
        cmocka_unit_test(test_cooling),      cmocka_unit_test(test_refuses),
        cmocka_unit_test(test_front_factor), cmocka_unit_test(test_skin),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
