/* SPDX-License-Identifier: MIT */
/* Targets that are never reached, and why: altitude, losses, air, a seal; never an endless run. */
#include "heatup/run_plants.h"

static void lossy_vessel(bench *b, double output)
{
    open_bench(b, output);
    add_line(b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025);
    add_vessel(b, "bin", "c");
}

/* It ended by itself, long before its time, and says where the chamber stands. */
static void check_never(const char *what, const bench *b, size_t vessel, fv_arrival arrival, double low, double high,
                        const char *source)
{
    const fv_vessel_history *h = &b->result->vessels[vessel];
    assert_true(isnan(h->core) && isnan(h->hold));
    assert_string_equal(fv_arrival_word(h->arrival), fv_arrival_word(arrival));
    assert_int_equal(h->verdict, FV_STARVED);
    assert_non_null(event(b->result, FV_HEAT_EVENT_SETTLED, (int)vessel));
    check_between(what, low, high, h->settles - KELVIN, source);
    assert_true(b->result->end < 5 * 86400.0 && b->result->audit.steps < 5000);
}

static void too_high_up(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 15e3);
    b.plant->site.pressure = (fv_value){.v = NAN};
    b.plant->site.altitude = fv_given(1800);
    go(&b);
    check_never("95 degC at 1800 m: settles at, degC", &b, 0, FV_NOT_BOILING_POINT, 93.9, 94.1,
                "boiling point at 1800 m, 93.98 degC (ISO 2533, IF97)");
    close_bench(&b);
}

static void losses_eat_the_steam(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 2.2e3);
    /* 1/(0.005/0.2 + 1/12) = 9.2 W/m2/K x 4 m2 x 85 K = 3.1 kW */
    add_wall(&b, b.plant->vessels[0], 4, 0.005, 0.2, 500, 1600, 12);
    go(&b);
    check_never("2.2 kW against 3.1 kW of losses: settles at, degC", &b, 0, FV_NOT_SUPPLY, 40, 75,
                "15 + 85 x 2.2/3.1, hose losses and warming of the feed water taken off");
    close_bench(&b);
}

/* A wide vent at the top and a wide drain at the bottom: 1.5 m of steam draws air in below. */
static void air_comes_in(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        bench b;
        lossy_vessel(&b, 6e3);
        fv_vessel *v = b.plant->vessels[0];
        add_wall(&b, v, 5, 0.05, 0.05, 100, 1500, 10);
        v->openings[0]->diameter = fv_given(i == 0 ? 0.08 : 0.03);
        add_opening(&b, v, FV_OPENING_VENT, i == 0 ? 0.15 : 0.03, 1.5);
        v->target = fv_given(92 + KELVIN);
        go(&b);
        if (i == 0) {
            check_never("6 kW, 15 cm vent, 8 cm drain: settles at, degC", &b, 0, FV_NOT_AIR, 60, 91,
                        "walls need 0.4 kW, but air is drawn in below");
            assert_true(b.result->vessels[0].air > 50);
        } else {
            assert_true(b.result->vessels[0].core > 0);
        }
        close_bench(&b);
    }
}

static void a_seal_lets_nothing_through(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 8e3);
    b.boiler->holds = fv_given(3000);
    add_line(&b, FV_LINE_HOSE, "dead", "b0", "d", 3, 0.025)->sag = fv_given(0.5);
    add_vessel(&b, "sealed", "d");
    go(&b);
    check_never("behind a sag of 500 mm: settles at, degC", &b, 1, FV_NOT_STEAM, 15 - 1e-6, 15 + 1e-6,
                "4700 Pa are needed, the boiler holds 3000 Pa");
    assert_true(isnan(b.result->vessels[1].steam_on) && b.result->vessels[1].steam == 0);
    assert_true(b.result->vessels[0].core > 0 && b.result->vessels[0].hold > 0);
    close_bench(&b);
}

