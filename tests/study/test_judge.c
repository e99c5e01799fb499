/* SPDX-License-Identifier: MIT */
/* A choice at one moment: the time that each vessel's share of steam promises, worked out beside it. */
#include "study/yard.h"

#include "study/size/parts.h"

static void times_from_shares(void **state)
{
    (void)state;
    static const char *const outputs[] = {YARD(YARD_STOCK, "6 kW", YARD_LINES, "6 h", YARD_VESSELS),
                                          YARD(YARD_STOCK, "3 kW", YARD_LINES, "9 h", YARD_VESSELS)};
    for (size_t k = 0; k < 2; k++) {
        fv_plant *plant = yard_read(outputs[k]);
        fv_faults *faults = fv_faults_new();
        fv_size_options options;
        fv_size_defaults(&options);
        fv_check_answer *check = fv_check_answer_new(plant, faults);
        fv_flow_options at;
        fv_flow_defaults(&at);
        at.phase = FV_PHASE_HEATING;
        fv_flow_answer *flow = fv_flow_answer_new(plant, &at, NULL, faults);
        assert_true(check && flow);
        const size_basis basis = {.plant = plant, .limits = &options.limits, .needs = check->vessels};
        const fv_change nothing = {0};
        size_candidate c = {0};
        assert_int_equal(size_judge(&basis, &nothing, &c, NULL), FV_OK);
        double slow = 0, fast = INFINITY, sum = 0;
        for (size_t i = 0; i < plant->vessel_count; i++) {
            const fv_vessel_need *n = &check->vessels[i];
            /* what is left of the steam's heat once the walls at the boiling point have theirs */
            const double t = (n->load + n->shell + n->walls) / (flow->state->vessels[i].heat - n->wall_loss);
            slow = fmax(slow, t);
            fast = fmin(fast, t);
            sum += t;
        }
        print_message("predicted: %.1f s to %.1f s, judged %.1f s\n", fast, slow, c.slow);
        assert_true(fabs(c.slow / slow - 1) < 1e-9 && fabs(c.sum / sum - 1) < 1e-9);
        assert_true(fabs(c.ratio / (slow / fast) - 1) < 1e-9);
        assert_true(fabs(c.late / (slow / plant->vessels[0]->within.v) - 1) < 1e-9);
        fv_flow_answer_free(flow);
        fv_check_answer_free(check);
        fv_faults_free(faults);
        fv_plant_free(plant);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(times_from_shares)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
