/* SPDX-License-Identifier: MIT */
/* A run that is given up could not have brought what was asked: the same plant followed to its cores tells. Sources are
 * the definitions; no figure of ours is compared. */
#include "heatup/run_plants.h"

enum { VESSELS = 3, THROTTLED = 300 };

/* The last core of the plant; staggered, so that one waits cold while others are hot. */
static double open_plant(bench *b)
{
    double last = 0;
    open_bench(b, 20e3);
    add_star(b, VESSELS);
    b->plant->vessels[2]->start = fv_given(3600);
    b->options.stop_at_core = true;
    const fv_heat_result *r = go(b);
    for (size_t i = 0; i < VESSELS; i++)
        last = fmax(last, r->vessels[i].core);
    assert_true(last > 3600 && !r->given_up);
    return last;
}

static const fv_heat_result *again(bench *b)
{
    fv_heat_free(b->result);
    b->result = NULL;
    return go(b);
}

static void only_what_cannot_come_by_then(void **state)
{
    bench b;
    const double last = open_plant(&b), parts[] = {0.2, 0.5, 0.9, 0.99, 1.001, 1.1};
    (void)state;
    for (size_t k = 0; k < sizeof parts / sizeof *parts; k++) {
        b.options.until = parts[k] * last;
        b.options.all_by_until = true;
        const fv_heat_result *r = again(&b);
        printf("check | until %.3f of the last core | given up at %.3f of it\n", parts[k], r->end / last);
        assert_int_equal(r->given_up, parts[k] < 1);
        /* sooner than by then, and one that is far off long before */
        assert_true(parts[k] > 1 || r->end < (parts[k] < 0.6 ? 0.5 : 1) * b.options.until);
        for (size_t i = 0; i < VESSELS && parts[k] > 1; i++)
            assert_true(r->vessels[i].core <= 1.0005 * last);
    }
    close_bench(&b);
}

static void only_so_many_late(void **state)
{
    bench b;
    (void)state;
    open_plant(&b);
    const double second = 3600 * took(b.result, 1);
    b.plant->vessels[1]->within = fv_given(0.8 * second);
    for (size_t most = 0; most <= 2; most++) {
        b.options.late_ends = most;
        const fv_heat_result *r = again(&b);
        assert_int_equal(r->given_up, most == 1);
        assert_true(!r->given_up || r->end < 0.8 * second + r->vessels[1].opened);
    }
    close_bench(&b);
}

/* What is turned down so far that its hose has nearly all the drop hardly feels its chamber: the network need not be
 * solved again. */
static void little_is_asked_of_a_throttled_network(void **state)
{
    bench b;
    (void)state;
    open_bench(&b, 20e3);
    add_star(&b, VESSELS);
    b.options.stop_at_core = true;
    for (size_t i = 0; i < VESSELS; i++)
        b.plant->lines[i]->k = fv_given(THROTTLED);
    const fv_heat_result *r = go(&b);
    printf("check | solves of the network | %zu in %zu steps\n", r->audit.solves, r->audit.steps + r->audit.repeated);
    assert_true(r->audit.solves < 2 * VESSELS);
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(only_what_cannot_come_by_then),
                                       cmocka_unit_test(only_so_many_late),
                                       cmocka_unit_test(little_is_asked_of_a_throttled_network)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
