/* SPDX-License-Identifier: MIT */
/* A piece that has thawed goes over from cells to modes: nothing jumps, heat is kept, and both go on alike. */
#include "checks.h"

#include "heatup/body.h"

static heatup_body_spec frozen_piece(heatup_body_shape shape)
{
    return (heatup_body_spec){.shape = shape,
                              .a = 0.13,
                              .b = 0.1,
                              .c = shape == HEATUP_BODY_SLAB ? 0.1 : 0.2,
                              .area = 0.5,
                              .diameter = 0.12,
                              .height = 0.2,
                              .conductivity = 0.4,
                              .density = 680,
                              .specific_heat = 3060,
                              .h_condensing = 200,
                              .h_cooling = 12,
                              .t_start = KELVIN - 8,
                              .moisture = 0.6,
                              .conductivity_frozen = 0.8,
                              .specific_heat_frozen = 1900};
}

/* Largest differences while both are heated, then cooled. */
static void both_go_on_alike(heatup_body_shape shape, const char *name)
{
    const heatup_body_spec spec = frozen_piece(shape);
    heatup_body *cells = heatup_body_new(&spec), *modes = heatup_body_new(&spec);
    assert_true(cells && modes);
    double core = 0, mean = 0, at_change = NAN;
    bool changed = false;
    for (int i = 0; i < 1200; i++) {
        const bool heats = i < 600;
        const double tc = KELVIN + (heats ? 100 : 20);
        heatup_body_advance(cells, 60, tc, tc, heats);
        heatup_body_advance(modes, 60, tc, tc, heats);
        const double before_core = heatup_body_core(modes), before_mean = heatup_body_mean(modes);
        const double before_heat = heatup_body_heat(modes);
        assert_int_equal(heatup_body_settle(modes), FV_OK);
        if (!changed && heatup_body_is_linear(modes)) {
            changed = true;
            at_change = fmax(fabs(heatup_body_core(modes) - before_core), fabs(heatup_body_mean(modes) - before_mean));
            assert_true(fabs(heatup_body_heat(modes) - before_heat) < 1e-9 * before_heat);
        }
        if (i % 60 == 0 && changed) {
            core = fmax(core, fabs(heatup_body_core(cells) - heatup_body_core(modes)));
            mean = fmax(mean, fabs(heatup_body_mean(cells) - heatup_body_mean(modes)));
        }
    }
    char what[100];
    snprintf(what, sizeof what, "%s: core and mean when it goes over to modes, K", name);
    check_off(what, 0, at_change, 1e-9, "identity");
    snprintf(what, sizeof what, "%s: core by cells and by modes from then on, heated and cooled, K", name);
    check_off(what, 0, core, 0.25, "cells: second order, 12 or 40 to the half thickness");
    snprintf(what, sizeof what, "%s: mean by cells and by modes, K", name);
    check_off(what, 0, mean, 0.15, "the same");
    check_dev("heat of both in the end, J", heatup_body_heat(cells), heatup_body_heat(modes), 2e-3, "the same");
    heatup_body_free(cells);
    heatup_body_free(modes);
}

static void blocks(void **state)
{
    (void)state;
    both_go_on_alike(HEATUP_BODY_BLOCK, "block");
}

static void other_shapes(void **state)
{
    (void)state;
    both_go_on_alike(HEATUP_BODY_SLAB, "slab");
    both_go_on_alike(HEATUP_BODY_CYLINDER, "short cylinder");
    both_go_on_alike(HEATUP_BODY_SPHERE, "sphere");
}

/* Heat promised and heat booked, before, over and after the change. */
static void heat_is_kept(void **state)
{
    (void)state;
    const heatup_body_spec spec = frozen_piece(HEATUP_BODY_BLOCK);
    heatup_body *body = heatup_body_new(&spec);
    assert_non_null(body);
    double promised = 0, worst = 0;
    for (int i = 0; i < 400; i++) {
        double a, b;
        const double tc = KELVIN + (i < 300 ? 95 : 30);
        assert_int_equal(heatup_body_probe_held(body, 120, tc, i < 300, &a, &b), FV_OK);
        promised += a + b * tc;
        heatup_body_advance(body, 120, tc, tc, i < 300);
        heatup_body_settle(body);
        worst = fmax(worst, fabs(heatup_body_heat(body) - promised) / fabs(promised));
    }
    check_worst("heat promised less booked, share", worst, 1e-11, "identity");
    heatup_body *copy = heatup_body_copy(body);
    assert_non_null(copy);
    assert_true(heatup_body_core(copy) == heatup_body_core(body) && heatup_body_heat(copy) == heatup_body_heat(body));
    heatup_body_free(copy);
    heatup_body_free(body);
}

/* A copy of a piece that still melts goes its own way. */
static void copies_are_apart(void **state)
{
    (void)state;
    const heatup_body_spec spec = frozen_piece(HEATUP_BODY_BLOCK);
    heatup_body *one = heatup_body_new(&spec);
    assert_true(one && heatup_body_is_of(one, &spec));
    heatup_body_advance(one, 600, KELVIN + 100, KELVIN + 100, true);
    heatup_body *other = heatup_body_copy(one);
    assert_true(other && heatup_body_mean(other) == heatup_body_mean(one));
    heatup_body_advance(other, 600, KELVIN + 100, KELVIN + 100, true);
    assert_true(heatup_body_mean(other) > heatup_body_mean(one));
    heatup_body_free(other);
    heatup_body_free(one);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks),
        cmocka_unit_test(other_shapes),
        cmocka_unit_test(heat_is_kept),
        cmocka_unit_test(copies_are_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