static void a_long_bare_hose_condenses_all(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 3e3);
    b.plant->lines[0]->length = fv_given(60);
    b.plant->lines[0]->heat_loss = fv_given(100);
    go(&b);
    check_never("60 m of hose at 100 W/m, 3 kW: settles at, degC", &b, 0, FV_NOT_STEAM, 15 - 1e-6, 15 + 1e-6,
                "6 kW would condense on the way");
    close_bench(&b);
}

static void the_fire_is_too_small_to_boil(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 4e3);
    b.boiler->loss = fv_given(3e3);
    b.options.fire = 0.5;
    go(&b);
    assert_true(isnan(b.result->boilers[0].steam_up) && isnan(b.result->vessels[0].steam_on));
    assert_int_equal(b.result->vessels[0].arrival, FV_NOT_STEAM);
    assert_true(b.result->end < 86400);
    close_bench(&b);
}

/* Ends when asked, while still rising. */
static void still_rising(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 15e3);
    b.options.until = 2 * 3600;
    go(&b);
    check_off("until, s", 7200, b.result->end, 1e-3, "as asked");
    assert_int_equal(b.result->vessels[0].arrival, FV_NOT_TIME);
    assert_true(isnan(b.result->vessels[0].settles) && b.result->vessels[0].core_end > 300);
    check_off("samples", 7200 / 300 + 1, (double)b.result->series.count, 0.1, "every 5 min, both ends");
    close_bench(&b);
}

/* Cores only: the same times, a shorter run. */
static void only_the_cores(void **state)
{
    (void)state;
    double core[2], end[2];
    for (int i = 0; i < 2; i++) {
        bench b;
        open_bench(&b, 15e3);
        add_star(&b, 2);
        b.plant->vessels[1]->load.count = fv_given(80);
        b.plant->vessels[1]->load.mass = fv_given(80 * 2.3);
        b.options.stop_at_core = i == 1;
        go(&b);
        core[i] = b.result->vessels[1].core;
        end[i] = b.result->end;
        close_bench(&b);
    }
    assert_true(core[0] == core[1] && end[1] < core[1] + 3600 && end[1] < end[0]);
}

/* A big load in thick lagging takes weeks to settle. Where it will is said long before, and cores alone are not waited
 * for. */
static void slow_to_settle(void **state)
{
    (void)state;
    static const double until[] = {60 * 86400.0, 4 * 86400.0, 60 * 86400.0};
    double settles[3];
    for (int i = 0; i < 3; i++) {
        bench b;
        lossy_vessel(&b, 400);
        b.boiler->water = fv_given(0.002);
        b.boiler->steel = fv_given(2);
        ideal(b.plant->lines[0]);
        b.plant->vessels[0]->load.count = fv_given(250);
        b.plant->vessels[0]->load.mass = fv_given(250 * 2.3);
        add_wall(&b, b.plant->vessels[0], 6, 0.05, 0.05, 100, 1500, 10);
        b.options.until = until[i];
        b.options.stop_at_core = i == 2;
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[0];
        assert_int_equal(h->verdict, FV_STARVED);
        assert_true(isnan(h->core) && (h->arrival == FV_NOT_SUPPLY || h->arrival == FV_NOT_AIR));
        assert_non_null(event(b.result, FV_HEAT_EVENT_SETTLED, 0));
        settles[i] = h->settles;
        if (i == 0)
            check_between("settled, K beside its chamber", -0.1, 0.1, h->settles - h->chamber_end, "the run itself");
        else
            assert_true(h->chamber_end < h->settles - 1 && b.result->end < (i == 1 ? 4.001 : 1) * 86400);
        close_bench(&b);
    }
    check_off("predicted after 4 days, K", settles[0], settles[1], 0.1, "the run that settles");
    check_off("predicted with cores alone, K", settles[0], settles[2], 0.1, "the run that settles");
}

