/* SPDX-License-Identifier: MIT */
/* Thermostats: limits that are kept, the share of time on, cores that overshoot, times in force. */
#include "heatup/run_plants.h"

#include "farvessel/props.h"

static const double AIR = 15 + KELVIN;

static fv_thermostat *add_thermostat(bench *b, const char *on, double below, double above)
{
    fv_thermostat *t = fv_plant_add_thermostat(b->plant, HERE);
    t->on = name_of(b, on);
    t->below = fv_given(below + KELVIN);
    t->above = fv_given(above + KELVIN);
    t->boiler = "boiler";
    return t;
}

/* 200 kg of steel in a chamber whose walls store next to nothing: heat goes into the metal or through the walls. */
static void open_metal(bench *b)
{
    open_bench(b, 3e3);
    ideal(add_line(b, FV_LINE_HOSE, "hose", "b0", "c0", 3, 0.025));
    fv_vessel *v = add_vessel(b, "bin", "c0");
    v->load.count = v->load.mass = (fv_value){.v = NAN};
    v->load.a = v->load.b = v->load.c = (fv_value){.v = NAN};
    v->volume = fv_given(0.02);
    v->shell.mass = fv_given(200);
    add_wall(b, v, 4, 0.02, 0.05, 1, 50, 10);
    v->target = fv_given(95 + KELVIN);
    b->options.until = 24 * 3600;
}

/* W through 20 mm of 0.05 W/m/K and an outside of 10 W/m2/K. */
static double lost(double t)
{
    return 4 * (t - AIR) / (0.02 / 0.05 + 1 / 10.0);
}

/* Metal that goes up by P - U A (T - T_air) and down by U A (T - T_air), each in its own logarithm. */
static double share_on(double brings, double below, double above)
{
    const double up = log((brings - lost(below)) / (brings - lost(above))), down = log(lost(above) / lost(below));
    return up / (up + down);
}

static void on_for_what_is_needed(void **state)
{
    (void)state;
    const double bands[] = {8, 4, 2, 1, 0.5};
    for (size_t i = 0; i < sizeof bands / sizeof *bands; i++) {
        bench b;
        open_metal(&b);
        fv_thermostat *t = add_thermostat(&b, "bin chamber", 70 - bands[i] / 2, 70 + bands[i] / 2);
        t->least_on = t->least_off = fv_given(1);
        go(&b);
        const fv_thermostat_history *h = &b.result->thermostats[0];
        fv_sat_point at;
        fv_sat_at(fv_sat_line(), 101418, &at);
        fv_sat_at_t_point kept, feed;
        fv_sat_at_t(fv_sat_line(), 70 + KELVIN, &kept);
        fv_sat_at_t(fv_sat_line(), b.boiler->feed.v, &feed);
        const double brings = 3e3 / (at.h_g - feed.h_f) * (at.h_g - kept.h_f), need = lost(70 + KELVIN) / brings;
        printf("band %g K: %zu cycles\n", bands[i], h->cycles);
        check_off("chamber, highest, K over its upper limit", 0, h->most - t->above.v, 0.02, "switched within 0.1 s");
        check_off("chamber, lowest, K over its lower limit", 0, h->least - t->below.v, 0.02, "the same");
        check_dev("share of time on", share_on(brings, t->below.v, t->above.v), fv_thermostat_duty(h), 0.003,
                  "lumped metal, up and down; what it breathes through its drain comes on top");
        if (bands[i] < 1)
            check_dev("the same, need over supply", need, fv_thermostat_duty(h), 0.003,
                      "U A (T - T_air) / (h_g - h_f) over Q / (h_g - h_feed)");
        close_bench(&b);
    }
}

static void never_chatters(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 24e3);
    add_star(&b, 1);
    add_wall(&b, b.plant->vessels[0], 5, 0.02, 0.15, 500, 1600, 8);
    b.plant->vessels[0]->target = fv_given(60 + KELVIN);
    fv_thermostat *t = add_thermostat(&b, "bin0 chamber", 64.9, 65);
    t->least_off = fv_given(90);
    b.options.until = 8 * 3600;
    go(&b);
    double last = NAN;
    int switched = 0;
    for (size_t i = 0; i < b.result->event_count; i++) {
        const fv_heat_event *h = &b.result->events[i];
        if (h->kind != FV_HEAT_EVENT_SWITCHED_ON && h->kind != FV_HEAT_EVENT_SWITCHED_OFF)
            continue;
        assert_int_equal(h->kind, switched % 2 == 0 ? FV_HEAT_EVENT_SWITCHED_OFF : FV_HEAT_EVENT_SWITCHED_ON);
        if (switched++ > 0)
            assert_true(h->time - last >= (h->kind == FV_HEAT_EVENT_SWITCHED_ON ? 90 : 60) - 2e-3);
        last = h->time;
    }
    assert_true(switched > 100);
    close_bench(&b);
}

