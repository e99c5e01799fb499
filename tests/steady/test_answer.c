/* SPDX-License-Identifier: MIT */
/* What the answers of flow and check add to a solve: a vessel that is shut, holes given one by one; and that a solver
 * finds the same from where it last stood as from nothing. */
#include "steady/plants.h"

static void two_bins(bench *b)
{
    bench_open(b);
    add_boiler(b, "boiler", "a", 20000.0, 20000.0);
    add_line(b, FV_LINE_HOSE, "s1", "a", "c1", 3.0, 0.02);
    add_line(b, FV_LINE_HOSE, "s2", "a", "c2", 3.0, 0.02);
    add_vessel(b, "one", "c1", 24, 0.003);
    add_vessel(b, "two", "c2", 24, 0.003);
}

static void a_shut_vessel_stays_shut(void **state)
{
    (void)state;
    static const int phases[] = {-1, FV_PHASE_HEATING, FV_PHASE_HOLDING};
    for (size_t i = 0; i < sizeof phases / sizeof phases[0]; i++) {
        bench b;
        two_bins(&b);
        b.plant->vessels[1]->phase = fv_given(FV_PHASE_SHUT);
        bench_link(&b);
        fv_flow_options options;
        fv_flow_defaults(&options);
        options.phase = phases[i];
        options.turndown = false;
        fv_flow_answer *answer = fv_flow_answer_new(b.plant, &options, NULL, b.faults);
        assert_non_null(answer);
        const fv_vessel_result *v = answer->state->vessels;
        assert_int_equal(v[1].verdict, FV_SHUT_OFF);
        assert_int_not_equal(v[0].verdict, FV_SHUT_OFF);
        assert_true(v[1].steam == 0 && v[1].need == 0 && v[0].steam > 0.001 && v[0].share == 1);
        assert_string_equal(fv_verdict_word(v[1].verdict), "shut");
        fv_flow_answer_free(answer);
        bench_close(&b);
    }
}

static void holes_one_by_one_add_up(void **state)
{
    (void)state;
    bench b;
    two_bins(&b);
    fv_vessel *v = b.plant->vessels[0];
    v->coil.holes = v->coil.drill = (fv_value){0};
    for (int i = 0; i < 3; i++) {
        fv_hole *hole = fv_vessel_add_hole(b.plant, v, HERE);
        hole->at = fv_given(0.3 * (i + 1));
        hole->drill = fv_given(i < 2 ? 0.003 : 0.004);
        hole->count = fv_given(i + 1);
    }
    v->coil.clogged = fv_given(0.25);
    bench_link(&b);
    fv_check_answer *answer = fv_check_answer_new(b.plant, b.faults);
    assert_non_null(answer);
    check_row("holes of two vessels, m2", 0.25 * PI * (0.75 * (3 * 9e-6 + 3 * 16e-6) + 24 * 9e-6), answer->hole_area,
              1e-12, "by hand");
    check_row("their lines, m", 6, answer->line_length, 1e-12, "sum");
    check_row("output of their boiler, W", 20000, answer->boiler_output, 1e-12, "sum");
    fv_check_answer_free(answer);
    bench_solve(&b);
    assert_true(b.result->vessels[0].hole_count == 3);
    check_row("area ratio of the coil with three places of holes", 0.75 * (3 * 9e-6 + 3 * 16e-6) / (0.022 * 0.022),
              b.result->vessels[0].area_ratio, 1e-12, "by hand");
    bench_close(&b);
}

static void cold_and_warm_starts_agree(void **state)
{
    (void)state;
    bench b;
    two_bins(&b);
    bench_link(&b);
    double steam[3], fires[3] = {1, 0.4, 1};
    for (int i = 0; i < 3; i++) {
        b.fire[0] = fires[i];
        bench_solve(&b);
        steam[i] = b.result->vessels[0].steam;
    }
    fv_solver_forget(b.solver);
    bench_solve(&b);
    check_row("steam after a start from 40 % fire / from nothing", 1, steam[2] / steam[0], 1e-9, "one root");
    check_row("the same, the solver's memory wiped", steam[0], b.result->vessels[0].steam, 1e-15, "to the bit");
    size_t unknowns, nonzeros;
    fv_network_size(b.net, &unknowns, &nonzeros);
    assert_true(unknowns > 2 * (2 * 24) && nonzeros > 2 * unknowns && nonzeros < 20 * unknowns);
    bench_close(&b);
}

/* One vessel after the other is shut, then opened again: each time from the last solution as from nothing. */
static void shut_and_opened_from_where_it_stood(void **state)
{
    (void)state;
    bench warm, cold;
    two_bins(&warm);
    two_bins(&cold);
    bench_link(&warm);
    bench_link(&cold);
    static const bool open[][2] = {{true, true}, {false, true}, {true, true}, {true, false}, {false, true}};
    const fv_chamber_kind kind = warm.chambers[0].kind;
    for (size_t i = 0; i < sizeof open / sizeof *open; i++) {
        for (int v = 0; v < 2; v++)
            warm.chambers[v].kind = cold.chambers[v].kind = open[i][v] ? kind : FV_CHAMBER_SHUT;
        bench_solve(&warm);
        fv_solver_forget(cold.solver);
        bench_solve(&cold);
        for (int v = 0; v < 2; v++) {
            printf("check | vessel %d of moment %zu, kg/s | %.9g | got %.9g | uniqueness\n", v, i,
                   cold.result->vessels[v].steam, warm.result->vessels[v].steam);
            assert_true(fabs(warm.result->vessels[v].steam - cold.result->vessels[v].steam) < 1e-11);
            assert_true(open[i][v] == (warm.result->vessels[v].steam > 1e-3));
        }
    }
    bench_close(&warm);
    bench_close(&cold);
}

/* So little steam that all of it condenses in the first metres of two hoses, one twice as long: they cannot tell how
 * long they are, so half of it enters each, also where one had more while its chamber stood lower. */
static void scarce_steam_is_shared_by_its_fronts(void **state)
{
    (void)state;
    bench b;
    bench_open(&b);
    add_boiler(&b, "boiler", "a", 250.0, 20000.0);
    add_line(&b, FV_LINE_HOSE, "s1", "a", "c1", 4.0, 0.02);
    add_line(&b, FV_LINE_HOSE, "s2", "a", "c2", 8.0, 0.02);
    add_vessel(&b, "one", "c1", 24, 0.003);
    add_vessel(&b, "two", "c2", 24, 0.003);
    bench_link(&b);
    b.chambers[1].pressure = -0.05;
    bench_solve(&b);
    assert_true(b.result->lines[1].flow_from > 1.2 * b.result->lines[0].flow_from);
    b.chambers[1].pressure = 0;
    bench_solve(&b);
    const fv_line_result *r = b.result->lines;
    assert_true(r[0].wet_length > 0.1 && r[0].wet_length < 3 && r[0].flow_to < 1e-9);
    check_row("share of the hose of 4 m", 0.5, r[0].flow_from / (r[0].flow_from + r[1].flow_from), 5e-3,
              "symmetry up to the fronts");
    check_row("where its front stands, m", r[1].wet_length, r[0].wet_length, 1e-2, "the other's");
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_shut_vessel_stays_shut), cmocka_unit_test(holes_one_by_one_add_up),
        cmocka_unit_test(cold_and_warm_starts_agree), cmocka_unit_test(shut_and_opened_from_where_it_stood),
        cmocka_unit_test(scarce_steam_is_shared_by_its_fronts)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
