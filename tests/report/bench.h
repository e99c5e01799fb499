/* SPDX-License-Identifier: MIT */
/* A plant of n vessels with a flow answer filled in by hand: the report is tested without any solver. */
#ifndef TESTS_REPORT_BENCH_H
#define TESTS_REPORT_BENCH_H

#include "farvessel/report.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { BENCH_MOST = 60, BENCH_SETTINGS = 5 };

typedef struct {
    fv_plant *plant;
    fv_flow_answer answer;
    fv_steady_result state, low[BENCH_SETTINGS];
    fv_turndown_row turndown[BENCH_SETTINGS];
    fv_boiler_result boilers[1];
    fv_node_result nodes[2 * BENCH_MOST + 1];
    fv_line_result lines[2 * BENCH_MOST];
    fv_vessel_result vessels[BENCH_MOST], low_vessels[BENCH_SETTINGS][BENCH_MOST];
    fv_hole_result holes[2 * BENCH_MOST];
} bench;

/* Header h1.. from t0, hose s1.. to each vessel; ids from the pattern, as "bin%zu". */
static inline void bench_parts(bench *b, size_t n, const char *pattern)
{
    fv_loc loc = {"bench.xml", 1};
    fv_arena *arena = b->plant->arena;
    fv_boiler *boiler = fv_plant_add_boiler(b->plant, "boiler", loc);
    boiler->at = "t0";
    boiler->output = fv_given(24e3);
    boiler->relief = fv_given(5e4);
    for (size_t i = 0; i < n; i++) {
        fv_line *header = fv_plant_add_line(b->plant, FV_LINE_HEADER, fv_arena_printf(arena, "h%zu", i + 1), loc);
        fv_line *hose = fv_plant_add_line(b->plant, FV_LINE_HOSE, fv_arena_printf(arena, "s%zu", i + 1), loc);
        char name[128];
        snprintf(name, sizeof name, pattern, i + 1);
        fv_vessel *vessel = fv_plant_add_vessel(b->plant, fv_arena_copy(arena, name), false, loc);
        header->from = fv_arena_printf(arena, "t%zu", i);
        header->to = hose->from = fv_arena_printf(arena, "t%zu", i + 1);
        hose->to = vessel->at = fv_arena_printf(arena, "c%zu", i + 1);
        header->length = hose->length = fv_given(3.0);
        header->bore = hose->bore = fv_given(0.025);
        vessel->coil.bore = fv_given(0.025);
        vessel->coil.length = fv_given(2.0);
        vessel->coil.holes = fv_given(2.0);
        vessel->coil.drill = fv_given(0.004);
        fv_vessel_add_opening(b->plant, vessel, FV_OPENING_VENT, loc)->diameter = fv_given(0.03);
    }
}

/* Each vessel: 6 kW for a need of 4 kW. */
static inline void bench_results(bench *b, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        b->vessels[i] = (fv_vessel_result){.steam = 0.0027,
                                           .share = 1.0 / (double)n,
                                           .heat = 6000.0,
                                           .need = 4000.0,
                                           .verdict = FV_FED,
                                           .coil_pressure = 1234.0,
                                           .evenness = 0.95,
                                           .coil_velocity = 9.0,
                                           .area_ratio = 0.4,
                                           .hole_drop = 1000.0,
                                           .coil_change = 20.0,
                                           .first_hole = 2 * i,
                                           .hole_count = 2};
        b->lines[2 * i] = b->lines[2 * i + 1] =
            (fv_line_result){.flow_from = 0.003, .flow_to = 0.0027, .drop = 150.0, .velocity = 12.0, .quality = 1.0};
        b->holes[2 * i] = b->holes[2 * i + 1] = (fv_hole_result){.diameter = 0.004, .flow = 0.00135, .cd = 0.7};
        for (size_t s = 0; s < BENCH_SETTINGS; s++)
            b->low_vessels[s][i] = b->vessels[i];
    }
    b->boilers[0] = (fv_boiler_result){.state = FV_BOILER_FULL,
                                       .steam = 0.0092,
                                       .most = 0.0092,
                                       .pressure = 2000.0,
                                       .heat = 24e3,
                                       .fuel = (double)NAN,
                                       .enthalpy = 2.68e6};
    b->state = (fv_steady_result){.boilers = b->boilers,
                                  .nodes = b->nodes,
                                  .lines = b->lines,
                                  .vessels = b->vessels,
                                  .holes = b->holes,
                                  .boiler_count = 1,
                                  .node_count = b->plant->node_count,
                                  .line_count = 2 * n,
                                  .vessel_count = n,
                                  .hole_count = 2 * n,
                                  .site_pressure = 99900.0,
                                  .boiling_point = 372.7,
                                  .t_air = 278.15,
                                  .wind = 2.0,
                                  .audit = {.heat_total = 24e3, .steam_total = 0.0092, .converged = true}};
}

static inline bench *bench_new(size_t n, const char *pattern)
{
    static const double fires[BENCH_SETTINGS] = {1.0, 0.75, 0.5, 0.35, 0.25};
    bench *b = calloc(1, sizeof *b);
    fv_faults *faults = fv_faults_new();
    b->plant = fv_plant_new("bench.xml");
    bench_parts(b, n, pattern);
    assert_int_not_equal(fv_plant_link(b->plant, faults), FV_FAIL);
    fv_faults_free(faults);
    bench_results(b, n);
    for (size_t s = 0; s < BENCH_SETTINGS; s++) {
        b->low[s] = b->state;
        b->low[s].vessels = b->low_vessels[s];
        b->turndown[s] = (fv_turndown_row){.fire = fires[s], .state = &b->low[s]};
    }
    b->answer = (fv_flow_answer){.plant = b->plant,
                                 .state = &b->state,
                                 .turndown = b->turndown,
                                 .turndown_count = BENCH_SETTINGS,
                                 .dropout_fire = (double)NAN,
                                 .dropout_vessel = -1};
    fv_flow_defaults(&b->answer.options);
    return b;
}

static inline void bench_free(bench *b)
{
    fv_plant_free(b->plant);
    free(b);
}

/* The report as text; free it. */
static inline char *bench_report(const bench *b, fv_report_format format, fv_unit_system units, const char *table)
{
    fv_report_options options = {.format = format, .units = units, .table = table};
    fv_text out = {0};
    assert_int_equal(fv_report_flow(&b->answer, NULL, &options, &out), FV_OK);
    return out.text;
}

/* The longest line, in code points. */
static inline size_t widest(const char *text)
{
    size_t most = 0, now = 0;
    for (; *text; text++) {
        now = *text == '\n' ? 0 : now + (((unsigned char)*text & 0xC0u) != 0x80u);
        most = now > most ? now : most;
    }
    return most;
}

#endif