/* The second gets too little for good, but only as long as the first is on the steam: nothing is said of it before. */
static void not_predicted_while_things_change(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        bench b;
        open_bench(&b, 2.2e3);
        add_star(&b, 2);
        for (int k = 0; k < 2; k++)
            add_wall(&b, b.plant->vessels[k], 3, 0.05, 0.05, 100, 1500, 10);
        b.plant->lines[1]->bore = fv_given(0.012);
        b.options.until = i == 0 ? 11 * 3600 : 7 * 86400.0;
        go(&b);
        const fv_vessel_history *h = &b.result->vessels[1];
        printf("core %.0f, hold %.0f s; the other's core %.0f s, %s\n", b.result->vessels[0].core,
               b.result->vessels[0].hold, h->core, fv_arrival_word(h->arrival));
        if (i == 0) {
            assert_true(b.result->vessels[0].core > 0 && isnan(b.result->vessels[0].hold));
            assert_true(isnan(h->settles) && h->arrival == FV_NOT_TIME);
        } else {
            assert_true(h->core > b.result->vessels[0].hold);
        }
        close_bench(&b);
    }
}

/* Options that make no sense, and one that stops it from outside. */
static bool stop_soon(void *context, double share, const char *what)
{
    int *left = context;
    assert_true(share >= 0 && share <= 1 && what);
    return (*left)-- > 0;
}

static void options_and_stopping(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 15e3);
    assert_int_equal(fv_plant_link(b.plant, b.faults) == FV_FAIL, false);
    for (int i = 0; i < 4; i++) {
        fv_heat_options wrong;
        fv_heat_defaults(&wrong);
        *(i == 0   ? &wrong.until
          : i == 1 ? &wrong.fineness
          : i == 2 ? &wrong.fire
                   : &wrong.every) = i == 3   ? (double)NAN
                                     : i == 1 ? 0
                                              : -1;
        const size_t before = fv_faults_errors(b.faults);
        assert_null(fv_heat_run(b.plant, &wrong, NULL, b.faults));
        assert_true(fv_faults_errors(b.faults) == before + 1);
    }
    close_bench(&b);
    lossy_vessel(&b, 15e3);
    assert_int_equal(fv_plant_link(b.plant, b.faults) == FV_FAIL, false);
    int left = 2;
    const fv_progress progress = {.tick = stop_soon, .context = &left};
    b.result = fv_heat_run(b.plant, &b.options, &progress, b.faults);
    assert_non_null(b.result);
    assert_true(b.result->stopped && b.result->end > 0 && isnan(b.result->vessels[0].hold));
    assert_true(b.result->audit.relative < 1e-6);
    close_bench(&b);
}

/* A plant with nobody in it, and one whose boiler stays cold for days. */
static void nothing_to_do(void **state)
{
    (void)state;
    bench b;
    lossy_vessel(&b, 15e3);
    b.plant->vessels[0]->phase = fv_given(FV_PHASE_SHUT);
    go(&b);
    assert_int_equal(b.result->vessels[0].verdict, FV_SHUT_OFF);
    assert_true(b.result->end < 7200);
    close_bench(&b);
    lossy_vessel(&b, 15e3);
    b.boiler->start = fv_given(6 * 86400.0);
    go(&b);
    assert_true(b.result->vessels[0].core > 6 * 86400.0 && b.result->audit.steps < 2000);
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(too_high_up),
        cmocka_unit_test(losses_eat_the_steam),
        cmocka_unit_test(air_comes_in),
        cmocka_unit_test(a_seal_lets_nothing_through),
        cmocka_unit_test(a_long_bare_hose_condenses_all),
        cmocka_unit_test(the_fire_is_too_small_to_boil),
        cmocka_unit_test(still_rising),
        cmocka_unit_test(only_the_cores),
        cmocka_unit_test(slow_to_settle),
        cmocka_unit_test(not_predicted_while_things_change),
        cmocka_unit_test(options_and_stopping),
        cmocka_unit_test(nothing_to_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
