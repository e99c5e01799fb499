/* SPDX-License-Identifier: MIT */
/* The inverse solve gives back its flows: run forward with valves and washers that are not rounded, each vessel gets
 * the share of the steam that was wished, to 1e-9. The forward run is the check; it knows nothing of the wishes. */
#include "study/balance.h"

#include "farvessel/flow.h"
#include "farvessel/plantfile.h"
#include "farvessel/steady.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* No other washer has a loss nearer to the one wished for, by the loss of a thin plate (Weisbach). */
static void rounds_to_the_nearest(const study_handling *h, const double *values)
{
    int point[64] = {0};
    study_balance_round(h, values, point);
    for (size_t i = 0; i < h->count; i++) {
        const study_knob *knob = &h->knobs[i];
        double off[3] = {INFINITY, INFINITY, INFINITY};
        for (int way = -1; way <= 1 && knob->kind == STUDY_KNOB_WASHER; way++) {
            const int place = point[i] + way;
            double k = 0;
            if (place < 1 || place >= knob->places)
                continue;
            fv_flow_diaphragm(pow(study_knob_value(knob, place) / knob->bore, 2), &k);
            off[way + 1] = fabs(log1p(values[i]) - log1p(k));
        }
        assert_true(point[i] == 0 || (off[1] <= off[0] && off[1] <= off[2]) || knob->kind != STUDY_KNOB_WASHER);
        if (knob->kind == STUDY_KNOB_WASHER && point[i] == 0)
            assert_true(fabs(log1p(values[i])) <= off[2]);
    }
}

static void gives_back(const char *file)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(file, NULL, faults);
    fv_arena *arena = fv_arena_new();
    study_ways ways;
    study_handling handling;
    double wishes[8], values[64];
    assert_non_null(plant);
    assert_true(study_ways_find(plant, arena, &ways) && study_handling_open(&handling, plant, &ways, arena));
    for (size_t i = 0; i < plant->vessel_count; i++)
        wishes[i] = 1 + 0.1 * (double)i;
    bool no_memory = true;
    assert_int_equal(study_balance(&handling, wishes, values, &no_memory), FV_OK);
    assert_false(no_memory);
    fv_plant *balanced = study_balanced(&handling, values, faults);
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.phase = FV_PHASE_HEATING;
    options.turndown = false;
    fv_flow_answer *flow = fv_flow_answer_new(balanced, &options, NULL, faults);
    assert_non_null(flow);
    const double unit = flow->state->vessels[0].steam / wishes[0];
    for (size_t i = 1; i < plant->vessel_count; i++)
        assert_true(fabs(flow->state->vessels[i].steam / (unit * wishes[i]) - 1) < 1e-9);
    rounds_to_the_nearest(&handling, values);
    fv_flow_answer_free(flow);
    fv_plant_free(balanced);
    fv_arena_free(arena);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

static void along_a_header(void **state)
{
    (void)state;
    gives_back("networks/four-bins.xml");
}

static void on_a_ring_by_washers(void **state)
{
    (void)state;
    gives_back("networks/ring.xml");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(along_a_header), cmocka_unit_test(on_a_ring_by_washers)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
