/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share: plants built in a few calls, solved at chosen conditions, and rows of checks. */
#ifndef TESTS_STEADY_PLANTS_H
#define TESTS_STEADY_PLANTS_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "farvessel/steady.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PI 3.14159265358979324
#define GRAVITY 9.80665
#define SEA 101325.0

static const fv_loc HERE = {"plant.xml", 1};

/* Area of a bore. */
static inline double circle(double d)
{
    return 0.25 * PI * d * d;
}

static inline void name_of(char *text, size_t size, const char *stem, int i)
{
    snprintf(text, size, "%s%d", stem, i);
}

/* A plant with all that one solve of it needs. */
typedef struct {
    fv_plant *plant;
    fv_faults *faults;
    const fv_sat *sat;
    fv_network *net;
    fv_solver *solver;
    fv_steady_result *result;
    double *fire;
    fv_chamber *chambers;
} bench;

static inline void bench_open(bench *b)
{
    *b = (bench){.plant = fv_plant_new("plant.xml"), .faults = fv_faults_new(), .sat = fv_sat_line()};
    assert_non_null(b->plant);
    assert_non_null(b->faults);
    b->plant->site.air = fv_given(278.15);
    b->plant->site.wind = fv_given(1.0);
    b->plant->site.tees = fv_given(FV_TEES_NONE);
}

static inline fv_boiler *add_boiler(bench *b, const char *id, const char *at, double output, double holds)
{
    fv_boiler *boiler = fv_plant_add_boiler(b->plant, fv_arena_copy(b->plant->arena, id), HERE);
    boiler->at = fv_arena_copy(b->plant->arena, at);
    boiler->output = fv_given(output);
    boiler->holds = fv_given(holds);
    boiler->relief = fv_given(200000.0);
    boiler->loss = fv_given(0.0);
    boiler->dryness = fv_given(1.0);
    return boiler;
}

static inline fv_line *add_line(bench *b, fv_line_kind kind, const char *id, const char *from, const char *to,
                                double length, double bore)
{
    fv_line *line = fv_plant_add_line(b->plant, kind, fv_arena_copy(b->plant->arena, id), HERE);
    line->from = fv_arena_copy(b->plant->arena, from);
    line->to = fv_arena_copy(b->plant->arena, to);
    line->length = fv_given(length);
    line->bore = fv_given(bore);
    return line;
}

static inline fv_vessel *add_vessel(bench *b, const char *id, const char *at, double holes, double drill)
{
    fv_vessel *v = fv_plant_add_vessel(b->plant, fv_arena_copy(b->plant->arena, id), false, HERE);
    v->at = fv_arena_copy(b->plant->arena, at);
    v->coil.bore = fv_given(0.022);
    v->coil.length = fv_given(1.2);
    v->coil.holes = fv_given(holes);
    v->coil.drill = fv_given(drill);
    v->load.a = v->load.b = fv_given(0.13);
    v->load.c = fv_given(0.2);
    v->load.count = fv_given(50.0);
    fv_opening *vent = fv_vessel_add_opening(b->plant, v, FV_OPENING_VENT, HERE);
    vent->diameter = fv_given(0.05);
    return v;
}

static inline void say_faults(const bench *b)
{
    for (size_t i = 0; i < fv_faults_count(b->faults); i++)
        if (!fv_faults_at(b->faults, i)->caution)
            printf("fault: %s\n", fv_faults_at(b->faults, i)->text);
}

/* Links, compiles, and sets every fire to the boiler's own and every chamber to cold at no pressure. */
static inline void bench_link(bench *b)
{
    if (fv_plant_link(b->plant, b->faults) == FV_FAIL) {
        say_faults(b);
        fail_msg("the plant is refused");
    }
    b->net = fv_network_new(b->plant, b->sat, b->faults);
    if (!b->net)
        say_faults(b);
    assert_non_null(b->net);
    b->solver = fv_solver_new(b->net);
    b->result = fv_steady_result_new(b->net);
    b->fire = calloc(b->plant->boiler_count + 1, sizeof *b->fire);
    b->chambers = calloc(b->plant->vessel_count + 1, sizeof *b->chambers);
    assert_true(b->solver && b->result && b->fire && b->chambers);
    for (size_t i = 0; i < b->plant->boiler_count; i++)
        b->fire[i] = b->plant->boilers[i]->fire.v;
    for (size_t i = 0; i < b->plant->vessel_count; i++)
        b->chambers[i] =
            (fv_chamber){.kind = FV_CHAMBER_COLD, .gain = 1, .water = fv_or(b->plant->vessels[i]->water, 0)};
}

static inline fv_status bench_solve_any(bench *b)
{
    const fv_conditions conditions = {
        .t_air = b->plant->site.air.v, .wind = b->plant->site.wind.v, .fire = b->fire, .chambers = b->chambers};
    return fv_solve(b->solver, &conditions, b->result, b->faults);
}

static inline void bench_solve(bench *b)
{
    if (bench_solve_any(b) == FV_FAIL) {
        say_faults(b);
        fail_msg("no solution after %d steps", b->result->audit.iterations);
    }
    assert_true(b->result->audit.mass_relative < 1e-9);
    assert_true(b->result->audit.energy_relative < 1e-9);
}

static inline void bench_close(bench *b)
{
    fv_steady_result_free(b->result);
    fv_solver_free(b->solver);
    fv_network_free(b->net);
    fv_plant_free(b->plant);
    fv_faults_free(b->faults);
    free(b->fire);
    free(b->chambers);
}

/* A repeatable number in 0..1. */
static inline double next_random(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (double)(*state >> 11) / 9007199254740992.0;
}

static inline double between(uint64_t *state, double low, double high)
{
    return low + (high - low) * next_random(state);
}

/* Evenly spread in the logarithm. */
static inline double scaled(uint64_t *state, double low, double high)
{
    return low * pow(high / low, next_random(state));
}

/* Prints the row and fails the test when got is off by more than `tolerance`, relative (absolute where expected is 0).
 */
static inline void check_row(const char *what, double expected, double got, double tolerance, const char *source)
{
    const double dev = expected != 0.0 ? got / expected - 1.0 : got;
    printf("check | %s | %.9g | got %.9g | dev %+.2e | %s\n", what, expected, got, dev, source);
    if (!(fabs(dev) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

#endif
