/* SPDX-License-Identifier: MIT */
/* Side by side on the very same residual function (steady_assemble) and the same first guess: GSL's hybrid method with
 * dense algebra, KINSOL with KLU, and ours. The others are given what travels with the steam as it is at the end, which
 * ours has to find on the way; scales of unknowns and equations are those of ours. */
#include "bench.h"
#include "steady/newton.h"

#include <gsl/gsl_multiroots.h>
#include <kinsol/kinsol.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

typedef struct {
    bench_case *c;
    bench_matrix matrix;
    int n;
    double *start, *root, *x, *scale; /* scale: of each unknown */
    steady_stamps stamps;
} problem;

static double farthest(const problem *p, const double *x)
{
    double most = 0;
    for (int i = 0; i < p->n; i++)
        most = fmax(most, fabs(x[i] - p->root[i]) / p->scale[i]);
    return most;
}

static bool open_problem(problem *p, bench_case *c)
{
    fv_solver *s = c->solver;
    *p = (problem){.c = c, .n = s->net->unknown_count};
    const size_t n = (size_t)p->n;
    p->start = malloc(n * sizeof(double));
    p->root = malloc(n * sizeof(double));
    p->x = malloc(n * sizeof(double));
    p->scale = malloc(n * sizeof(double));
    if (!p->start || !p->root || !p->x || !p->scale || fv_solve(s, &c->conditions, c->result, c->faults) == FV_FAIL)
        return false;
    memcpy(p->root, s->state.x, n * sizeof(double));
    steady_start_guess(s);
    memcpy(p->start, s->state.x, n * sizeof(double));
    fv_solver_forget(s); /* and back to what travels at the end */
    if (fv_solve(s, &c->conditions, c->result, c->faults) == FV_FAIL)
        return false;
    steady_scale_rows(s);
    for (int i = 0; i < p->n; i++)
        p->scale[i] = s->net->measure[i] == STEADY_A_PRESSURE ? fmax(fabs(p->root[i]), 1)
                      : s->net->measure[i] == STEADY_A_FLOW   ? s->given.steam_scale
                                                              : 1;
    if (!bench_matrix_of(c, &p->matrix))
        return false;
    p->stamps =
        (steady_stamps){.values = malloc((p->matrix.entries + 1) * sizeof(double)), .capacity = p->matrix.entries};
    return p->stamps.values != NULL;
}

static void close_problem(problem *p)
{
    free(p->start);
    free(p->root);
    free(p->x);
    free(p->scale);
    free(p->stamps.values);
    bench_matrix_free(&p->matrix);
}

/* ---- GSL ---- */
static int gsl_both(const gsl_vector *x, void *context, gsl_vector *f, gsl_matrix *jacobian)
{
    problem *p = context;
    const fv_solver *s = p->c->solver;
    for (int i = 0; i < p->n; i++)
        p->x[i] = gsl_vector_get(x, (size_t)i) * p->scale[i];
    p->stamps.count = 0;
    steady_assemble(s, p->x, s->work.residual, jacobian ? &p->stamps : NULL);
    for (int i = 0; f && i < p->n; i++)
        gsl_vector_set(f, (size_t)i, s->work.residual[i] * s->work.row_scale[i]);
    if (jacobian) {
        const bench_matrix *m = &p->matrix;
        bench_matrix_take(m, p->stamps.values, m->values);
        gsl_matrix_set_zero(jacobian);
        for (int c = 0; c < p->n; c++)
            for (int k = m->starts[c]; k < m->starts[c + 1]; k++)
                gsl_matrix_set(jacobian, (size_t)m->rows[k], (size_t)c,
                               m->values[k] * s->work.row_scale[m->rows[k]] * p->scale[c]);
    }
    return GSL_SUCCESS;
}
static int gsl_f(const gsl_vector *x, void *context, gsl_vector *f)
{
    return gsl_both(x, context, f, NULL);
}
static int gsl_df(const gsl_vector *x, void *context, gsl_matrix *jacobian)
{
    return gsl_both(x, context, NULL, jacobian);
}

/* Seconds; *off: farthest from the root, in scales; *steps. */
static double with_gsl(problem *p, double *off, long *steps)
{
    enum { MOST = 2000 };
    gsl_multiroot_function_fdf function = {gsl_f, gsl_df, gsl_both, (size_t)p->n, p};
    const double begin = bench_now();
    gsl_multiroot_fdfsolver *solver = gsl_multiroot_fdfsolver_alloc(gsl_multiroot_fdfsolver_hybridsj, (size_t)p->n);
    gsl_vector *x = gsl_vector_alloc((size_t)p->n);
    for (int i = 0; i < p->n; i++)
        gsl_vector_set(x, (size_t)i, p->start[i] / p->scale[i]);
    gsl_multiroot_fdfsolver_set(solver, &function, x);
    int status = GSL_CONTINUE;
    for (*steps = 0; status == GSL_CONTINUE && *steps < MOST; (*steps)++) {
        if (gsl_multiroot_fdfsolver_iterate(solver) != GSL_SUCCESS)
            break;
        status = gsl_multiroot_test_residual(solver->f, 1e-9);
    }
    const double took = bench_now() - begin;
    for (int i = 0; i < p->n; i++)
        p->x[i] = gsl_vector_get(solver->state.x, (size_t)i) * p->scale[i];
    *off = farthest(p, p->x);
    gsl_vector_free(x);
    gsl_multiroot_fdfsolver_free(solver);
    return took;
}

