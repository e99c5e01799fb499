/* SPDX-License-Identifier: MIT */
/* Pieces that start frozen: published solutions of melting, order, heat to rounding, what the caller sees. */
#include "checks.h"

#include "farvessel/heat.h"
#include "heatup/body.h"
#include "heatup/frozen_grid.h"

#define NEUMANN "Neumann's solution, Carslaw & Jaeger (1959) 11.2 (III), from memory; root found here by halving"

typedef struct {
    double k_ice, k_water, c_ice, c_water, latent; /* per m3 */
    double cold, hot;                              /* K below and above 0 degC */
    double lambda;                                 /* front at 2 lambda sqrt(alpha_water t) */
} neumann;

static const double DENSITY = 500;

static double neumann_gap(const neumann *n, double lambda)
{
    double a_water = n->k_water / n->c_water, a_ice = n->k_ice / n->c_ice, ratio = a_water / a_ice;
    return n->k_water * n->hot / sqrt(a_water) * exp(-lambda * lambda) / erf(lambda) -
           n->k_ice * n->cold / sqrt(a_ice) * exp(-lambda * lambda * ratio) / erfc(lambda * sqrt(ratio)) -
           lambda * n->latent * sqrt(PI * a_water);
}

static neumann solve_neumann(double cold)
{
    neumann n = {1.0, 0.45, 1800 * DENSITY, 3070 * DENSITY, 0.6 * FV_LATENT_ICE * DENSITY, cold, 100, 0};
    double low = 1e-6, high = 4;
    for (int i = 0; i < 100; i++) {
        double middle = 0.5 * (low + high);
        *(neumann_gap(&n, middle) > 0 ? &low : &high) = middle;
    }
    n.lambda = low;
    return n;
}

static heatup_body_spec wet(double start)
{
    return (heatup_body_spec){
        .shape = HEATUP_BODY_SLAB,
        .c = 0.6,
        .area = 1,
        .conductivity = 0.45,
        .density = DENSITY,
        .specific_heat = 3070,
        .conductivity_frozen = 1.0,
        .specific_heat_frozen = 1800,
        .moisture = 0.6,
        .h_condensing = (double)INFINITY,
        .h_cooling = 12,
        .t_start = KELVIN + start,
    };
}

static void advance(heatup_body *body, double dt, double tc0, double tc1, bool condensing)
{
    assert_int_equal(heatup_body_advance(body, dt, tc0, tc1, condensing), FV_OK);
}

/* Heat into one face of a thick slab after two hours, by cells. */
static double heat_by_cells(double start, int cells, double dt)
{
    heatup_body_spec spec = wet(start);
    spec.cells = cells;
    heatup_body *body = heatup_body_new(&spec);
    assert_non_null(body);
    for (double t = 0; t < 7200 - dt / 2; t += dt)
        advance(body, dt, KELVIN + 100, KELVIN + 100, true);
    double heat = heatup_body_heat(body) / 2;
    heatup_body_free(body);
    return heat;
}

static void test_neumann(void **state)
{
    (void)state;
    for (double cold = 0.001; cold < 25; cold += 19.999) {
        neumann n = solve_neumann(cold);
        double exact = 2 * n.k_water * n.hot / erf(n.lambda) * sqrt(7200 / (PI * n.k_water / n.c_water));
        double last = 0;
        for (int cells = 32; cells <= 128; cells *= 2) {
            char what[128];
            double got = heat_by_cells(-cold, cells, 60);
            snprintf(what, sizeof what, "slab from -%.3g degC, face at 100 degC, %d cells to 30 cm: J/m2 in 2 h", cold,
                     cells);
            check_dev(what, exact, got, 0.2 / cells, NEUMANN);
            last = got;
        }
        check_dev("the same in steps of 10 min", last, heat_by_cells(-cold, 128, 600), 1e-3,
                  "the step does not matter");
    }
}

