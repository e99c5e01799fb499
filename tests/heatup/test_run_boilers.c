/* SPDX-License-Identifier: MIT */
/* Boilers in time: start-up by hand calculation, water that runs out, two that steam at different times, pressure that
 * is paid for, the fire. */
#include "heatup/run_plants.h"

#include "farvessel/props.h"

static void starts_up_as_by_hand(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    static const double rows[][4] = {
        /* kg water, kg steel, degC, kW */ {100, 150, 15, 30}, {60, 90, 4, 24}, {20, 0, 60, 6}};
    for (size_t i = 0; i < 3; i++) {
        bench b;
        one_vessel(&b, rows[i][3] * 1e3);
        b.boiler->water = fv_given(rows[i][0] / 1000);
        b.boiler->steel = fv_given(rows[i][1]);
        b.boiler->start_temperature = fv_given(rows[i][2] + KELVIN);
        b.boiler->start = fv_given(600);
        b.boiler->loss = fv_given(500);
        b.options.until = 3 * 3600;
        go(&b);
        fv_sat_at_t_point cold;
        fv_sat_point hot;
        fv_sat_at_t(sat, rows[i][2] + KELVIN, &cold);
        fv_sat_at(sat, 101418 + b.result->at_first_steam->boilers[0].pressure, &hot);
        const double heat = rows[i][0] * (hot.h_f - cold.h_f) + rows[i][1] * 480 * (hot.t - rows[i][2] - KELVIN);
        check_dev("start-up, s", 600 + heat / (rows[i][3] * 1e3 - 500), b.result->boilers[0].steam_up, 2e-4,
                  "water (h_f(T_s) - h_f(T_0)) + 480 J/kg/K steel (T_s - T_0), by hand");
        check_dev("fuel until then, J", heat / (rows[i][3] * 1e3 - 500) * rows[i][3] * 1e3 / 0.8,
                  (b.result->split.boiler_startup + 500 * (b.result->boilers[0].steam_up - 600)) / 0.8, 2e-4,
                  "output / efficiency x time");
        if (i == 0)
            check_dev("100 kg of water, 150 kg of steel, 15 to 100 degC at 30 kW, min", 23, heat / 30e3 / 60, 0.03,
                      "common practice, no source: 42 MJ, 23 min");
        close_bench(&b);
    }
}

static void runs_dry_when_its_water_is_gone(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 40 / 3600.0 * 2.25e6);
    b.boiler->feeding = fv_given(FV_FEED_BY_HAND);
    b.boiler->usable = fv_given(0.02);
    b.boiler->feed = fv_given(20 + KELVIN);
    go(&b);
    const fv_boiler_history *h = &b.result->boilers[0];
    const fv_boiler_result *first = &b.result->at_first_steam->boilers[0];
    check_dev("20 L gone, min after steam up", 20 / first->steam / 60, (h->dry - h->steam_up) / 60, 2e-2,
              "usable water / steam, pressure as at first");
    check_dev("20 L at about 40 kg/h, min", 30, (h->dry - h->steam_up) / 60, 0.05,
              "common practice, no source: 30 min");
    check_dev("water used, kg", 20, h->water, 1e-9, "all of it");
    assert_non_null(event(b.result, FV_HEAT_EVENT_DRY, -1));
    assert_int_equal(b.result->vessels[0].arrival, FV_NOT_DRY);
    assert_int_equal(b.result->vessels[0].verdict, FV_STARVED);
    assert_true(isnan(b.result->vessels[0].core));
    close_bench(&b);
    /* enough water: it is fed by hand, but not dry */
    one_vessel(&b, 15e3);
    b.boiler->feeding = fv_given(FV_FEED_BY_HAND);
    b.boiler->water = fv_given(0.5);
    b.boiler->usable = fv_given(0.4);
    go(&b);
    assert_true(isnan(b.result->boilers[0].dry) && b.result->vessels[0].core > 0);
    close_bench(&b);
}

/* Water that rides with the steam leaves the boiler, too: of dryness 0.9, a tenth of what goes. */
static void wet_steam_takes_its_water_along(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 24e3);
    b.boiler->feeding = fv_given(FV_FEED_BY_HAND);
    b.boiler->usable = fv_given(0.01);
    b.boiler->dryness = fv_given(0.9);
    go(&b);
    const fv_boiler_history *h = &b.result->boilers[0];
    check_dev("water used, kg", 10, h->water, 1e-9, "all of it");
    check_dev("steam of that, kg", 9, h->steam, 1e-6, "dryness x water");
    check_dev("10 L gone, min after steam up", 9 / b.result->at_first_steam->boilers[0].steam / 60,
              (h->dry - h->steam_up) / 60, 2e-2, "dryness x usable water / steam, pressure as at first");
    close_bench(&b);
}

static void two_boilers_join(void **state)
{
    (void)state;
    bench b;
    one_vessel(&b, 6e3);
    fv_boiler *second = add_boiler(&b, "second", "b0", 9e3);
    second->start = fv_given(7200);
    second->water = fv_given(0.06);
    b.plant->vessels[0]->load.count = fv_given(150);
    b.plant->vessels[0]->load.mass = fv_given(150 * 2.3);
    go(&b);
    const fv_boiler_history *h = b.result->boilers;
    assert_true(h[0].steam_up < 7200 && h[1].steam_up > 7200 + 600);
    check_dev("steam of both, kg", b.result->vessels[0].steam, h[0].steam + h[1].steam, 1e-9,
              "lines that lose nothing");
    /* while both give all they can */
    const fv_series *s = &b.result->series;
    size_t k = 0;
    while (s->time[k] < h[1].steam_up + 1800)
        k++;
    check_dev("share of the second's steam", 9.0 / 15,
              s->boiler_steam[2 * k + 1] / (s->boiler_steam[2 * k] + s->boiler_steam[2 * k + 1]), 1e-3, "by output");
    close_bench(&b);
}

