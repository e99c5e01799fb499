/* SPDX-License-Identifier: MIT */
/* Tees and reducers that nobody declared: where they are found, and what they cost. */
#include "steady/plants.h"

/* a - header - t - hose - c, the header going on from t to another header or hose; all bores as given. */
static void three_lines(bench *b, fv_line_kind second, fv_line_kind third, const double bore[3])
{
    bench_open(b);
    b->plant->site.tees = fv_given(FV_TEES_FOUND);
    add_boiler(b, "boiler", "a", 20000, 20000);
    add_line(b, FV_LINE_HEADER, "one", "a", "t", 2, bore[0]);
    add_line(b, second, "two", "t", "d", 3, bore[1]);
    add_line(b, third, "three", "t", "e", 3, bore[2]);
    add_vessel(b, "near", "d", 24, 0.003);
    add_vessel(b, "far", "e", 24, 0.003);
}

static fv_joint joint_at(const bench *b, const char *name)
{
    fv_joint joints[8];
    assert_true(b->plant->node_count <= 8 && fv_plant_joints(b->plant, joints));
    for (size_t i = 0; i < b->plant->node_count; i++)
        if (strcmp(b->plant->nodes[i], name) == 0)
            return joints[i];
    fail_msg("no joint %s", name);
    return joints[0];
}

static void branch_is(fv_line_kind second, fv_line_kind third, const double bore[3], int main, int run, int branch)
{
    bench b;
    three_lines(&b, second, third, bore);
    bench_link(&b);
    const fv_joint j = joint_at(&b, "t");
    assert_int_equal(j.kind, FV_JOINT_TEE);
    assert_int_equal(j.line[0], main);
    assert_int_equal(j.line[1], run);
    assert_int_equal(j.line[2], branch);
    assert_int_equal(joint_at(&b, "a").kind, FV_JOINT_PLAIN);
    assert_int_equal(joint_at(&b, "d").kind, FV_JOINT_PLAIN);
    bench_close(&b);
}

static void the_branch_is_the_odd_one(void **state)
{
    (void)state;
    branch_is(FV_LINE_HOSE, FV_LINE_HEADER, (double[]){0.05, 0.05, 0.025}, 0, 2, 1);
    branch_is(FV_LINE_HOSE, FV_LINE_HOSE, (double[]){0.05, 0.025, 0.025}, 1, 2, 0);
    branch_is(FV_LINE_PIPE, FV_LINE_PIPE, (double[]){0.05, 0.03, 0.04}, 0, 2, 1);
}

/* Three pipes alike: which one is the branch stands nowhere, and must not hang on their order in the file. */
static void lines_alike_tell_no_tee(void **state)
{
    (void)state;
    bench b;
    three_lines(&b, FV_LINE_PIPE, FV_LINE_PIPE, (double[]){0.05, 0.05, 0.05});
    bench_link(&b);
    assert_int_equal(joint_at(&b, "t").kind, FV_JOINT_PLAIN);
    bench_close(&b);
}

static fv_joint_kind changed(void (*change)(bench *))
{
    bench b;
    three_lines(&b, FV_LINE_HEADER, FV_LINE_HOSE, (double[]){0.05, 0.05, 0.025});
    change(&b);
    bench_link(&b);
    const fv_joint_kind kind = joint_at(&b, "t").kind;
    bench_close(&b);
    return kind;
}
static void nothing(bench *b)
{
    (void)b;
}
static void switch_off(bench *b)
{
    b->plant->site.tees = fv_given(FV_TEES_NONE);
}
static void say_k(bench *b)
{
    b->plant->lines[2]->k = fv_given(3);
}
static void stand_for_tee(bench *b)
{
    fv_line_add_fitting(b->plant, b->plant->lines[2], FV_FITTING_TYPE, HERE)->type = "tee-branch";
}
static void drip_there(bench *b)
{
    fv_plant_add_drip(b->plant, HERE)->at = "t";
}
static void boiler_there(bench *b)
{
    add_boiler(b, "second", "t", 5000, 20000);
}
static void fourth_line(bench *b)
{
    add_line(b, FV_LINE_HOSE, "four", "t", "f", 3, 0.025);
    add_vessel(b, "last", "f", 24, 0.003);
}

static void what_is_counted_already_is_left(void **state)
{
    (void)state;
    assert_int_equal(changed(nothing), FV_JOINT_TEE);
    assert_int_equal(changed(switch_off), FV_JOINT_PLAIN);
    assert_int_equal(changed(say_k), FV_JOINT_PLAIN);
    assert_int_equal(changed(stand_for_tee), FV_JOINT_PLAIN);
    assert_int_equal(changed(drip_there), FV_JOINT_PLAIN);
    assert_int_equal(changed(boiler_there), FV_JOINT_PLAIN);
    assert_int_equal(changed(fourth_line), FV_JOINT_PLAIN);
    assert_false(fv_plant_joints(NULL, NULL));
}

