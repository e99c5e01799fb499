/* SPDX-License-Identifier: MIT */
/* Sensitivity from a sample by regression on orthonormal polynomials. */
#include "num/quiet.h"
#include "num/sensitivity.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_sf_hermite.h>
#include <gsl/gsl_sf_legendre.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

/* A term: powers of one input, or of two. */
typedef struct {
    size_t input, other; /* other: `none` where there is one only */
    int degree;          /* of the first; of a product 1 */
} term;
static const size_t NONE = SIZE_MAX;

typedef struct {
    const num_regression *how;
    const double *x, *y;
    size_t n, inputs;
    term *terms;
    size_t count;
    double *coefficient; /* by term */
    double mean, variance, explained;
} regression;

static double polynomial(num_polynomials family, int degree, double x)
{
    gsl_sf_result r = {0, 0};
    if (family == NUM_HERMITE) {
        double factorial = 1;
        for (int k = 2; k <= degree; k++)
            factorial *= k;
        gsl_sf_hermite_prob_e(degree, x, &r);
        return r.val / sqrt(factorial);
    }
    gsl_sf_legendre_Pl_e(degree, 2 * x - 1, &r);
    return r.val * sqrt(2 * degree + 1);
}

static double term_at(const regression *g, const term *t, size_t k)
{
    const double *row = g->x + k * g->inputs;
    const double one = polynomial(g->how->family, t->degree, row[t->input]);
    return t->other == NONE ? one : one * polynomial(g->how->family, 1, row[t->other]);
}

/* Least squares by QR; explained: 1 - sum (r / (1 - h))^2 / sum (y - mean)^2, h the leverage (the diagonal of QQ'). */
static fv_status fit(regression *g)
{
    const size_t p = g->count + 1;
    if (g->n <= p)
        return FV_FAIL;
    gsl_matrix *a = gsl_matrix_alloc(g->n, p), *t = gsl_matrix_alloc(p, p), *r = gsl_matrix_alloc(p, p);
    gsl_matrix *q = gsl_matrix_alloc(g->n, g->n > 0 ? p : 1);
    gsl_vector *c = gsl_vector_alloc(p), *qy = gsl_vector_alloc(p);
    const bool room = a && t && r && q && c && qy;
    int bad = 0;
    double left = 0;
    if (room) {
        for (size_t k = 0; k < g->n; k++) {
            gsl_matrix_set(a, k, 0, 1);
            for (size_t j = 0; j < g->count; j++)
                gsl_matrix_set(a, k, j + 1, term_at(g, &g->terms[j], k));
        }
        /* R by Householder QR, then Q = A R^-1 thin. */
        gsl_matrix_memcpy(q, a);
        bad = gsl_linalg_QR_decomp_r(q, t);
        gsl_matrix_const_view upper = gsl_matrix_const_submatrix(q, 0, 0, p, p);
        gsl_matrix_memcpy(r, &upper.matrix);
        gsl_matrix_memcpy(q, a);
        for (size_t j = 0; j < p; j++)
            bad = bad || !(fabs(gsl_matrix_get(r, j, j)) > 1e-10 * sqrt((double)g->n));
    }
    if (room && !bad) {
        gsl_blas_dtrsm(CblasRight, CblasUpper, CblasNoTrans, CblasNonUnit, 1, r, q);
        gsl_vector_const_view y = gsl_vector_const_view_array(g->y, g->n);
        gsl_blas_dgemv(CblasTrans, 1, q, &y.vector, 0, qy);
        gsl_vector_memcpy(c, qy);
        gsl_blas_dtrsv(CblasUpper, CblasNoTrans, CblasNonUnit, r, c);
        for (size_t k = 0; k < g->n; k++) {
            double predicted = 0, leverage = 0;
            for (size_t j = 0; j < p; j++) {
                const double e = gsl_matrix_get(q, k, j);
                predicted += e * gsl_vector_get(qy, j);
                leverage += e * e;
            }
            left += pow((g->y[k] - predicted) / fmax(1e-9, 1 - leverage), 2);
        }
        for (size_t j = 0; j < g->count; j++)
            g->coefficient[j] = gsl_vector_get(c, j + 1);
        g->explained = 1 - left / ((double)(g->n - 1) * g->variance);
    }
    gsl_matrix_free(a);
    gsl_matrix_free(t);
    gsl_matrix_free(r);
    gsl_matrix_free(q);
    gsl_vector_free(c);
    gsl_vector_free(qy);
    return room && !bad ? FV_OK : FV_FAIL;
}

