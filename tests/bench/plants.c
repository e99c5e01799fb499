/* SPDX-License-Identifier: MIT */
#include "bench.h"

#include <klu.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const fv_loc HERE = {"bench", 0};

double bench_now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

double bench_time(void (*call)(void *), void *context)
{
    enum { BATCHES = 5 };
    long count = 1;
    double best = 0;
    for (int batch = 0; batch < BATCHES;) {
        const double begin = bench_now();
        for (long i = 0; i < count; i++)
            call(context);
        const double took = bench_now() - begin;
        if (took < 0.02 && count < 1L << 30) {
            count *= took < 0.002 ? 8 : 2;
            continue;
        }
        const double each = took / (double)count;
        best = batch == 0 || each < best ? each : best;
        batch++;
    }
    return best;
}

/* 0..1, the same on every machine: multiples of the golden ratio. */
static double vary(int i)
{
    const double x = 0.6180339887498949 * (i + 1);
    return x - (double)(long)x;
}

static bool add_line(fv_plant *plant, fv_line_kind kind, const char *from, const char *to, double length, double bore)
{
    fv_line *line = fv_plant_add_line(plant, kind, fv_arena_printf(plant->arena, "l%zu", plant->line_count), HERE);
    if (!line || !from || !to)
        return false;
    line->from = from;
    line->to = to;
    line->length = fv_given(length);
    line->bore = fv_given(bore);
    return true;
}

static bool add_boiler(fv_plant *plant, const char *at, double output)
{
    fv_boiler *boiler = fv_plant_add_boiler(plant, fv_arena_printf(plant->arena, "b%zu", plant->boiler_count), HERE);
    if (!boiler)
        return false;
    boiler->at = at;
    boiler->output = fv_given(output);
    boiler->holds = fv_given(3e4);
    boiler->relief = fv_given(5e4);
    return true;
}

static bool add_vessel(fv_plant *plant, const char *joint, int i)
{
    fv_vessel *v = fv_plant_add_vessel(plant, fv_arena_printf(plant->arena, "v%d", i), false, HERE);
    fv_opening *drain = v ? fv_vessel_add_opening(plant, v, FV_OPENING_DRAIN, HERE) : NULL;
    char *inlet = fv_arena_printf(plant->arena, "c%d", i);
    if (!drain || !inlet)
        return false;
    v->at = inlet;
    v->volume = fv_given(0.4);
    v->within = fv_given(12 * 3600.0);
    v->target = fv_given(273.15 + 82);
    v->coil.bore = fv_given(0.021);
    v->coil.length = fv_given(1.2);
    v->coil.holes = fv_given(12);
    v->coil.drill = fv_given(0.003);
    v->load.a = v->load.b = fv_given(0.10);
    v->load.c = fv_given(0.20);
    v->load.mass = fv_given(120);
    v->load.count = fv_given(80);
    drain->diameter = fv_given(0.03);
    return add_line(plant, FV_LINE_HOSE, joint, inlet, 2 + 8 * vary(i), 0.019);
}

static const char *joint(fv_plant *plant, char rail, int i)
{
    return fv_arena_printf(plant->arena, "%c%d", rail, i);
}

/* Up to ten vessels: a header of 2 m from vessel to vessel; as a ladder, two of them with rungs. */
static bool small(fv_plant *plant, bench_shape shape, int vessels)
{
    bool good = add_boiler(plant, joint(plant, 'a', 0), 1500.0 * vessels);
    for (int i = 0; good && i < vessels; i++) {
        const char rail = shape == BENCH_LADDER && i % 2 ? 'b' : 'a';
        const int step = shape == BENCH_LADDER ? i / 2 : i;
        good = add_vessel(plant, joint(plant, rail, step), i);
        if (good && step > 0)
            good = add_line(plant, FV_LINE_HEADER, joint(plant, rail, step - 1), joint(plant, rail, step), 2, 0.04);
        if (good && rail == 'b')
            good = add_line(plant, FV_LINE_HEADER, joint(plant, 'a', step), joint(plant, 'b', step), 1 + vary(i), 0.04);
    }
    return good;
}

static bool tens(fv_plant *plant, bench_shape shape, int vessels)
{
    enum { TEN = 10, BRANCHES = 4 };
    bool good = true;
    for (int k = 0; good && k < vessels / TEN; k++) {
        const char *a = joint(plant, 'a', k), *b = joint(plant, 'b', k);
        good = a && b && add_boiler(plant, a, 15000);
        for (int i = 0; good && i < TEN; i++)
            good = add_vessel(plant, shape == BENCH_LADDER && i % 2 ? b : a, TEN * k + i);
        if (good && k > 0)
            good = add_line(plant, FV_LINE_HEADER, joint(plant, 'a', shape == BENCH_TREE ? (k - 1) / BRANCHES : k - 1),
                            a, 3 + 4 * vary(k), 0.05);
        if (good && shape == BENCH_LADDER && k > 0)
            good = add_line(plant, FV_LINE_HEADER, joint(plant, 'b', k - 1), b, 3 + 4 * vary(3 * k + 1), 0.05);
        if (good && shape == BENCH_LADDER)
            good = add_line(plant, FV_LINE_HEADER, a, b, 1 + vary(7 * k + 2), 0.05);
    }
    return good;
}

