/* SPDX-License-Identifier: MIT */
/* The curve of roots: it leads where the other ways lead, and in plants where these stall. And what a plant does whose
 * steam is short, where the equations once had a continuum of solutions. */
#include "steady/random_plant.h"

#include "steady/newton.h"

#define SOURCE "the same plant by the other ways"

/* Two bins on a tee, hoses of different bore, coils that recover. */
static void two_bins(bench *b, double output)
{
    bench_open(b);
    add_boiler(b, "boiler", "a", output, 20000.0);
    add_line(b, FV_LINE_HEADER, "header", "a", "t", 3.0, 0.03);
    add_line(b, FV_LINE_HOSE, "near", "t", "c1", 2.0, 0.02);
    add_line(b, FV_LINE_HOSE, "far", "t", "c2", 8.0, 0.016);
    add_vessel(b, "bin1", "c1", 12, 0.003);
    add_vessel(b, "bin2", "c2", 12, 0.003);
    fv_tee *tee = fv_plant_add_tee(b->plant, HERE);
    tee->at = "t";
    tee->main = "header";
    tee->run = "near";
    tee->branch = "far";
    bench_link(b);
}

static void leads_to_the_same(void **state)
{
    (void)state;
    bench b;
    two_bins(&b, 15000.0);
    bench_solve(&b);
    const double wanted[2] = {b.result->vessels[0].steam, b.result->vessels[1].steam};
    fv_solver *s = b.solver;
    steady_newton_log log = {.singular = -1};
    s->state.warm = false;
    s->state.smoothing = 1;
    s->state.recovery = 0;
    steady_start_guess(s);
    assert_int_equal(steady_newton(s, STEADY_NEWTON_ROUGH, &log), FV_OK);
    assert_int_equal(steady_continue(s, STEADY_SMOOTHING, 1e-2, 1e-7, &log), FV_OK);
    check_row("smoothing where the curve ends", 1e-2, s->state.smoothing, 1e-12, "asked for");
    assert_int_equal(steady_continue(s, STEADY_RECOVERY, 1, 1e-7, &log), FV_OK);
    check_row("share of velocity heads recovered where it ends", 1, s->state.recovery, 0, "asked for");
    assert_int_equal(steady_continue(s, STEADY_SMOOTHING, 1e-6, 1e-7, &log), FV_OK);
    for (int i = 0; i < 2; i++)
        check_row(i ? "far bin at the end of the curve, kg/s" : "near bin at the end of the curve, kg/s", wanted[i],
                  steady_coil_inflow(&b.net->vessels[i], s->state.x), 1e-5, SOURCE);
    bench_close(&b);
}

/* A root that is asked for to the last digit is never near enough: the curve is left where it was begun. */
static void gives_up_in_the_end(void **state)
{
    (void)state;
    bench b;
    two_bins(&b, 15000.0);
    bench_solve(&b);
    fv_solver *s = b.solver;
    steady_newton_log log = {.singular = -1};
    s->state.smoothing = 1;
    steady_start_guess(s);
    assert_int_equal(steady_newton(s, STEADY_NEWTON_ROUGH, &log), FV_OK);
    assert_int_equal(steady_continue(s, STEADY_SMOOTHING, 1e-2, 0, &log), FV_FAIL);
    assert_true(s->state.smoothing <= 1 && s->state.smoothing > 1e-2);
    bench_close(&b);
}

/* Plants that stepping down leaves without a solution: loops and tees round which steam and water circle, and steam
 * short of what the lines condense. */
static void solves_what_stalls(void **state)
{
    (void)state;
    static const uint64_t seeds[] = {168, 2255, 109094, 110227, 105462};
    double mass = 0, heat = 0;
    for (size_t i = 0; i < sizeof seeds / sizeof *seeds; i++) {
        bench b;
        draw_plant(&b, seeds[i]);
        bench_link(&b);
        draw_conditions(&b);
        if (bench_solve_any(&b) == FV_FAIL) {
            say_faults(&b);
            fail_msg("plant %d has no solution", (int)seeds[i]);
        }
        assert_true(b.solver->state.recovery == 1);
        mass = fmax(mass, b.result->audit.mass_relative);
        heat = fmax(heat, b.result->audit.energy_relative);
        bench_close(&b);
    }
    check_row("five plants that only the curve finds, steam left over, of all", 0, mass, 1e-9, "conservation");
    check_row("five plants that only the curve finds, heat left over, of all", 0, heat, 1e-9, "conservation");
}

/* Hoses that all their steam condenses in: two alike get the same, a narrower one beside them less, and all fronts
 * stand at the chambers' pressure. */
static void fronts_share_scarce_steam(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 500.0, 20000.0);
    add_line(&b, FV_LINE_HOSE, "s1", "a", "c1", 12.0, 0.02);
    add_line(&b, FV_LINE_HOSE, "s2", "a", "c2", 12.0, 0.012);
    add_line(&b, FV_LINE_HOSE, "s3", "a", "c3", 12.0, 0.02);
    for (int i = 1; i <= 3; i++) {
        char id[24], at[24];
        name_of(id, sizeof id, "bin", i);
        name_of(at, sizeof at, "c", i);
        add_vessel(&b, id, at, 12, 0.003);
    }
    bench_link(&b);
    bench_solve(&b);
    double enters[3];
    for (int i = 0; i < 3; i++) {
        enters[i] = b.solver->state.flow[i].from;
        assert_true(b.result->lines[i].condensate > 0 && b.result->vessels[i].steam < 1e-9);
        check_row("pressure behind a front, Pa", 0, b.result->vessels[i].coil_pressure, 1e-6, "the chamber's");
    }
    check_row("steam into the third of three hoses, like the first, kg/s", enters[0], enters[2], 1e-9, "symmetry");
    assert_true(enters[1] > 0.05 * enters[0] && enters[1] < 0.7 * enters[0]);
    /* From elsewhere the same. */
    b.fire[0] = 0.3;
    bench_solve(&b);
    b.fire[0] = 1;
    bench_solve(&b);
    check_row("steam into the narrower hose, from another guess, kg/s", enters[1], b.solver->state.flow[1].from, 1e-6,
              "uniqueness");
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(leads_to_the_same),
        cmocka_unit_test(gives_up_in_the_end),
        cmocka_unit_test(solves_what_stalls),
        cmocka_unit_test(fronts_share_scarce_steam),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
