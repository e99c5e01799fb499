/* SPDX-License-Identifier: MIT */
/* Where the first vessel drops out as the fire is turned down, against a walk through all fires. */
#include "farvessel/plantfile.h"
#include "steady/workspace.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

enum { WALK = 150 };
static const double LEAST = 0.05; /* of the fire: below it nobody looks */

static fv_flow_answer *flow_at(const fv_plant *plant, double fire, bool turndown, fv_faults *faults)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.fire = fire;
    options.turndown = turndown;
    fv_flow_answer *answer = fv_flow_answer_new(plant, &options, NULL, faults);
    if (!answer)
        fail_msg("no solution at a fire of %g", fire);
    return answer;
}

/* Whether a vessel that had enough at full fire has too little at this one: heat less need, as a share of it. */
static double worst_at(const fv_flow_answer *full, double fire, fv_faults *faults)
{
    fv_flow_answer *now = flow_at(full->plant, fire, false, faults);
    double worst = INFINITY;
    for (size_t i = 0; i < now->state->vessel_count; i++) {
        const fv_vessel_result *v = &now->state->vessels[i];
        if (full->state->vessels[i].verdict == FV_FED || full->state->vessels[i].verdict == FV_LAGGING)
            worst = fmin(worst, v->need > 0 ? v->heat / v->need - 1 : INFINITY);
    }
    fv_flow_answer_free(now);
    return worst;
}

static void check_plant(const char *path)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(path, NULL, faults);
    assert_non_null(plant);
    fv_flow_answer *full = flow_at(plant, 1, true, faults);
    const double found = full->dropout_vessel >= 0 ? full->dropout_fire : 0;
    /* Above it nobody drops out, however finely one looks. */
    for (int i = 0; i < WALK; i++) {
        const double fire = 1 - (1 - fmax(found, LEAST)) * i / WALK;
        assert_true(worst_at(full, fire, faults) > -2e-9);
    }
    if (full->dropout_vessel >= 0) {
        const double above = worst_at(full, found + 1e-6, faults), below = worst_at(full, found - 1e-6, faults);
        printf("check | %s: fire at which the first drops out | enclosed to 1e-6 | got %.9g | dev %.1e | a walk of %d "
               "fires\n",
               path, found, -below / (above - below) * 2e-6 - 1e-6, WALK);
        assert_true(above > 0 && below < 0);
        /* And it is the one that is said, with the boilers' output there. */
        fv_flow_answer *now = flow_at(plant, found - 1e-6, false, faults);
        const fv_vessel_result *v = &now->state->vessels[full->dropout_vessel];
        assert_true(v->heat < v->need && v->heat > v->need * (1 - 1e-4));
        assert_true(fabs(now->state->audit.heat_total / full->dropout_output - 1) < 1e-4);
        fv_flow_answer_free(now);
    }
    fv_flow_answer_free(full);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

static void first_to_drop_out_is_found(void **state)
{
    (void)state;
    check_plant("networks/far-bench.xml");
    check_plant("networks/four-bins.xml");
    check_plant("networks/hand.xml");
    check_plant("networks/mixed.xml");
    check_plant("networks/ring.xml");
    check_plant("networks/turndown-trap.xml");
}

/* The table's first row is the state itself, and every row has its own. */
static void rows_are_solved_at_their_fires(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read("networks/four-bins.xml", NULL, faults);
    fv_flow_answer *answer = flow_at(plant, 0.8, true, faults);
    for (size_t i = 0; i < answer->turndown_count; i++) {
        fv_flow_answer *alone = flow_at(plant, answer->turndown[i].fire, false, faults);
        for (size_t k = 0; k < plant->vessel_count; k++)
            assert_true(fabs(alone->state->vessels[k].heat - answer->turndown[i].state->vessels[k].heat) <
                        1e-6 * answer->state->audit.heat_total);
        fv_flow_answer_free(alone);
    }
    fv_flow_answer_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* As many vessels as the limits let in, ten to a boiler along one header: below half the fire its joints run dry one by
 * one, and a solve takes hundreds of steps of 60,000 unknowns. */
static fv_plant *large_plant(fv_faults *faults)
{
    enum { VESSELS = 990, TO_A_BOILER = 10 };
    fv_text text = {0};
    fv_text_add(&text, "<network xmlns=\"" FV_PLANTFILE_NAMESPACE
                       "\"><site air=\"15 degC\"/><kind id=\"drum\" volume=\"200 L\">"
                       "<coil bore=\"20 mm\" length=\"1.5 m\" holes=\"24\" drill=\"3 mm\"/>"
                       "<load form=\"block\" a=\"10 cm\" b=\"10 cm\" c=\"20 cm\" count=\"30\" mass=\"60 kg\" "
                       "moisture=\"60 %%\" packing=\"loose\"/><drain diameter=\"25 mm\"/></kind>");
    for (int i = 0; i < VESSELS; i++) {
        if (i % TO_A_BOILER == 0)
            fv_text_add(&text, "<boiler id=\"b%d\" at=\"j%d\" output=\"30 kW\" holds=\"0.3 bar\" relief=\"0.5 bar\"/>",
                        i, i);
        if (i > 0)
            fv_text_add(&text, "<header id=\"m%d\" from=\"j%d\" to=\"j%d\" length=\"2 m\" bore=\"60 mm\"/>", i, i - 1,
                        i);
        fv_text_add(&text, "<hose id=\"h%d\" from=\"j%d\" to=\"c%d\" length=\"%d m\" bore=\"20 mm\"/>", i, i, i,
                    2 + i % 5);
        fv_text_add(&text, "<vessel id=\"v%d\" like=\"drum\" at=\"c%d\"/>", i, i);
    }
    fv_text_add(&text, "</network>");
    fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "plant.xml", NULL, faults);
    fv_text_free(&text);
    assert_non_null(plant);
    return plant;
}

/* A solve takes no more steps than it may, and nothing is said of one that ends so. */
static void steps_are_counted(void **state)
{
    (void)state;
    enum { MAY = 25 };
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = large_plant(faults);
    steady_workspace d;
    assert_true(steady_workspace_open(&d, plant, fv_sat_line(), -1, faults));
    d.steps_left = MAY;
    assert_null(steady_workspace_solve(&d, 0.35, faults));
    assert_true(d.steps_left <= 0 && d.steps_left >= -2 && !d.out_of_memory);
    assert_int_equal(fv_faults_errors(faults), 0);
    steady_workspace_close(&d);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* The moment that is asked for is there, and of the table what comes soon. */
static void large_plants_are_not_waited_for(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = large_plant(faults);
    fv_flow_answer *answer = flow_at(plant, 1, true, faults);
    assert_true(answer->turndown_count == 5 && answer->turndown[1].state && !answer->turndown[1].given_up);
    assert_true(!answer->turndown[4].state && answer->turndown[4].given_up);
    assert_int_equal(fv_faults_errors(faults), 0);
    fv_flow_answer_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_to_drop_out_is_found),
        cmocka_unit_test(rows_are_solved_at_their_fires),
        cmocka_unit_test(steps_are_counted),
        cmocka_unit_test(large_plants_are_not_waited_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
