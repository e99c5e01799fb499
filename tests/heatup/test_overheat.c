/* SPDX-License-Identifier: MIT */
/* The share of a load above a limit, and for how long. */
#include "heatup/run_plants.h"

#include "farvessel/heat.h"
#include "heatup/overheat.h"

/* Where the series passes a limit, and so the share of the volume outside of it. */
static double share_by_series(fv_shape_1d shape, double biot, double fourier, double limit)
{
    double low = 0, high = 1, theta;
    for (int i = 0; i < 50; i++) {
        const double middle = 0.5 * (low + high);
        assert_true(fv_heat_theta(shape, biot, fourier, middle, &theta) != FV_FAIL);
        *(theta > limit ? &low : &high) = middle; /* theta falls outward: heated from outside, hotter there */
    }
    return 1 - pow(0.5 * (low + high), shape == FV_SLAB ? 1 : shape == FV_CYLINDER ? 2 : 3);
}

static void share_of_a_profile(void **state)
{
    (void)state;
    static const double biots[] = {1, 5, INFINITY}, fouriers[] = {0.05, 0.1, 0.3, 0.6}, limits[] = {0.2, 0.4, 0.6, 0.8};
    double worst = 0;
    for (int shape = FV_SLAB; shape <= FV_SPHERE; shape++)
        for (int b = 0; b < 3; b++)
            for (int f = 0; f < 4; f++)
                for (int l = 0; l < 4; l++) {
                    double core, surface, mean;
                    fv_heat_theta((fv_shape_1d)shape, biots[b], fouriers[f], 0, &core);
                    fv_heat_theta((fv_shape_1d)shape, biots[b], fouriers[f], 1, &surface);
                    fv_heat_theta_mean((fv_shape_1d)shape, biots[b], fouriers[f], &mean);
                    /* as a piece that is heated from 0 to 1 */
                    const double got = heatup_share_above(1 - core, 1 - mean, 1 - surface, 1 - limits[l]);
                    const double exact = share_by_series((fv_shape_1d)shape, biots[b], fouriers[f], limits[l]);
                    worst = fmax(worst, fabs(got - exact));
                    /* and one that cools: the rest of it is above */
                    const double cools = heatup_share_above(core, mean, surface, limits[l]);
                    assert_true(fabs(got + cools - 1) < 1e-9);
                }
    check_worst("share above a limit, slab, cylinder, sphere, Bi 1 to infinity, Fo from 0.05", worst, 0.04,
                "exact series (Carslaw & Jaeger)");
    assert_true(heatup_share_above(10, 15, 20, 9) == 1 && heatup_share_above(10, 15, 20, 20) == 0);
    assert_true(heatup_share_above(20, 25, 20, 22) == 0); /* no profile: both ends are below */
    check_dev("slab's parabola at half its height", 1 - sqrt(0.5), heatup_share_above(0, 1.0 / 3, 1, 0.5), 1e-12,
              "by hand");
}

static void limits_by_what_is_said(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 10e3);
    fv_vessel *v = b.plant->vessels[0];
    assert_true(isnan(fv_vessel_limit(v)) && isnan(fv_bag_limit(&v->load)));
    v->load.medium = fv_given(FV_MEDIUM_STRAW);
    check_dev("straw, K", 353.15, fv_vessel_limit(v), 1e-12, "common practice, no source");
    v->load.medium = fv_given(FV_MEDIUM_SOIL);
    check_dev("soil, K", 355.15, fv_vessel_limit(v), 1e-12, "common practice, no source");
    v->at_most = fv_given(70 + KELVIN);
    check_dev("as said, K", 343.15, fv_vessel_limit(v), 1e-12, "at-most");
    v->load.bag = fv_given(FV_FILM_PP);
    check_dev("bags of PP, K", 408.15, fv_bag_limit(&v->load), 1e-12, "common practice, no source");
    close_bench(&b);
}

/* Pieces in ample steam: the surface passes the limit at once, the core when it gets there; a limit above boiling is
 * never passed. */
static void pieces_in_a_run(void **state)
{
    (void)state;
    double over[3];
    static const double limits[] = {60, 90, 101};
    for (int i = 0; i < 3; i++) {
        bench b;
        one_vessel(&b, 30e3);
        b.plant->vessels[0]->at_most = fv_given(limits[i] + KELVIN);
        b.plant->vessels[0]->load.bag = fv_given(FV_FILM_LDPE);
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[0];
        over[i] = h->over;
        assert_true(h->hottest < 101 + KELVIN && h->hottest > 99 + KELVIN);
        if (i < 2) { /* the target is 95 degC: at the end of the hold all is above */
            assert_true(h->over_share == 1);
            assert_true(h->over > h->hold - h->core && h->over < b.result->end - h->steam_on);
        } else {
            assert_true(h->over == 0 && h->over_share == 0);
        }
        check_between("LDPE above 80 degC, over that above 90 and below that above 60", 0, over[0], h->bag_over,
                      "between the two");
        close_bench(&b);
    }
    assert_true(over[1] < over[0] && over[1] > 0);
}

/* A bed is above it from its first steam on, by the height of its front. */
static void a_bed_in_a_run(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 10e3);
    fv_vessel *v = b.plant->vessels[0];
    make_bed(&b, 250);
    v->target = fv_given(82 + KELVIN);
    b.options.stop_at_core = true;
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    check_dev("bed above 82 degC until its core is there, s", h->core - h->steam_on, h->over, 0.02,
              "its front stands at boiling from the first steam on");
    assert_true(h->over_share == 1);
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(share_of_a_profile),
        cmocka_unit_test(limits_by_what_is_said),
        cmocka_unit_test(pieces_in_a_run),
        cmocka_unit_test(a_bed_in_a_run),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