/* Shares with the tee found, or declared. */
static double near_share(bool declared)
{
    bench b;
    three_lines(&b, FV_LINE_HOSE, FV_LINE_HEADER, (double[]){0.035, 0.025, 0.035});
    if (declared) {
        fv_tee *tee = fv_plant_add_tee(b.plant, HERE);
        tee->at = "t";
        tee->main = "one";
        tee->run = "three";
        tee->branch = "two";
    }
    bench_link(&b);
    bench_solve(&b);
    const double share = b.result->vessels[0].share;
    bench_close(&b);
    return share;
}

static void a_found_tee_is_a_declared_one(void **state)
{
    (void)state;
    check_row("share behind a tee that was found", near_share(true), near_share(false), 1e-12, "the tee declared");
}

/* Share of the first vessel whose hose has a washer of a fifth of its area, or that washer's loss beside its fittings.
 */
static double washer_share(bool washer)
{
    bench b;
    three_lines(&b, FV_LINE_HOSE, FV_LINE_HEADER, (double[]){0.035, 0.025, 0.035});
    if (washer)
        b.plant->lines[1]->washer = fv_given(0.025 * sqrt(0.2));
    else
        fv_line_add_fitting(b.plant, b.plant->lines[1], FV_FITTING_LOSS, HERE)->k = fv_given(50.99);
    bench_link(&b);
    assert_int_equal(joint_at(&b, "t").kind, FV_JOINT_TEE);
    bench_solve(&b);
    const double share = b.result->vessels[0].share;
    bench_close(&b);
    return share;
}

static void a_washer_costs_its_loss_and_no_tee(void **state)
{
    (void)state;
    check_row("share behind a washer of a fifth of the area", washer_share(false), washer_share(true), 0.002,
              "zeta 50.99: Weisbach's table in Unwin, Encyclopaedia Britannica (1911)");
}

/* Pa along the second of two lines, steam flowing on from bore to bore, without friction; `turned`: it is drawn from
 * its far end. */
static double drop_behind(double first, double second, double loss, bool turned, double *head)
{
    bench b;
    bench_open(&b);
    b.plant->site.tees = fv_given(FV_TEES_FOUND);
    add_boiler(&b, "boiler", "a", 20000, 20000);
    add_line(&b, FV_LINE_PIPE, "one", "a", "t", 1, first);
    add_line(&b, FV_LINE_PIPE, "two", turned ? "d" : "t", turned ? "t" : "d", 1, second);
    for (int i = 0; i < 2; i++) {
        b.plant->lines[i]->friction = fv_given(0);
        b.plant->lines[i]->heat_loss = fv_given(0);
        fv_line_add_fitting(b.plant, b.plant->lines[i], FV_FITTING_LOSS, HERE)->k = fv_given(loss);
    }
    add_vessel(&b, "drum", "d", 100, 0.004);
    bench_link(&b);
    bench_solve(&b);
    const double narrow = fmin(first, second);
    const fv_line_result *l = &b.result->lines[second < first ? 1 : 0];
    const double flux = b.result->vessels[0].steam / circle(narrow);
    const double p = 0.5 * (b.result->nodes[0].pressure + b.result->nodes[1].pressure);
    *head = 0.5 * flux * flux / fv_sat_rho_g(b.sat, SEA + p, NULL);
    const double drop = fabs(l->drop);
    bench_close(&b);
    return drop;
}

/* Worked by hand for 53 and 27 mm: s = 0.25953, 0.5 (1 - s) = 0.37024, 1 - s^2 = 0.93264, 2 s (1 - s) = 0.38435; the
 * steam expands by 0.2 % on the way, which costs 0.4 % of a head. */
static void reducers_cost_what_paper_says(void **state)
{
    (void)state;
    static const char source[] = "by hand: Bernoulli; 0.5 (1 - s), (1 - s)^2 of Crane TP-410, from memory";
    for (int turned = 0; turned < 2; turned++) {
        double head;
        double drop = drop_behind(0.053, 0.027, 0, turned, &head);
        check_row("narrowing from 53 to 27 mm, heads of the narrow bore", 1.30288, drop / head, 5e-3, source);
        drop = drop_behind(0.027, 0.053, 2, turned, &head);
        check_row("widening behind a loss of 2 heads", 2 - 0.38435, drop / head, 5e-3, source);
        drop = drop_behind(0.027, 0.053, 0.1, turned, &head);
        assert_true(drop < 0.01 * head);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_branch_is_the_odd_one),          cmocka_unit_test(lines_alike_tell_no_tee),
        cmocka_unit_test(what_is_counted_already_is_left),    cmocka_unit_test(a_found_tee_is_a_declared_one),
        cmocka_unit_test(a_washer_costs_its_loss_and_no_tee), cmocka_unit_test(reducers_cost_what_paper_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
