/* SPDX-License-Identifier: MIT */
/* What the grower does: staggered starts, starts after an event, fire, valves, shutting, opening, detaching; holds that
 * are broken and made good. */
#include "heatup/run_plants.h"

static const double S = 2e-3; /* s: something due now is done within this */

static void turn_down(fv_action *action, double fire)
{
    action->boiler = "boiler";
    action->fire = fv_given(fire);
}

/* Boards of 20 mm around every vessel. */
static void add_walls(bench *b)
{
    for (size_t i = 0; i < b->plant->vessel_count; i++)
        add_wall(b, b->plant->vessels[i], 5, 0.02, 0.15, 500, 1600, 8);
}

static void staggered_starts(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_star(&b, 3);
    b.plant->vessels[1]->start = fv_given(2 * 3600);
    b.plant->vessels[2]->start = fv_given(5.5 * 3600);
    go(&b);
    const fv_vessel_history *h = b.result->vessels;
    check_off("second opened, s", 7200, h[1].opened, S, "start=\"2 h\"");
    check_off("third opened, s", 19800, h[2].opened, S, "start=\"5.5 h\"");
    assert_true(h[0].core < h[1].core && h[1].core < h[2].core);
    assert_true(h[0].steam_on < 3600 && h[1].steam_on > 7200 && h[2].steam_on > 19800);
    for (int i = 0; i < 3; i++)
        check_off("hold ends, s after the core", 4 * 3600, h[i].hold - h[i].core, S, "hold of 4 h");
    /* each waits cold */
    const fv_series *s = &b.result->series;
    for (size_t k = 0; k < s->count && s->time[k] < 19000; k++)
        assert_true(s->core[3 * k + 2] == 288.15);
    close_bench(&b);
}

static void starts_after_an_event(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_star(&b, 4);
    const char *const after[] = {"boiler steam", "bin0 full", "bin1 core", "bin2 hold"};
    for (int i = 0; i < 4; i++)
        b.plant->vessels[i]->start_after = name_of(&b, after[i]);
    b.plant->vessels[3]->start = fv_given(900);
    b.plant->vessels[2]->hold = fv_given(1800);
    go(&b);
    const fv_vessel_history *h = b.result->vessels;
    check_off("bin0 after boiler steam, s", b.result->boilers[0].steam_up, h[0].opened, S, "at once");
    check_off("bin1 after bin0 full, s", h[0].full, h[1].opened, 5, "the chamber's event is met within some seconds");
    check_off("bin2 after bin1 core, s", h[1].core, h[2].opened, S, "at once");
    check_off("bin3 15 min after bin2 hold, s", h[2].hold + 900, h[3].opened, S, "start=\"15 min\"");
    check_off("hold of 30 min, s", 1800, h[2].hold - h[2].core, S, "unbroken");
    close_bench(&b);
    /* something done when a vessel may be opened */
    open_bench(&b, 20e3);
    add_star(&b, 2);
    b.plant->vessels[1]->start_after = name_of(&b, "bin0 cool");
    add_walls(&b);
    go(&b);
    h = b.result->vessels;
    check_off("bin1 after bin0 cool, s", h[0].cool, h[1].opened, 5, "met within a few seconds of a day");
    assert_true(h[1].core > h[0].cool);
    close_bench(&b);
}

static void waits_in_vain(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_star(&b, 3);
    b.plant->vessels[0]->target = fv_given(104 + KELVIN); /* never arrives */
    b.plant->vessels[1]->start_after = name_of(&b, "bin0 core");
    b.plant->vessels[2]->phase = fv_given(FV_PHASE_SHUT);
    go(&b);
    const fv_vessel_history *h = b.result->vessels;
    assert_int_equal(h[0].arrival, FV_NOT_BOILING_POINT);
    assert_true(isnan(h[1].steam_on) && isnan(h[1].opened) && isnan(h[1].core));
    assert_int_equal(h[1].arrival, FV_NOT_STEAM);
    assert_int_equal(h[1].verdict, FV_STARVED);
    assert_int_equal(h[2].verdict, FV_SHUT_OFF);
    assert_true(b.result->end < 3 * 86400.0);
    close_bench(&b);
}

