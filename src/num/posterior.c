/* SPDX-License-Identifier: MIT */
#include "num/posterior.h"
#include "num/quantile.h"
#include "num/quiet.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <math.h>

fv_status num_cholesky(const double *covariance, size_t dim, double *factor)
{
    num_quiet();
    gsl_matrix_view l = gsl_matrix_view_array(factor, dim, dim);
    for (size_t i = 0; i < dim * dim; i++)
        factor[i] = covariance[i];
    if (gsl_linalg_cholesky_decomp1(&l.matrix) != GSL_SUCCESS)
        return FV_FAIL;
    for (size_t i = 0; i < dim; i++)
        for (size_t j = i + 1; j < dim; j++)
            factor[i * dim + j] = 0;
    return FV_OK;
}

void num_posterior_draw(const double *mode, const double *factor, size_t dim, const double *z, double *x)
{
    for (size_t i = 0; i < dim; i++) {
        x[i] = mode[i];
        for (size_t j = 0; j <= i; j++)
            x[i] += factor[i * dim + j] * z[j];
    }
}

static double scale_to_one(double *weights, size_t n)
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += weights[i];
    for (size_t i = 0; i < n && sum > 0; i++)
        weights[i] /= sum;
    return sum;
}

double num_importance_weights(const double *log_density, const double *log_proposal, size_t n, double *weights)
{
    double most = -INFINITY;
    for (size_t i = 0; i < n; i++) {
        const double ratio = log_density[i] - log_proposal[i];
        if (isfinite(ratio))
            most = fmax(most, ratio);
    }
    for (size_t i = 0; i < n; i++) {
        const double ratio = log_density[i] - log_proposal[i];
        weights[i] = isfinite(ratio) ? exp(ratio - most) : 0;
    }
    if (!(scale_to_one(weights, n) > 0))
        return 0;
    const double size = num_effective_size(weights, n), cut = 1 / sqrt((double)n);
    for (size_t i = 0; i < n; i++)
        weights[i] = fmin(weights[i], cut);
    scale_to_one(weights, n);
    return size;
}

fv_status num_ridge_covariance(const double *j, size_t n, size_t dim, double *covariance)
{
    num_quiet();
    gsl_matrix_const_view jacobian = gsl_matrix_const_view_array(j, n, dim);
    gsl_matrix_view c = gsl_matrix_view_array(covariance, dim, dim);
    gsl_matrix_set_identity(&c.matrix);
    gsl_blas_dsyrk(CblasLower, CblasTrans, 1, &jacobian.matrix, 1, &c.matrix);
    if (gsl_linalg_cholesky_decomp1(&c.matrix) != GSL_SUCCESS || gsl_linalg_cholesky_invert(&c.matrix) != GSL_SUCCESS)
        return FV_FAIL;
    return FV_OK;
}

double num_ridge_least(const double *j, const double *f, size_t n, size_t dim)
{
    num_quiet();
    gsl_matrix *a = gsl_matrix_alloc(dim, dim);
    gsl_vector *g = gsl_vector_alloc(dim), *d = gsl_vector_alloc(dim);
    double squares = NAN, gain = 0;
    if (a && g && d) {
        gsl_matrix_const_view jacobian = gsl_matrix_const_view_array(j, n, dim);
        gsl_vector_const_view residual = gsl_vector_const_view_array(f, n);
        gsl_matrix_set_identity(a);
        gsl_blas_dsyrk(CblasLower, CblasTrans, 1, &jacobian.matrix, 1, a);
        gsl_blas_dgemv(CblasTrans, 1, &jacobian.matrix, &residual.vector, 0, g);
        gsl_blas_ddot(&residual.vector, &residual.vector, &squares);
        if (gsl_linalg_cholesky_decomp1(a) == GSL_SUCCESS && gsl_linalg_cholesky_solve(a, g, d) == GSL_SUCCESS)
            gsl_blas_ddot(g, d, &gain);
    }
    gsl_matrix_free(a);
    gsl_vector_free(g);
    gsl_vector_free(d);
    return squares - gain;
}
