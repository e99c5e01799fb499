/* SPDX-License-Identifier: MIT */
#include "num/least_squares.h"
#include "num/quiet.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit_nlin.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <math.h>
#include <string.h>

static const double USUAL_TOLERANCE = 1e-10;
enum { USUAL_ITERATIONS = 100 };

static int residual(const gsl_vector *x, void *context, gsl_vector *f)
{
    const num_least_squares *p = context;
    /* GSL's own vectors are contiguous. */
    if (p->residual(p->context, x->data, f->data) == FV_FAIL)
        gsl_vector_set_all(f, GSL_POSINF); /* a step that is no improvement, so it is shortened */
    return GSL_SUCCESS;
}

/* Forward differences, h = sqrt(epsilon) max(|x|, 1e-8); into the transposed work array row by row. */
static fv_status differences(const num_least_squares *p, const double *x, const double *f, gsl_matrix *j)
{
    fv_status status = FV_OK;
    gsl_vector *moved = gsl_vector_alloc(p->parameters), *there = gsl_vector_alloc(p->residuals);
    for (size_t k = 0; moved && there && k < p->parameters && status != FV_FAIL; k++) {
        memcpy(moved->data, x, p->parameters * sizeof *x);
        const double h = GSL_SQRT_DBL_EPSILON * fmax(fabs(x[k]), 1e-8);
        moved->data[k] += h;
        status = p->residual(p->context, moved->data, there->data);
        for (size_t i = 0; i < p->residuals; i++)
            gsl_matrix_set(j, i, k, (there->data[i] - f[i]) / (moved->data[k] - x[k]));
    }
    if (!moved || !there) {
        *p->no_memory = true;
        status = FV_FAIL;
    }
    gsl_vector_free(moved);
    gsl_vector_free(there);
    return status;
}

static int jacobian(const gsl_vector *x, void *context, gsl_matrix *j)
{
    const num_least_squares *p = context;
    gsl_vector *f = gsl_vector_alloc(p->residuals);
    fv_status status = f ? p->residual(p->context, x->data, f->data) : FV_FAIL;
    *p->no_memory = *p->no_memory || !f;
    if (status != FV_FAIL)
        status = p->jacobian ? p->jacobian(p->context, x->data, f->data, j->data) : differences(p, x->data, f->data, j);
    gsl_vector_free(f);
    return status == FV_FAIL ? GSL_EBADFUNC : GSL_SUCCESS;
}

/* As gsl_multifit_nlinear_covar, which does not look whether it got its memory. */
static fv_status find_covariance(const gsl_matrix *j, gsl_matrix *covariance)
{
    gsl_matrix *r = gsl_matrix_alloc(j->size1, j->size2);
    gsl_permutation *order = gsl_permutation_alloc(j->size2);
    gsl_vector *tau = gsl_vector_alloc(j->size1 < j->size2 ? j->size1 : j->size2), *norm = gsl_vector_alloc(j->size2);
    const bool room = r && order && tau && norm;
    int sign;
    if (room) {
        gsl_matrix_memcpy(r, j);
        gsl_linalg_QRPT_decomp(r, tau, order, &sign, norm);
        gsl_multifit_covar_QRPT(r, order, 0, covariance);
    }
    gsl_matrix_free(r);
    gsl_permutation_free(order);
    gsl_vector_free(tau);
    gsl_vector_free(norm);
    return room ? FV_OK : FV_FAIL;
}

static fv_status read_outcome(const num_least_squares *p, gsl_multifit_nlinear_workspace *w, double *x,
                              double *covariance, num_least_squares_outcome *outcome)
{
    gsl_blas_ddot(w->f, w->f, &outcome->sum);
    outcome->iterations = gsl_multifit_nlinear_niter(w);
    memcpy(x, w->x->data, p->parameters * sizeof *x);
    if (!covariance)
        return FV_OK;
    gsl_matrix_view c = gsl_matrix_view_array(covariance, p->parameters, p->parameters);
    return find_covariance(w->J, &c.matrix);
}

fv_status num_least_squares_solve(const num_least_squares *problem, double *x, double *covariance,
                                  num_least_squares_outcome *outcome)
{
    num_least_squares copy = *problem;
    num_quiet();
    gsl_multifit_nlinear_parameters settings = gsl_multifit_nlinear_default_parameters();
    settings.trs = gsl_multifit_nlinear_trs_lm;
    gsl_multifit_nlinear_fdf fdf = {
        .f = residual, .df = jacobian, .n = problem->residuals, .p = problem->parameters, .params = &copy};
    gsl_multifit_nlinear_workspace *w = gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &settings, fdf.n, fdf.p);
    *outcome = (num_least_squares_outcome){.no_memory = !w};
    copy.no_memory = &outcome->no_memory;
    if (!w)
        return FV_FAIL;
    gsl_vector_const_view start = gsl_vector_const_view_array(x, fdf.p);
    fv_status status = gsl_multifit_nlinear_init(&start.vector, &fdf, w) == GSL_SUCCESS ? FV_OK : FV_FAIL;
    if (status == FV_OK && !isfinite(gsl_blas_dnrm2(w->f)))
        status = FV_FAIL;
    if (status == FV_OK) {
        int why = 0;
        const double xtol = problem->x_tolerance > 0 ? problem->x_tolerance : USUAL_TOLERANCE;
        const double gtol = problem->g_tolerance > 0 ? problem->g_tolerance : USUAL_TOLERANCE;
        const size_t most = problem->iterations > 0 ? problem->iterations : USUAL_ITERATIONS;
        const int end = gsl_multifit_nlinear_driver(most, xtol, gtol, problem->f_tolerance, NULL, NULL, &why, w);
        /* no progress: at a minimum as flat as rounding allows */
        outcome->converged = end == GSL_SUCCESS || end == GSL_ENOPROG;
        outcome->no_memory = outcome->no_memory || end == GSL_ENOMEM;
        if (read_outcome(problem, w, x, covariance, outcome) == FV_FAIL)
            outcome->no_memory = true;
        status = outcome->no_memory ? FV_FAIL : FV_OK;
    }
    gsl_multifit_nlinear_free(w);
    return status;
}