static void acts_on_fire_and_valves(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_star(&b, 2);
    fv_fitting *valve = fv_line_add_fitting(b.plant, b.plant->lines[1], FV_FITTING_VALVE, HERE);
    valve->part.id = "v1";
    fv_action *fire = add_action(&b, 5000, NULL), *shut = add_action(&b, 0, "bin0 core"),
              *open = add_action(&b, 0, "bin0 core");
    turn_down(fire, 0.4);
    shut->valve = open->valve = "v1";
    shut->open = fv_given(0);
    open->open = fv_given(1);
    open->delay = fv_given(3600);
    go(&b);
    const fv_heat_result *r = b.result;
    const fv_series *s = &r->series;
    const double core = r->vessels[0].core;
    for (size_t k = 0; k < s->count; k++) {
        if (s->time[k] > core + 1 && s->time[k] < core + 3590)
            assert_true(s->vessel_steam[2 * k + 1] == 0);
        if (s->time[k] > core + 3700 && s->time[k] < r->vessels[0].hold)
            assert_true(s->vessel_steam[2 * k + 1] > 0);
    }
    size_t acted = 0;
    const double due[] = {5000, core, core + 3600};
    for (size_t i = 0; i < r->event_count; i++)
        if (r->events[i].kind == FV_HEAT_EVENT_ACTION)
            check_off("an action is done, s", due[acted++], r->events[i].time, 2 * S,
                      "at its time, or after its event");
    assert_int_equal(acted, 3);
    size_t before = (size_t)(4500 / s->time[1]), after = (size_t)(6000 / s->time[1]);
    check_dev("steam after the fire is turned down to 0.4", 0.4, s->boiler_steam[after] / s->boiler_steam[before], 0.01,
              "share of full fire; 1 % for the pressure");
    close_bench(&b);
}

/* Whichever vessel it is that comes last; one that is shut is not waited for. */
static void acts_once_all_are_there(void **state)
{
    (void)state;
    for (int slower = 0; slower < 2; slower++) {
        bench b;
        open_bench(&b, 20e3);
        add_star(&b, 3);
        b.plant->vessels[slower]->load.mass = fv_given(300);
        b.plant->vessels[2]->phase = fv_given(FV_PHASE_SHUT);
        turn_down(add_action(&b, 0, "last core"), 0.4);
        go(&b);
        const fv_heat_result *r = b.result;
        assert_true(r->vessels[slower].core > r->vessels[1 - slower].core);
        for (size_t i = 0; i < r->event_count; i++)
            if (r->events[i].kind == FV_HEAT_EVENT_ACTION)
                check_off("done at the last core, s", r->vessels[slower].core, r->events[i].time, 2 * S,
                          "after the event that is named");
        close_bench(&b);
    }
}

/* One that is shut cold for good is not waited for; one that is opened again is. */
static void given_up_is_not_waited_for(void **state)
{
    (void)state;
    for (int again = 0; again < 2; again++) {
        bench b;
        open_bench(&b, 20e3);
        add_star(&b, 2);
        act_on(&b, add_action(&b, 300, NULL), "bin0", FV_ACT_SHUT);
        if (again)
            act_on(&b, add_action(&b, 8 * 3600, NULL), "bin0", FV_ACT_OPEN);
        turn_down(add_action(&b, 0, "last core"), 0.4);
        go(&b);
        const fv_vessel_history *h = b.result->vessels;
        double last = NAN;
        for (size_t i = 0; i < b.result->event_count; i++)
            if (b.result->events[i].kind == FV_HEAT_EVENT_ACTION)
                last = b.result->events[i].time;
        assert_true(again ? h[0].core > h[1].core : isnan(h[0].core));
        check_off("done at the last core, s", h[!again].core, last, 2 * S, "after the event that is named");
        close_bench(&b);
    }
}

/* Taken off at the core: the rest is done by its own heat, and the other gets the steam. */
static void detached_at_the_core(void **state)
{
    (void)state;
    double other[2];
    for (int i = 0; i < 2; i++) {
        bench b;
        open_bench(&b, 12e3);
        add_star(&b, 2);
        b.plant->vessels[1]->load.count = fv_given(100);
        b.plant->vessels[1]->load.mass = fv_given(230);
        b.plant->vessels[0]->hold = fv_given(i == 0 ? 1800 : 4 * 3600);
        add_walls(&b);
        if (i == 0)
            act_on(&b, add_action(&b, 0, "bin0 core"), "bin0", FV_ACT_DETACH);
        go(&b);
        const fv_vessel_history *h = b.result->vessels;
        other[i] = h[1].core;
        if (i == 0) {
            const fv_heat_event *shut = event(b.result, FV_HEAT_EVENT_SHUT, 0);
            assert_non_null(shut);
            check_off("detached, s", h[0].core, shut->time, S, "at the core");
            check_off("half an hour at the target by its own heat, s", 1800, h[0].hold - h[0].core, S, "unbroken");
            assert_true(h[0].cool > h[0].hold);
        }
        close_bench(&b);
    }
    assert_true(other[0] < other[1]);
}

