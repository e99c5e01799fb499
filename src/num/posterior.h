/* SPDX-License-Identifier: MIT */
/* Draws from a distribution known by its mode and curvature (Laplace's approximation), to be weighted by the true
 * density (importance sampling), and how well that goes. */
#ifndef NUM_POSTERIOR_H
#define NUM_POSTERIOR_H

#include "farvessel/base.h"

/* Lower Cholesky factor of a covariance (dim x dim, row by row), above the diagonal zero. FV_FAIL: not positive
 * definite, or out of memory. */
fv_status num_cholesky(const double *covariance, size_t dim, double *factor);

/* x = mode + factor z. */
void num_posterior_draw(const double *mode, const double *factor, size_t dim, const double *z, double *x);

/* Weights exp(log_density - log_proposal), scaled to a sum of 1; NaN and -infinity count as 0. They are cut at
 * sqrt(n) times their mean (Ionides, J. Comput. Graph. Stat. 17 (2008) 295): a few wild ones cannot take all. Returns
 * the effective size before the cut. */
double num_importance_weights(const double *log_density, const double *log_proposal, size_t n, double *weights);

/* (J'J + 1)^-1, dim x dim, of J n x dim row by row: the covariance of directions whose sizes are standard normal
 * beforehand, once n unit normal residuals with these slopes were seen. FV_FAIL: too
 * large to be inverted. */
fv_status num_ridge_covariance(const double *j, size_t n, size_t dim, double *covariance);

/* Least |f + J d|^2 + |d|^2 over d, J n x dim row by row: how well f can be explained by directions whose sizes are
 * standard normal beforehand. NaN: out of memory. */
double num_ridge_least(const double *j, const double *f, size_t n, size_t dim);

#endif
