/* SPDX-License-Identifier: MIT */
/* What the site does to a run: altitude, air in the chamber, weather over the night. */
#include "heatup/run_plants.h"

#include "farvessel/heat.h"

/* Plan of the trade: "98.3 degC at 500 m, 96.6 (1000), 95.0 (1500), 93.3 (2000), 91.6 (2500), 90.0 (3000)". */
static void water_boils_lower_higher_up(void **state)
{
    (void)state;
    static const double rows[][2] = {{0, 99.97},   {500, 98.3},  {1000, 96.6}, {1500, 95.0},
                                     {2000, 93.3}, {2500, 91.6}, {3000, 90.0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        bench b;
        one_vessel(&b, 15e3);
        b.plant->site.pressure = (fv_value){.v = NAN};
        b.plant->site.altitude = fv_given(rows[i][0]);
        fv_vessel *v = b.plant->vessels[0];
        v->target = fv_given(80 + KELVIN);
        v->hold = fv_given(6 * 3600);
        b.options.until = 12 * 3600;
        go(&b);
        char what[80];
        snprintf(what, sizeof what, "boiling point at %.0f m, degC", rows[i][0]);
        check_off(what, rows[i][1], b.result->boiling_point - KELVIN, 0.06,
                  "ISO 2533 and IAPWS-IF97, rounded to 0.1 K");
        double most = 0;
        for (size_t k = 0; k < b.result->series.count; k++)
            most = fmax(most, b.result->series.chamber[k]);
        snprintf(what, sizeof what, "warmest that the chamber gets at %.0f m, degC", rows[i][0]);
        check_off(what, rows[i][1], most - KELVIN, 0.15, "the same; some Pa above the site's pressure");
        close_bench(&b);
    }
}

/* A thing known to the trade: chambers with air in them are colder. */
static void air_keeps_a_chamber_cold(void **state)
{
    (void)state;
    static const double rows[][2] = {{0.01, 99.7}, {0.05, 98.5}, {0.10, 97.0},
                                     {0.20, 93.8}, {0.30, 90.3}, {0.50, 81.6}};
    bench b;
    one_vessel(&b, 3e3);
    b.plant->site.pressure = fv_given(101325);
    b.options.every = 30;
    go(&b);
    const fv_series *s = &b.result->series;
    const double at_full = b.result->boiling_point - FV_FULL_WITHIN;
    for (size_t k = 1; k < s->count; k++)
        if (s->chamber[k - 1] < at_full && s->chamber[k] >= at_full) {
            const double part = (at_full - s->chamber[k - 1]) / (s->chamber[k] - s->chamber[k - 1]);
            check_off("full of steam, s", s->time[k - 1] + 30 * part, b.result->vessels[0].full, 60,
                      "the series, of means over steps, passes half a kelvin below boiling");
        }
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double found = NAN;
        for (size_t k = 1; k < s->count && isnan(found); k++)
            if (s->air_share[k - 1] > rows[i][0] && s->air_share[k] <= rows[i][0])
                found = s->chamber[k - 1] + (s->chamber[k] - s->chamber[k - 1]) * (s->air_share[k - 1] - rows[i][0]) /
                                                (s->air_share[k - 1] - s->air_share[k]);
        char what[80];
        snprintf(what, sizeof what, "chamber with %.0f %% air by volume, degC", 100 * rows[i][0]);
        check_off(what, rows[i][1], found - KELVIN, 0.1, "Dalton's law, 1 atm; rounded to 0.1 K");
    }
    close_bench(&b);
}

/* A colder night: the walls lose more. The run's middle value, and the ends of the table. */
static void weather_follows_its_table(void **state)
{
    (void)state;
    double lost[3];
    for (int i = 0; i < 3; i++) {
        bench b;
        one_vessel(&b, 15e3);
        fv_vessel *v = b.plant->vessels[0];
        v->hold = fv_given(40 * 3600);
        add_wall(&b, v, 5, 0.02, 0.15, 1, 50, 8);
        /* level at 15 degC; level at -5; from 15 down to -25 over 40 h: -5 in the mean */
        for (int k = 0; k < (i == 0 ? 0 : 2); k++) {
            fv_weather *w = fv_plant_add_weather(b.plant, HERE);
            w->at = fv_given(k * 40 * 3600.0);
            w->air = fv_given(KELVIN + (i == 1 ? -5 : 15 - 40 * k));
        }
        b.options.until = 40 * 3600;
        go(&b);
        lost[i] = b.result->split.wall_losses;
        if (i == 1) /* full all but the first hour or so */
            check_dev("losses at -5 against +15 degC", 105.0 / 85, lost[1] / lost[0], 0.02, "(100 + 5)/(100 - 15)");
        if (i == 2)
            check_dev("losses from +15 down to -25 against -5 degC", 1, lost[2] / lost[1], 0.02,
                      "the mean is the same");
        close_bench(&b);
    }
}

/* Steps end where they should: wind sets in with the table's row, before it is calm. */
static void wind_counts(void **state)
{
    (void)state;
    double loss[2];
    for (int i = 0; i < 2; i++) {
        bench b;
        one_vessel(&b, 15e3);
        fv_vessel *v = b.plant->vessels[0];
        v->hold = fv_given(10 * 3600);
        fv_wall *w = add_wall(&b, v, 5, 0.001, 50, 7800, 480, 8);
        w->outside = (fv_value){.v = NAN};
        for (int k = 0; k < 3; k++) {
            fv_weather *row = fv_plant_add_weather(b.plant, HERE);
            row->at = fv_given(k * 5 * 3600.0);
            row->air = fv_given(15 + KELVIN);
            row->wind = fv_given(i == 1 && k > 0 ? 6 : 0);
        }
        b.options.until = 10 * 3600;
        go(&b);
        loss[i] = b.result->split.wall_losses;
        close_bench(&b);
    }
    double mean = 0, still;
    for (int k = 0; k < 100; k++) {
        double h;
        const fv_heat_outside air = {
            .t_air = 15 + KELVIN, .p_air = 101418, .wind = fmin(6, 6 * (k + 0.5) / 50), .emissivity = 0.9};
        fv_heat_outside_wall(1, 99.5 + KELVIN, &air, &h);
        mean += h / 100;
    }
    fv_heat_outside_wall(1, 99.5 + KELVIN,
                         &(fv_heat_outside){.t_air = 15 + KELVIN, .p_air = 101418, .wind = 0, .emissivity = 0.9},
                         &still);
    check_dev("losses of bare steel, wind 0 to 6 m/s over half of the time, then level, against still air",
              mean / still, loss[1] / loss[0], 0.02, "the outside coefficient's mean over the table");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(water_boils_lower_higher_up),
        cmocka_unit_test(air_keeps_a_chamber_cold),
        cmocka_unit_test(weather_follows_its_table),
        cmocka_unit_test(wind_counts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