static void a_core_overshoots(void **state)
{
    (void)state;
    bench b;
    double core[2];
    for (int kept = 0; kept < 2; kept++) {
        open_bench(&b, 20e3);
        add_star(&b, 1);
        add_wall(&b, b.plant->vessels[0], 5, 0.02, 0.15, 500, 1600, 8);
        b.plant->vessels[0]->target = fv_given(62 + KELVIN);
        if (kept)
            add_thermostat(&b, "bin0 core", 60, 62);
        go(&b);
        core[kept] = b.result->vessels[0].core;
        if (kept)
            check_off("switches off at its core, s", core[0], b.result->thermostats[0].first_off, 0.1,
                      "the core's arrival in the run without it");
        if (kept)
            check_between("its core goes on, K", 2, 40, b.result->thermostats[0].most - 62 - KELVIN,
                          "the load's lag: its surface was far hotter");
        close_bench(&b);
    }
    check_off("until then nothing differs, s", core[0], core[1], 0.1, "the same plant");
}

/* Two, one after the other, on a valve; what an action sets meanwhile counts once they have let go. */
static void in_force_from_until(void **state)
{
    (void)state;
    bench b;
    open_metal(&b);
    fv_fitting *valve = fv_line_add_fitting(b.plant, b.plant->lines[0], FV_FITTING_VALVE, HERE);
    valve->part.id = "v1";
    fv_thermostat *t[2];
    for (int i = 0; i < 2; i++) {
        t[i] = add_thermostat(&b, "bin chamber", i ? 44 : 69, i ? 46 : 71);
        t[i]->boiler = NULL;
        t[i]->valve = "v1";
        t[i]->from = fv_given(i ? 10 * 3600 : 0);
        t[i]->until = fv_given(i ? 20 * 3600 : 10 * 3600);
    }
    fv_action *a = add_action(&b, 15 * 3600, NULL);
    a->valve = "v1";
    a->open = fv_given(0.5);
    b.options.every = 10;
    go(&b);
    const fv_series *s = &b.result->series;
    double least[2] = {INFINITY, INFINITY}, most[2] = {0, 0};
    for (size_t k = 0; k < s->count; k++)
        for (int i = 0; i < 2; i++)
            if (s->time[k] > (i ? 16 : 5) * 3600 && s->time[k] < (i ? 20 : 10) * 3600) {
                least[i] = fmin(least[i], s->chamber[k] - KELVIN);
                most[i] = fmax(most[i], s->chamber[k] - KELVIN);
            }
    for (int i = 0; i < 2; i++) {
        check_between("lowest, degC", i ? 43 : 68, i ? 44.5 : 69.5, least[i], "below, and 60 s of cooling");
        check_between("highest, degC", i ? 46 : 71, i ? 53 : 78, most[i],
                      "above, and 60 s of 3 kW and what 98 kJ/K give up from 105 degC into 96 kJ/K");
        check_off("in force, s", 10 * 3600, b.result->thermostats[i].in_force, 0.1, "from until");
    }
    assert_true(s->vessel_steam[s->count - 1] > 0); /* half open, as the action left it */
    assert_true(b.result->vessels[0].chamber_end > 90 + KELVIN || s->chamber[s->count - 1] > 50 + KELVIN);
    close_bench(&b);
}

static void finer_steps_say_the_same(void **state)
{
    (void)state;
    double duty[2];
    for (int fine = 0; fine < 2; fine++) {
        bench b;
        open_bench(&b, 8e3);
        add_star(&b, 1);
        add_wall(&b, b.plant->vessels[0], 5, 0.02, 0.15, 500, 1600, 8);
        b.plant->vessels[0]->target = fv_given(60 + KELVIN);
        add_thermostat(&b, "bin0 chamber", 64, 66);
        b.options.until = 6 * 3600;
        b.options.fineness = fine ? 4 : 1;
        go(&b);
        duty[fine] = fv_thermostat_duty(&b.result->thermostats[0]);
        close_bench(&b);
    }
    check_dev("share of time on, default steps", duty[1], duty[0], 0.01, "the same run in steps a quarter as long");
}

/* One moment does not know what is turned; a chamber kept below a limit is no worry, one that is not is. */
static void a_moment_leaves_it_open(void **state)
{
    (void)state;
    for (int kept = 0; kept < 2; kept++) {
        bench b;
        one_vessel(&b, 15e3);
        b.plant->vessels[0]->target = fv_given(KELVIN + 65);
        b.plant->vessels[0]->at_most = fv_given(KELVIN + 80);
        add_thermostat(&b, "bin chamber", kept ? 68 : 88, kept ? 72 : 92);
        assert_int_equal(fv_plant_link(b.plant, b.faults), FV_OK);
        const fv_flow_options moment = {.fire = 1, .predict = true};
        fv_flow_answer *flow = fv_flow_answer_new(b.plant, &moment, NULL, b.faults);
        assert_non_null(flow);
        assert_true(flow->state->vessels[0].unsettled);
        size_t told = 0;
        for (size_t i = 0; i < fv_faults_count(b.faults); i++)
            told += strstr(fv_faults_at(b.faults, i)->text, "should pass 80 degC") != NULL;
        assert_int_equal(told, !kept);
        fv_flow_answer_free(flow);
        close_bench(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_for_what_is_needed),    cmocka_unit_test(never_chatters),
        cmocka_unit_test(a_core_overshoots),        cmocka_unit_test(in_force_from_until),
        cmocka_unit_test(finer_steps_say_the_same), cmocka_unit_test(a_moment_leaves_it_open),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