/* ---- KINSOL ---- */
static int kinsol_f(N_Vector x, N_Vector f, void *context)
{
    problem *p = context;
    steady_assemble(p->c->solver, N_VGetArrayPointer(x), N_VGetArrayPointer(f), NULL);
    return 0;
}

static int kinsol_jacobian(N_Vector x, N_Vector f, SUNMatrix jacobian, void *context, N_Vector t1, N_Vector t2)
{
    (void)f, (void)t1, (void)t2;
    problem *p = context;
    const bench_matrix *m = &p->matrix;
    p->stamps.count = 0;
    steady_assemble(p->c->solver, N_VGetArrayPointer(x), p->c->solver->work.residual, &p->stamps);
    bench_matrix_take(m, p->stamps.values, SUNSparseMatrix_Data(jacobian));
    sunindextype *starts = SUNSparseMatrix_IndexPointers(jacobian), *rows = SUNSparseMatrix_IndexValues(jacobian);
    for (int i = 0; i <= p->n; i++)
        starts[i] = m->starts[i];
    for (size_t i = 0; i < m->nonzeros; i++)
        rows[i] = m->rows[i];
    return 0;
}

/* setup: iterations for which a factorisation is kept; 1 is Newton's method, 10 KINSOL's default. */
static double with_kinsol(problem *p, int strategy, long setup, double *off, long *steps)
{
    SUNContext context = NULL;
    SUNContext_Create(NULL, &context);
    const double begin = bench_now();
    N_Vector x = N_VNew_Serial(p->n, context), by_x = N_VClone(x), by_f = N_VClone(x);
    SUNMatrix jacobian = SUNSparseMatrix(p->n, p->n, (sunindextype)p->matrix.nonzeros, CSC_MAT, context);
    SUNLinearSolver linear = SUNLinSol_KLU(x, jacobian, context);
    void *memory = KINCreate(context);
    for (int i = 0; i < p->n; i++) {
        N_VGetArrayPointer(x)[i] = p->start[i];
        N_VGetArrayPointer(by_x)[i] = 1 / p->scale[i];
        N_VGetArrayPointer(by_f)[i] = p->c->solver->work.row_scale[i];
    }
    KINSetErrFile(memory, NULL);
    KINInit(memory, kinsol_f, x);
    KINSetUserData(memory, p);
    KINSetLinearSolver(memory, linear, jacobian);
    KINSetJacFn(memory, kinsol_jacobian);
    KINSetMaxSetupCalls(memory, setup);
    KINSetNumMaxIters(memory, 500);
    KINSetFuncNormTol(memory, 1e-9);
    KINSetScaledStepTol(memory, 1e-14);
    KINSetMaxNewtonStep(memory, 1e6);
    KINSol(memory, x, strategy, by_x, by_f);
    const double took = bench_now() - begin;
    KINGetNumNonlinSolvIters(memory, steps);
    *off = farthest(p, N_VGetArrayPointer(x));
    KINFree(&memory);
    SUNLinSolFree(linear);
    SUNMatDestroy(jacobian);
    N_VDestroy(x);
    N_VDestroy(by_x);
    N_VDestroy(by_f);
    SUNContext_Free(&context);
    return took;
}

/* ---- the same task with our matrix code: Newton with full steps ---- */
static double with_ours(problem *p, double *off, long *steps)
{
    enum { MOST = 60 };
    fv_solver *s = p->c->solver;
    const double begin = bench_now();
    memcpy(p->x, p->start, (size_t)p->n * sizeof(double));
    double size = 1;
    for (*steps = 0; size > 1e-9 && *steps < MOST; (*steps)++) {
        int singular;
        p->stamps.count = 0;
        steady_assemble(s, p->x, s->work.residual, &p->stamps);
        if (num_sparse_factor(s->work.sparse, p->stamps.values, &singular) != FV_OK)
            break;
        num_sparse_solve(s->work.sparse, s->work.residual);
        size = 0;
        for (int i = 0; i < p->n; i++) {
            p->x[i] -= s->work.residual[i];
            size = fmax(size, fabs(s->work.residual[i]) / p->scale[i]);
        }
    }
    const double took = bench_now() - begin;
    *off = farthest(p, p->x);
    return took;
}

