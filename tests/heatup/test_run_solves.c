/* SPDX-License-Identifier: MIT */
/* How seldom the network is solved in a run, and how well its answer to other back pressures is predicted meanwhile. */
#include "heatup/run_plants.h"

enum { VESSELS = 3 };

static fv_steady_result *solve(const fv_network *net, fv_solver *solver, const double *pressures, fv_faults *faults)
{
    fv_chamber chambers[VESSELS];
    const double fire = 1;
    for (int i = 0; i < VESSELS; i++)
        chambers[i] = (fv_chamber){.kind = FV_CHAMBER_COLD, .pressure = pressures[i]};
    const fv_conditions c = {.t_air = 288.15, .fire = &fire, .chambers = chambers};
    fv_steady_result *r = fv_steady_result_new(net);
    assert_non_null(r);
    assert_int_not_equal(fv_solve(solver, &c, r, faults), FV_FAIL);
    return r;
}

/* Steam that a vessel's back pressure costs it and gives to the others: first order against two whole solves. */
static void back_pressure_is_predicted(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 15e3);
    add_star(&b, VESSELS);
    assert_int_not_equal(fv_plant_link(b.plant, b.faults), FV_FAIL);
    const fv_sat *sat = fv_sat_line();
    fv_network *net = fv_network_new(b.plant, sat, b.faults);
    fv_solver *solver = fv_solver_new(net);
    const double stands[VESSELS] = {0, 5, 20}, nothing[VESSELS] = {0};
    double predicted[VESSELS], most = 0;
    assert_false(fv_solver_sensitivity(solver, nothing, predicted)); /* nothing was solved yet */
    for (int moved = 0; moved < VESSELS; moved++) {
        double higher[VESSELS], more[VESSELS] = {0};
        memcpy(higher, stands, sizeof stands);
        more[moved] = 10;
        higher[moved] += more[moved];
        fv_steady_result *before = solve(net, solver, stands, b.faults);
        assert_true(fv_solver_sensitivity(solver, more, predicted));
        fv_steady_result *after = solve(net, solver, higher, b.faults);
        for (int i = 0; i < VESSELS; i++) {
            const double change = after->vessels[i].steam - before->vessels[i].steam;
            printf("check | %d Pa more in bin%d: steam of bin%d | %.3g kg/s | predicted %.3g | two solves\n", 10, moved,
                   i, change, predicted[i]);
            assert_true(fabs(predicted[i] - change) < 0.02 * fabs(change));
            assert_true((change < 0) == (i == moved));
            most = fmax(most, fabs(change) / before->vessels[i].steam);
        }
        fv_steady_result_free(before);
        fv_steady_result_free(after);
    }
    assert_true(most > 1e-3);
    fv_solver_free(solver);
    fv_network_free(net);
    close_bench(&b);
}

/* While chambers fill and air leaves in its own time, most steps go on with the last solution; the cores arrive as when
 * it is asked far more often. */
static void few_solves(void **state)
{
    (void)state;
    double core[2];
    for (int i = 0; i < 2; i++) {
        bench b;
        open_bench(&b, 15e3);
        add_star(&b, VESSELS);
        b.plant->vessels[1]->load.count = fv_given(80);
        b.plant->vessels[1]->load.mass = fv_given(80 * 2.3);
        b.options.fineness = i == 0 ? 1 : 8;
        go(&b);
        core[i] = b.result->vessels[1].core;
        printf("fineness %g: %zu steps, %zu solves\n", b.options.fineness, b.result->audit.steps,
               b.result->audit.solves);
        if (i == 0)
            assert_true(b.result->audit.solves < 3 * b.result->audit.steps / 10);
        close_bench(&b);
    }
    check_dev("core with few solves, s", core[1], core[0], 5e-4, "the same at fineness 8");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(back_pressure_is_predicted), cmocka_unit_test(few_solves)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