/* Two boilers of one output, the second with so much more water that by hand it steams half a second later, or twenty
 * seconds. The twin of the first that is less than a moment behind begins with it. */
static void lit_together_they_steam_together(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    static const double behind[] = {0, 0.5, 20};
    double both = 0; /* Pa, that the vessel takes 18 kW at */
    double stored[3];
    for (int i = 0; i < 3; i++) {
        bench b;
        one_vessel(&b, 9e3);
        fv_boiler *second = add_boiler(&b, "second", "b0", 9e3);
        fv_sat_at_t_point cold;
        fv_sat_point hot;
        fv_sat_at_t(sat, 15 + KELVIN, &cold);
        fv_sat_at(sat, 101418, &hot);
        const double more = behind[i] * 9e3 / (hot.h_f - cold.h_f);
        second->water = fv_given(b.boiler->water.v + more / 1000);
        b.options.until = 1000;
        go(&b);
        const fv_boiler_history *h = b.result->boilers;
        if (i == 0)
            both = b.result->at_first_steam->boilers[0].pressure;
        fv_sat_at(sat, 101418 + both, &hot);
        check_dev("start-up of two, s", (20 * (hot.h_f - cold.h_f) + 30 * 480 * (hot.t - 15 - KELVIN)) / 9e3,
                  h[0].steam_up, 2e-4, "water (h_f(T_s) - h_f(T_0)) + 480 J/kg/K steel (T_s - T_0), by hand");
        if (i < 2)
            assert_true(h[0].steam_up == h[1].steam_up);
        else
            check_dev("the second later by, s", behind[i], h[1].steam_up - h[0].steam_up, 2e-2,
                      "more water x (h_f(T_s) - h_f(T_0)) / output, by hand");
        check_dev("heat to start both with, J", 9e3 * (h[0].steam_up + h[1].steam_up), b.result->split.boiler_startup,
                  1e-9, "output x time, by hand");
        stored[i] = b.result->split.boiler_startup + b.result->split.boiler_stored;
        if (i == 1)
            check_off("heat in the second's water above the first's, J", behind[i] * 9e3, stored[i] - stored[0], 3.6e3,
                      "output x time behind, by hand, to a fifth of a second of both");
        close_bench(&b);
    }
}

/* A vessel shut for a while: the boiler climbs to the pressure that it holds, and gives that back when it is opened. */
static void pressure_is_paid_and_given_back(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    bench b;
    one_vessel(&b, 8e3);
    b.boiler->water = fv_given(0.1);
    b.boiler->start_temperature = fv_given(90 + KELVIN);
    act_on(&b, add_action(&b, 3600, NULL), "bin", FV_ACT_SHUT);
    act_on(&b, add_action(&b, 5400, NULL), "bin", FV_ACT_OPEN);
    b.options.until = 5399;
    b.options.every = 60;
    go(&b);
    const double capacity = 100 * 4190 + 30 * 480;
    const double low = fv_sat_t(sat, 101418 + b.result->at_first_steam->boilers[0].pressure, NULL);
    const double high = fv_sat_t(sat, 101418 + 20000, NULL);
    check_dev("stored up to the pressure held, J", capacity * (high - low), b.result->split.boiler_stored, 0.02,
              "(water 4190 + steel 480) x rise of the boiling point");
    check_off("pressure by then, Pa", 20000, b.result->series.boiler_pressure[b.result->series.count - 1], 1,
              "what its control holds");
    b.options.until = 5700;
    go(&b);
    double most = 0;
    for (size_t k = 0; k < b.result->series.count; k++)
        if (b.result->series.time[k] > 5400)
            most = fmax(most, b.result->series.boiler_steam[k]);
    assert_true(most > 1.5 * b.result->at_first_steam->boilers[0].steam);
    check_off("given back soon after, J", 0, b.result->split.boiler_stored, 0.05 * capacity * (high - low),
              "flash steam");
    close_bench(&b);
}

/* Half the fire is half the output, from the option, the file or an action. */
static void fire_is_fire(void **state)
{
    (void)state;
    double core[4];
    for (int i = 0; i < 4; i++) {
        bench b;
        one_vessel(&b, i == 0 ? 5e3 : 10e3);
        if (i == 1)
            b.options.fire = 0.5;
        if (i == 2)
            b.boiler->fire = fv_given(0.5);
        if (i == 3) {
            fv_action *a = add_action(&b, 0, NULL);
            a->boiler = "boiler";
            a->fire = fv_given(0.5);
        }
        go(&b);
        core[i] = b.result->vessels[0].core;
        if (i > 0)
            check_dev("core with half the fire, s", core[0], core[i], 1e-6, "half the output");
        close_bench(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(starts_up_as_by_hand),
        cmocka_unit_test(runs_dry_when_its_water_is_gone),
        cmocka_unit_test(wet_steam_takes_its_water_along),
        cmocka_unit_test(two_boilers_join),
        cmocka_unit_test(lit_together_they_steam_together),
        cmocka_unit_test(pressure_is_paid_and_given_back),
        cmocka_unit_test(fire_is_fire),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