/* Temperature behind and ahead of the front. */
static void test_profile(void **state)
{
    (void)state;
    neumann n = solve_neumann(20);
    const double t = 7200, a_water = n.k_water / n.c_water, a_ice = n.k_ice / n.c_ice;
    heatup_geometry geometry = {.axis = {{FV_SLAB, 0.3}}, .axes = 1, .conductivity = n.k_water, .diffusivity = a_water};
    heatup_frozen_spec spec = {n.k_ice,     n.k_water, n.c_ice, n.c_water, n.latent, {12, (double)INFINITY},
                               KELVIN - 20, 120};
    heatup_frozen *frozen = heatup_frozen_new(&geometry, &spec);
    assert_non_null(frozen);
    for (int i = 0; i < 240; i++)
        heatup_frozen_advance(frozen, t / 240, KELVIN + 100, KELVIN + 100, true);
    double front = 2 * n.lambda * sqrt(a_water * t), worst = 0;
    for (size_t i = 0; i < 120; i++) {
        double depth = 0.3 - ((double)i + 0.5) * 0.0025, expected;
        if (fabs(depth - front) < 0.005)
            continue;
        if (depth < front)
            expected = 100 * (1 - erf(depth / (2 * sqrt(a_water * t))) / erf(n.lambda));
        else
            expected = -20 * (1 - erfc(depth / (2 * sqrt(a_ice * t))) / erfc(n.lambda * sqrt(a_water / a_ice)));
        worst = fmax(worst, fabs(heatup_frozen_cell(frozen, i) - KELVIN - expected));
    }
    heatup_frozen_free(frozen);
    check_worst("temperatures 5 mm and more from the front after 2 h, 120 cells, K", worst, 0.6, NEUMANN);
}

/* A slab, a sphere and a short cylinder of ice-cold matter without water against the exact series: order in the cells.
 */
static void test_order(void **state)
{
    (void)state;
    const heatup_body_shape shapes[] = {HEATUP_BODY_SLAB, HEATUP_BODY_SPHERE, HEATUP_BODY_CYLINDER};
    for (int i = 0; i < 3; i++) {
        double off[2];
        for (int fine = 0; fine < 2; fine++) {
            heatup_body_spec spec = wet(-1e-9);
            spec.shape = shapes[i];
            spec.c = spec.diameter = spec.height = 0.1;
            spec.h_condensing = 200;
            heatup_body *exact, *cells;
            spec.moisture = 0;
            exact = heatup_body_new(&spec);
            spec.moisture = 1e-12;
            spec.conductivity_frozen = spec.specific_heat_frozen = 0;
            spec.cells = fine ? 40 : 20;
            cells = heatup_body_new(&spec);
            assert_true(exact && cells);
            off[fine] = 0;
            for (int step = 0; step < 60; step++) {
                advance(exact, 60, KELVIN + 100, KELVIN + 100, true);
                advance(cells, 60, KELVIN + 100, KELVIN + 100, true);
                off[fine] = fmax(off[fine], fabs(heatup_body_core(exact) - heatup_body_core(cells)));
            }
            heatup_body_free(exact);
            heatup_body_free(cells);
        }
        printf("check | centre by 20 and 40 cells to 5 cm against modes, K | 0 | off by %.3f and %.3f | order %.2f | "
               "series\n",
               off[0], off[1], log2(off[0] / off[1]));
        assert_true(off[1] < 0.06 && log2(off[0] / off[1]) > 1.7);
    }
}

/* Second order in the step, while nothing melts: cells fixed, steps halved. */
static void test_order_in_time(void **state)
{
    (void)state;
    double core[4];
    for (int k = 0; k < 4; k++) {
        heatup_body_spec spec = wet(-1e-9);
        spec.moisture = 1e-12;
        spec.conductivity_frozen = spec.specific_heat_frozen = 0;
        spec.c = 0.1;
        spec.h_condensing = 50;
        spec.cells = 10;
        heatup_body *body = heatup_body_new(&spec);
        assert_non_null(body);
        int steps = k == 3 ? 640 : 5 << k;
        double dt = 3600.0 / steps;
        for (int i = 0; i < steps; i++) // a chamber that swings
            advance(body, dt, KELVIN + 100 * i * dt / 3600, KELVIN + 100 * (i + 1) * dt / 3600, true);
        core[k] = heatup_body_core(body);
        heatup_body_free(body);
    }
    double coarse = fabs(core[0] - core[3]), fine = fabs(core[2] - core[3]);
    printf("check | ramp of an hour in 5 and 20 steps, centre, K | 0 | off by %.1e and %.1e | order %.2f | Meyer, "
           "Balsara & Aslam "
           "(2014): second order\n",
           coarse, fine, log2(coarse / fine) / 2);
    assert_true(coarse < 0.2 && log2(coarse / fine) / 2 > 1.5);
}

static heatup_body_spec block(int cells)
{
    heatup_body_spec spec = wet(-10);
    spec.shape = HEATUP_BODY_BLOCK;
    spec.a = 0.10;
    spec.b = 0.125;
    spec.c = 0.20;
    spec.h_condensing = 200;
    spec.cells = cells;
    return spec;
}