fv_plant *bench_plant(bench_shape shape, int vessels, fv_faults *faults)
{
    fv_plant *plant = fv_plant_new("bench");
    if (plant && (vessels <= 10 ? small(plant, shape, vessels) : tens(plant, shape, vessels)) &&
        fv_plant_link(plant, faults) != FV_FAIL)
        return plant;
    fv_plant_free(plant);
    return NULL;
}

bool bench_open(bench_case *c, fv_plant *plant, fv_faults *faults)
{
    *c = (bench_case){.plant = plant, .faults = faults, .sat = fv_sat_line()};
    c->net = plant ? fv_network_new(plant, c->sat, faults) : NULL;
    c->solver = c->net ? fv_solver_new(c->net) : NULL;
    c->result = c->net ? fv_steady_result_new(c->net) : NULL;
    c->fire = plant ? calloc(plant->boiler_count + 1, sizeof *c->fire) : NULL;
    c->chambers = plant ? calloc(plant->vessel_count + 1, sizeof *c->chambers) : NULL; /* cold: they take all */
    for (size_t i = 0; i < fv_faults_count(faults) && i < 3; i++)
        if (!fv_faults_at(faults, i)->caution)
            fprintf(stderr, "%s\n", fv_faults_at(faults, i)->text);
    if (!c->solver || !c->result || !c->fire || !c->chambers)
        return false;
    for (size_t i = 0; i < plant->boiler_count; i++)
        c->fire[i] = 1;
    c->conditions = (fv_conditions){.t_air = plant->site.air.v, .fire = c->fire, .chambers = c->chambers};
    return true;
}

void bench_close(bench_case *c)
{
    fv_steady_result_free(c->result);
    fv_solver_free(c->solver);
    fv_network_free(c->net);
    fv_plant_free(c->plant);
    fv_faults_free(c->faults);
    free(c->fire);
    free(c->chambers);
    *c = (bench_case){0};
}

typedef struct {
    int row, col;
    size_t stamp;
} entry;

static int by_column(const void *a, const void *b)
{
    const entry *x = a, *y = b;
    if (x->col != y->col)
        return x->col < y->col ? -1 : 1;
    return (x->row > y->row) - (x->row < y->row);
}

bool bench_matrix_of(const bench_case *c, bench_matrix *m)
{
    steady_stamps stamps = {.record = true};
    const fv_solver *s = c->solver;
    steady_assemble(s, s->state.x, s->work.residual, &stamps);
    *m = (bench_matrix){.n = s->net->unknown_count, .entries = stamps.count};
    entry *list = malloc((stamps.count + 1) * sizeof *list);
    m->starts = calloc((size_t)m->n + 1, sizeof(int));
    m->rows = malloc((stamps.count + 1) * sizeof(int));
    m->place = malloc((stamps.count + 1) * sizeof(size_t));
    m->values = malloc((stamps.count + 1) * sizeof(double));
    const bool good = !stamps.failed && list && m->starts && m->rows && m->place && m->values;
    for (size_t i = 0; good && i < stamps.count; i++)
        list[i] = (entry){stamps.rows[i], stamps.cols[i], i};
    if (good)
        qsort(list, stamps.count, sizeof *list, by_column);
    for (size_t i = 0; good && i < stamps.count; i++) {
        if (i == 0 || list[i].row != list[i - 1].row || list[i].col != list[i - 1].col) {
            m->rows[m->nonzeros++] = list[i].row;
            m->starts[list[i].col + 1] = (int)m->nonzeros;
        }
        m->place[list[i].stamp] = m->nonzeros - 1;
    }
    for (int i = 0; good && i < m->n; i++)
        if (m->starts[i + 1] < m->starts[i])
            m->starts[i + 1] = m->starts[i];
    if (good)
        bench_matrix_take(m, stamps.values, m->values);
    free(list);
    free(stamps.values);
    free(stamps.rows);
    free(stamps.cols);
    return good;
}

void bench_matrix_take(const bench_matrix *m, const double *stamps, double *values)
{
    memset(values, 0, m->nonzeros * sizeof(double));
    for (size_t i = 0; i < m->entries; i++)
        values[m->place[i]] += stamps[i];
}

void bench_matrix_free(bench_matrix *m)
{
    free(m->starts);
    free(m->rows);
    free(m->place);
    free(m->values);
}

typedef struct {
    const bench_matrix *m;
    klu_symbolic *symbolic;
    klu_numeric *numeric;
    klu_common common;
    double *right;
} klu_case;

static void refactor_and_solve(void *context)
{
    klu_case *k = context;
    klu_refactor(k->m->starts, k->m->rows, k->m->values, k->symbolic, k->numeric, &k->common);
    for (int i = 0; i < k->m->n; i++)
        k->right[i] = 1;
    klu_solve(k->symbolic, k->numeric, k->m->n, 1, k->right, &k->common);
}

double bench_klu(const bench_matrix *m)
{
    klu_case k = {.m = m};
    double took = -1;
    klu_defaults(&k.common);
    k.symbolic = klu_analyze(m->n, m->starts, m->rows, &k.common);
    k.numeric = k.symbolic ? klu_factor(m->starts, m->rows, m->values, k.symbolic, &k.common) : NULL;
    k.right = malloc((size_t)m->n * sizeof(double));
    if (k.numeric && k.right)
        took = bench_time(refactor_and_solve, &k);
    free(k.right);
    klu_free_numeric(&k.numeric, &k.common);
    klu_free_symbolic(&k.symbolic, &k.common);
    return took;
}