static void add_alone(regression *g)
{
    for (size_t i = 0; i < g->inputs; i++)
        for (size_t d = 1; d <= g->how->degree; d++)
            g->terms[g->count++] = (term){i, NONE, (int)d};
}

/* Terms that explain next to nothing only add scatter. */
static void drop_idle(regression *g)
{
    size_t kept = 0;
    for (size_t j = 0; j < g->count; j++)
        if (g->coefficient[j] * g->coefficient[j] > g->how->least_gain * g->variance)
            g->terms[kept++] = g->terms[j];
    g->count = kept;
}

static void add_shares(const regression *g, double *first, double *total)
{
    for (size_t i = 0; i < g->inputs; i++)
        first[i] = total[i] = 0;
    for (size_t j = 0; j < g->count; j++) {
        const double share = g->coefficient[j] * g->coefficient[j] / g->variance;
        const term *t = &g->terms[j];
        total[t->input] += share;
        if (t->other == NONE)
            first[t->input] += share;
        else
            total[t->other] += share;
    }
}

/* Products among the strongest inputs, each beside all terms that are there. */
static void add_pairs(regression *g, const double *total, size_t *order)
{
    const size_t most = g->how->pairs_of < g->inputs ? g->how->pairs_of : g->inputs;
    for (size_t i = 0; i < g->inputs; i++)
        order[i] = i;
    for (size_t i = 0; i < most; i++)
        for (size_t j = i + 1; j < g->inputs; j++)
            if (total[order[j]] > total[order[i]]) {
                const size_t kept = order[i];
                order[i] = order[j];
                order[j] = kept;
            }
    for (size_t i = 0; i < most; i++)
        for (size_t j = i + 1; j < most; j++)
            g->terms[g->count++] = (term){order[i], order[j], 1};
}

static fv_status regress(regression *g, double *first, double *total, double *explained)
{
    size_t *order = calloc(g->inputs + 1, sizeof *order);
    add_alone(g);
    fv_status status = order ? fit(g) : FV_FAIL;
    if (status == FV_OK) {
        drop_idle(g);
        status = fit(g);
    }
    if (status == FV_OK && g->how->pairs_of > 1) {
        add_shares(g, first, total);
        add_pairs(g, total, order);
        status = fit(g);
        drop_idle(g);
        status = status == FV_OK ? fit(g) : status;
    }
    if (status == FV_OK) {
        add_shares(g, first, total);
        *explained = g->explained;
    }
    free(order);
    return status;
}

fv_status num_sensitivity_regress(const num_regression *how, const double *x, const double *y, size_t n, size_t inputs,
                                  double *first, double *total, double *explained)
{
    const size_t most = inputs * how->degree + how->pairs_of * how->pairs_of;
    num_quiet();
    for (size_t i = 0; i < inputs; i++)
        first[i] = total[i] = 0;
    *explained = 0;
    regression g = {.how = how, .x = x, .y = y, .n = n, .inputs = inputs};
    g.mean = gsl_stats_mean(y, 1, n);
    g.variance = gsl_stats_variance_m(y, 1, n, g.mean);
    if (!(g.variance > 0))
        return FV_OK;
    g.terms = calloc(most + 1, sizeof *g.terms);
    g.coefficient = calloc(most + 1, sizeof *g.coefficient);
    const fv_status status = g.terms && g.coefficient ? regress(&g, first, total, explained) : FV_FAIL;
    free(g.terms);
    free(g.coefficient);
    return status;
}