static void a_broken_hold_is_told(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_star(&b, 1);
    add_wall(&b, b.plant->vessels[0], 6, 0.005, 0.3, 500, 1600, 15);
    b.plant->vessels[0]->hold = fv_given(5 * 3600);
    act_on(&b, add_action(&b, 3600, "bin0 core"), "bin0", FV_ACT_SHUT);
    b.plant->actions[0]->delay = fv_given(3600);
    fv_action *again = add_action(&b, 0, "bin0 core");
    act_on(&b, again, "bin0", FV_ACT_OPEN);
    again->delay = fv_given(5 * 3600);
    b.options.every = 60;
    go(&b);
    const fv_vessel_history *h = &b.result->vessels[0];
    assert_true(h->hold_broken > h->core + 3600 && h->hold_broken < h->core + 5 * 3600);
    assert_non_null(event(b.result, FV_HEAT_EVENT_BROKEN, 0));
    check_between("held without a break, h", 5, 7, h->hold_longest / 3600, "5 h, and what stays warm after the steam");
    assert_true(h->hold > h->core + 10 * 3600);
    /* time at the target: before the break, and from the return on */
    const fv_series *s = &b.result->series;
    double back = NAN, above = 0;
    for (size_t k = 0; k < s->count; k++) {
        if (s->core[k] >= 95 + KELVIN)
            above += 60;
        if (isnan(back) && s->time[k] > h->hold_broken && s->core[k] >= 95 + KELVIN)
            back = s->time[k];
    }
    check_off("the unbroken hold ends, s", back + 5 * 3600, h->hold, 120, "5 h after its return, from the series");
    check_off("summed time at the target, s", above, h->hold_sum, 180, "from the series");
    assert_int_equal(h->verdict, FV_FED);
    /* never opened again, it never gets the time it must hold */
    again->delay = fv_given(30 * 86400.0);
    b.options.until = 86400;
    go(&b);
    h = b.result->vessels;
    assert_true(h->arrival == FV_ARRIVED && h->hold_broken > h->core && isnan(h->hold));
    assert_int_equal(h->verdict, FV_STARVED);
    close_bench(&b);
}

/* A vessel shut before it was opened, opened again while it cools. */
static void shut_and_open(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 20e3);
    add_star(&b, 2);
    b.plant->vessels[1]->start = fv_given(7200);
    act_on(&b, add_action(&b, 3600, NULL), "bin1", FV_ACT_SHUT);
    act_on(&b, add_action(&b, 10 * 3600, NULL), "bin1", FV_ACT_OPEN);
    act_on(&b, add_action(&b, 2 * 86400.0, NULL), "bin0", FV_ACT_OPEN);
    add_walls(&b);
    go(&b);
    const fv_vessel_history *h = b.result->vessels;
    check_off("bin1 opened at last, s", 36000, h[1].opened, S, "by the action");
    assert_true(h[0].cool < 2 * 86400.0 && b.result->end > 2 * 86400.0 + 3 * 3600);
    const fv_series *s = &b.result->series;
    const size_t late = (size_t)((2 * 86400.0 + 3 * 3600) / s->time[1]);
    assert_true(s->chamber[2 * late] > 90 + KELVIN);
    close_bench(&b);
}

/* The turn-down trap: fed while heating, its seal stops all steam when the fire is turned down. */
static void turned_down_too_far(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 24e3);
    add_star(&b, 3);
    for (int i = 0; i < 3; i++) {
        b.plant->vessels[i]->hold = fv_given(6 * 3600);
        b.plant->vessels[i]->coil.drill = fv_given(0.003);
    }
    add_walls(&b);
    b.plant->lines[2]->sag = fv_given(0.06);
    turn_down(add_action(&b, 0, "bin2 core"), 0.35);
    go(&b);
    const fv_vessel_history *h = b.result->vessels;
    assert_true(h[2].core > 0 && h[0].core > 0);
    const fv_heat_event *starved = event(b.result, FV_HEAT_EVENT_STARVED, 2);
    assert_non_null(starved);
    check_between("starved after the fire is turned down, s", 0, 600, starved->time - h[2].core,
                  "a sag of 60 mm needs 560 Pa, the holes of the others 140 Pa");
    assert_null(event(b.result, FV_HEAT_EVENT_STARVED, 0));
    assert_true(h[2].steam_least_in_hold == 0 && h[2].hold_broken > h[2].core);
    /* once the others are done it gets steam again, and its hold begins anew */
    assert_true(isnan(h[2].starved_since) && h[2].hold > h[0].hold + 6 * 3600);
    b.options.until = h[2].core + 4 * 3600;
    go(&b);
    h = b.result->vessels;
    assert_true(h[2].starved_since >= h[2].core && h[2].starved_since < h[2].core + 600);
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(staggered_starts),        cmocka_unit_test(starts_after_an_event),
        cmocka_unit_test(waits_in_vain),           cmocka_unit_test(acts_on_fire_and_valves),
        cmocka_unit_test(acts_once_all_are_there), cmocka_unit_test(given_up_is_not_waited_for),
        cmocka_unit_test(detached_at_the_core),    cmocka_unit_test(a_broken_hold_is_told),
        cmocka_unit_test(shut_and_open),           cmocka_unit_test(turned_down_too_far),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
