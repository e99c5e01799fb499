/* SPDX-License-Identifier: MIT */
/* Shared by the parts of the bench. Each prints its own section in Markdown. */
#ifndef BENCH_H
#define BENCH_H

#include "farvessel/farvessel.h"
#include "steady/assembly.h"

/* Seconds of this thread's processor time. */
double bench_now(void);
/* Seconds for one call: repeated until a batch takes 20 ms, the least of five batches, which others disturb least. */
double bench_time(void (*call)(void *), void *context);

typedef enum { BENCH_TREE, BENCH_LADDER } bench_shape;
/* Vessels in tens, ten to a boiler of 15 kW; the tens joined as a tree of headers, or as a ladder whose rails and rungs
 * close a loop for every ten. Lengths of hoses and headers vary, so that no two vessels are alike. Up to ten vessels:
 * one boiler on one header. NULL: out of memory. */
fv_plant *bench_plant(bench_shape shape, int vessels, fv_faults *faults);

/* A plant ready for solving, all its vessels heating. */
typedef struct {
    fv_plant *plant;
    const fv_sat *sat;
    fv_network *net;
    fv_solver *solver;
    fv_steady_result *result;
    double *fire;
    fv_chamber *chambers;
    fv_conditions conditions;
    fv_faults *faults;
} bench_case;
bool bench_open(bench_case *c, fv_plant *plant, fv_faults *faults); /* takes over both; false: faults printed */
void bench_close(bench_case *c);

/* The Jacobian of a case in compressed columns, at its last solution. */
typedef struct {
    int n;
    int *starts, *rows;
    size_t *place; /* of each stamp */
    size_t entries, nonzeros;
    double *values;
} bench_matrix;
bool bench_matrix_of(const bench_case *c, bench_matrix *m);
void bench_matrix_take(const bench_matrix *m, const double *stamps, double *values);
void bench_matrix_free(bench_matrix *m);
/* Seconds for one klu_refactor and one klu_solve. */
double bench_klu(const bench_matrix *m);

void bench_steam(void);
void bench_moment(const char *program);
void bench_growth(void);
void bench_rivals(void);
void bench_run(const char *program);

#endif
