/* SPDX-License-Identifier: MIT */
/* A heat answer filled in by hand on the plant of bench.h: the report is tested without any solver. */
#ifndef TESTS_REPORT_HEAT_BENCH_H
#define TESTS_REPORT_HEAT_BENCH_H

#include "bench.h"

enum { HEAT_SAMPLES = 25, HEAT_EVENTS = 8 * BENCH_MOST };
#define BENCH_HOUR 3600.0
#define BENCH_CELSIUS(t) ((t) + 273.15)

typedef struct {
    bench *b;
    fv_heat_result result;
    fv_vessel_history vessels[BENCH_MOST];
    fv_boiler_history boilers[1];
    double line_loss[2 * BENCH_MOST], line_condensate[2 * BENCH_MOST];
    fv_heat_event events[HEAT_EVENTS];
    double time[HEAT_SAMPLES], demand[HEAT_SAMPLES], core[HEAT_SAMPLES * BENCH_MOST],
        chamber[HEAT_SAMPLES * BENCH_MOST], surface[HEAT_SAMPLES * BENCH_MOST], steam[HEAT_SAMPLES * BENCH_MOST],
        air[HEAT_SAMPLES * BENCH_MOST], pressure[HEAT_SAMPLES * BENCH_MOST], boiler_steam[HEAT_SAMPLES],
        boiler_pressure[HEAT_SAMPLES], fuel[HEAT_SAMPLES];
} heat_bench;

/* Steam on after a quarter hour, full after 1 h, core at 6 h + 10 min for each vessel, held 4 h, open at 20 h. */
static inline void heat_bench_vessel(heat_bench *h, size_t i)
{
    double core = 6.0 * BENCH_HOUR + 600.0 * fmin((double)i, 30.0);
    h->vessels[i] = (fv_vessel_history){.opened = 600.0,
                                        .steam_on = 900.0,
                                        .full = BENCH_HOUR,
                                        .core = core,
                                        .hold = core + 4.0 * BENCH_HOUR,
                                        .cool = 20.0 * BENCH_HOUR,
                                        .core_ample = 5.0 * BENCH_HOUR,
                                        .starved_since = (double)NAN,
                                        .verdict = FV_FED,
                                        .arrival = FV_ARRIVED,
                                        .settles = (double)NAN,
                                        .core_end = BENCH_CELSIUS(30.0),
                                        .chamber_end = BENCH_CELSIUS(29.0),
                                        .hold_longest = 5.0 * BENCH_HOUR,
                                        .hold_sum = 5.0 * BENCH_HOUR,
                                        .hold_broken = (double)NAN,
                                        .lethality = 2.0 * BENCH_HOUR,
                                        .steam = 100.0,
                                        .vented = 20.0,
                                        .pressure_most = 50.0,
                                        .steam_least_in_hold = 0.001};
}

static inline void heat_bench_series(heat_bench *h, size_t n)
{
    for (size_t k = 0; k < HEAT_SAMPLES; k++) {
        h->time[k] = (double)k * BENCH_HOUR;
        h->demand[k] = 0.002;
        h->boiler_steam[k] = 0.003;
        h->boiler_pressure[k] = 2000.0;
        h->fuel[k] = 30e3;
        for (size_t i = 0; i < n; i++) {
            h->core[k * n + i] = BENCH_CELSIUS(fmin(10.0 + 16.0 * (double)k, 99.0));
            h->chamber[k * n + i] = BENCH_CELSIUS(fmin(10.0 + 60.0 * (double)k, 99.5));
            h->steam[k * n + i] = 0.002;
            h->pressure[k * n + i] = 20.0;
        }
    }
    h->result.series = (fv_series){.count = HEAT_SAMPLES,
                                   .time = h->time,
                                   .core = h->core,
                                   .chamber = h->chamber,
                                   .surface = h->surface,
                                   .vessel_steam = h->steam,
                                   .air_share = h->air,
                                   .vessel_pressure = h->pressure,
                                   .boiler_steam = h->boiler_steam,
                                   .boiler_pressure = h->boiler_pressure,
                                   .boiler_fuel = h->fuel,
                                   .demand = h->demand};
}

static inline void heat_bench_event(heat_bench *h, double hours, fv_heat_event_kind kind, int boiler, int vessel,
                                    int action)
{
    h->events[h->result.event_count++] = (fv_heat_event){hours * BENCH_HOUR, kind, boiler, vessel, action};
}

static inline heat_bench *heat_bench_new(size_t n, const char *pattern)
{
    heat_bench *h = calloc(1, sizeof *h);
    h->b = bench_new(n, pattern);
    h->boilers[0] = (fv_boiler_history){.steam_up = 600.0,
                                        .dry = (double)NAN,
                                        .steam = 400.0,
                                        .water = 400.0,
                                        .fuel = 3.6e8,
                                        .heat = 2.8e8,
                                        .pressure_most = 3000.0,
                                        .steam_most = 0.01};
    h->result = (fv_heat_result){.plant = h->b->plant,
                                 .end = 24.0 * BENCH_HOUR,
                                 .steam_end = 12.0 * BENCH_HOUR,
                                 .vessels = h->vessels,
                                 .boilers = h->boilers,
                                 .line_loss = h->line_loss,
                                 .line_condensate = h->line_condensate,
                                 .events = h->events,
                                 .split = {.load = 1e8, .vented = 1.2e8, .flue = 8e7},
                                 .split_steaming = {.load = 2e8, .vented = 1e8, .flue = 1e8},
                                 .boiling_point = BENCH_CELSIUS(99.5),
                                 .vessel_count = n,
                                 .boiler_count = 1,
                                 .line_count = 2 * n,
                                 .at_first_steam = &h->b->state};
    fv_heat_defaults(&h->result.options);
    for (size_t i = 0; i < n; i++)
        heat_bench_vessel(h, i);
    heat_bench_series(h, n);
    heat_bench_event(h, 1.0 / 6.0, FV_HEAT_EVENT_STEAM_UP, 0, -1, -1);
    for (size_t i = 0; i < n; i++)
        heat_bench_event(h, 0.25, FV_HEAT_EVENT_STEAM_ON, -1, (int)i, -1);
    return h;
}

static inline void heat_bench_free(heat_bench *h)
{
    bench_free(h->b);
    free(h);
}

/* The report as text, from 06:00 on unless `clock` is NaN; free it. */
static inline char *heat_bench_report(const heat_bench *h, fv_report_format format, fv_unit_system units,
                                      const char *table, double clock)
{
    fv_report_options options = {.format = format, .units = units, .table = table, .clock = clock};
    fv_text out = {0};
    assert_int_equal(fv_report_heat(&h->result, NULL, &options, &out), FV_OK);
    return out.text;
}

#endif