static double best_kinsol(problem *p, double *off, long *steps, const char **how)
{
    static const struct {
        int strategy;
        long setup;
        const char *name;
    } ways[] = {{KIN_LINESEARCH, 1, "line search, Newton"},
                {KIN_LINESEARCH, 10, "line search, kept factors"},
                {KIN_NONE, 1, "plain, Newton"},
                {KIN_NONE, 10, "plain, kept factors"}};
    double best = INFINITY;
    for (int turn = 0; turn < 3; turn++)
        for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
            double far;
            long count;
            const double took = with_kinsol(p, ways[i].strategy, ways[i].setup, &far, &count);
            if (far < 1e-6 && took < best) {
                best = took;
                *off = far;
                *steps = count;
                *how = ways[i].name;
            }
        }
    return best;
}

/* False: ours finds no solution. */
static bool one(bench_shape shape, bool losses, int vessels, bool dense)
{
    static const char *const names[2][2] = {{"tree that loses no heat", "ladder that loses no heat"},
                                            {"tree", "ladder"}};
    const char *name = names[losses][shape == BENCH_LADDER];
    bench_case c;
    problem p = {0};
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = bench_plant(shape, vessels, faults);
    for (size_t i = 0; plant && !losses && i < plant->line_count; i++)
        plant->lines[i]->heat_loss = fv_given(0);
    const bool solved = bench_open(&c, plant, faults) && open_problem(&p, &c);
    if (solved) {
        double ours = INFINITY, off = NAN, off_gsl = NAN, gsl = NAN, same = INFINITY, off_same = NAN;
        long steps = 0, steps_gsl = 0, steps_same = 0;
        const char *how = "none of four ways arrives";
        for (int i = 0; i < 5; i++) {
            fv_solver_forget(c.solver);
            const double begin = bench_now();
            fv_solve(c.solver, &c.conditions, c.result, c.faults);
            ours = fmin(ours, bench_now() - begin);
        }
        const double kinsol = best_kinsol(&p, &off, &steps, &how);
        if (dense)
            gsl = with_gsl(&p, &off_gsl, &steps_gsl);
        for (int i = 0; i < 3; i++)
            same = fmin(same, with_ours(&p, &off_same, &steps_same));
        printf("| %s | %d | %d | %.3f ms, %d | ", name, vessels, p.n, ours * 1e3, c.result->audit.iterations);
        if (off_same < 1e-6)
            printf("%.3f ms, %ld | ", same * 1e3, steps_same);
        else
            printf("does not arrive | ");
        if (isfinite(kinsol))
            printf("%.3f ms, %ld (%s) | %.1f | %.1f | ", kinsol * 1e3, steps, how, kinsol / ours,
                   off_same < 1e-6 ? kinsol / same : (double)NAN);
        else
            printf("%s | | | ", how);
        if (!dense)
            printf("not tried | |\n");
        else if (off_gsl < 1e-6)
            printf("%.1f ms, %ld | %.0f |\n", gsl * 1e3, steps_gsl, gsl / ours);
        else
            printf("stalls after %.1f ms, %ld | over %.0f |\n", gsl * 1e3, steps_gsl, gsl / ours);
    } else {
        printf("| %s | %d | no solution | | | | | | |\n", name, vessels);
    }
    close_problem(&p);
    bench_close(&c);
    return solved;
}

void bench_rivals(void)
{
    gsl_set_error_handler_off();
    printf(
        "## Side by side\n\nOne cold solve on the same residual function from the same first guess, to 1e-9 of the "
        "scales. `ours`: all of `fv_solve`, which also finds enthalpy, water and heat losses along the lines and fills "
        "the result. The others are given these as they are at the end; so is `our matrix code`: Newton with full "
        "steps. KINSOL: the fastest that arrives of line search or plain, with Newton's method or kept factors. Times "
        "with iterations; wanted: KINSOL at least 2 times ours.\n\n| shape | vessels | unknowns | ours | our matrix "
        "code "
        "| KINSOL with KLU | KINSOL / ours | KINSOL / our matrix code | GSL hybridsj, dense | GSL / ours "
        "|\n|---|---|---|---|---|---|---|---|---|---|\n");
    static const int sizes[] = {2, 7, 20, 100, 1000, 10000};
    for (int kind = 0; kind < 4; kind++) {
        bool good = true; /* larger ones of a shape that failed would only take long */
        for (size_t i = kind < 2 ? 0 : 3; good && i < sizeof sizes / sizeof *sizes; i++)
            good = one(kind % 2 ? BENCH_LADDER : BENCH_TREE, kind < 2, sizes[i], sizes[i] <= 20);
    }
    printf("\n");
}