static double minutes_to_95(const heatup_body_spec *spec)
{
    heatup_body *body = heatup_body_new(spec);
    assert_non_null(body);
    double before = 0, minutes = 0;
    while (heatup_body_core(body) < KELVIN + 95) {
        before = heatup_body_core(body);
        advance(body, 60, KELVIN + 100, KELVIN + 100, true);
        minutes++;
    }
    minutes -= (heatup_body_core(body) - KELVIN - 95) / (heatup_body_core(body) - before);
    heatup_body_free(body);
    return minutes;
}

static void test_block(void **state)
{
    (void)state;
    heatup_body_spec coarse = block(6), usual = block(0), fine = block(24), thawed = block(0);
    double reference = minutes_to_95(&fine);
    check_dev("block from -10 degC: minutes to 95 degC, default cells against 24", reference, minutes_to_95(&usual),
              3e-3, "cells doubled");
    check_dev("the same, 6 cells against 24", reference, minutes_to_95(&coarse), 1e-2, "cells doubled twice");
    thawed.t_start = KELVIN + 10;
    thawed.cells = 0;
    double from_10 = minutes_to_95(&thawed);
    check_between("from -10 degC against from +10 degC, times as long", 1.15, 1.8, reference / from_10,
                  "common practice, no source: frozen loads take a good deal longer; heat is 1.7 times as much");
}

/* Everything melted and hot at the end: the heat is known. Probes are exact at their guess. */
static void test_heat(void **state)
{
    (void)state;
    heatup_body_spec spec = block(8);
    heatup_body *body = heatup_body_new(&spec);
    assert_non_null(body);
    assert_false(heatup_body_is_linear(body));
    const double full = heatup_body_mass(body) * (1800 * 10 + 0.6 * FV_LATENT_ICE + 3070 * 100);
    double promised = 0, surface = 0, worst_after = 0;
    for (int i = 0; i < 60; i++) {
        double t = KELVIN + 100 - 110 * exp(-i / 10.0), a, b;
        assert_int_equal(heatup_body_probe_held(body, 300, t, i != 30, &a, &b), FV_OK);
        assert_true(b > 0);
        double core = heatup_body_core_after(body, 300, t, 0, i != 30), before = heatup_body_heat(body);
        advance(body, 300, t, t, i != 30);
        worst_after = fmax(worst_after, fabs(core - heatup_body_core(body)));
        assert_true(fabs(heatup_body_heat(body) - before - a - b * t) < 1e-12 * full);
        promised += a + b * t;
        assert_true(heatup_body_surface_mean(body) > surface - 30);
        surface = heatup_body_surface_mean(body);
        assert_true(heatup_body_mean(body) >= heatup_body_core(body) - 1e-9 || i == 30);
    }
    check_worst("frozen block: heat promised at the guess less heat booked, share",
                fabs(promised / heatup_body_heat(body) - 1), 1e-12, "identity");
    assert_true(worst_after == 0);
    double a, b;
    assert_int_equal(heatup_body_probe_held(body, -1, KELVIN + 90, true, &a, &b), FV_FAIL);
    for (int i = 0; i < 400; i++)
        advance(body, 600, KELVIN + 100, KELVIN + 100, true);
    check_dev("heat from ice at -10 to 100 degC, J", full, heatup_body_heat(body), 1e-9, "m (c_ice 10 + w L + c 100)");
    assert_true(fabs(heatup_body_core(body) - KELVIN - 100) < 1e-6);
    heatup_body_free(body);
}

/* Steps of any length, begun at any time: the middle of a sphere never gets hotter than what is around it, also where
 * the last of its ice goes within a step. */
static void stays_below_its_surroundings(void **state)
{
    (void)state;
    double hottest = 0;
    for (double begin = 2000; begin < 6000; begin += 97)
        for (double step = 500; step < 2500; step *= 1.4) {
            heatup_body_spec spec = wet(-8);
            spec.shape = HEATUP_BODY_SPHERE;
            spec.diameter = 0.127;
            spec.h_condensing = 74;
            heatup_body *body = heatup_body_new(&spec);
            for (double t = 0; t < 7000; t += t < begin ? 100 : step) {
                advance(body, t < begin ? 100 : step, KELVIN + 91, KELVIN + 91, true);
                hottest = fmax(hottest, heatup_body_core(body));
            }
            heatup_body_free(body);
        }
    check_between("thawing sphere in 91 degC, middle at most, degC", 0, 91, hottest - KELVIN, "maximum principle");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_neumann),
        cmocka_unit_test(test_profile),
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_order_in_time),
        cmocka_unit_test(test_block),
        cmocka_unit_test(test_heat),
        cmocka_unit_test(stays_below_its_surroundings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
