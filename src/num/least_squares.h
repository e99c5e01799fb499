/* SPDX-License-Identifier: MIT */
/* Nonlinear least squares by GSL's trust-region methods (gsl_multifit_nlinear). */
#ifndef NUM_LEAST_SQUARES_H
#define NUM_LEAST_SQUARES_H

#include "farvessel/base.h"

typedef struct {
    size_t residuals, parameters;
    /* Residuals f at x. FV_FAIL: not to be had there; the step is then tried shorter. */
    fv_status (*residual)(void *context, const double *x, double *f);
    /* d f_i / d x_j at [i * parameters + j]; NULL: by forward differences of `residual`. f: residuals at x. */
    fv_status (*jacobian)(void *context, const double *x, const double *f, double *j);
    void *context;
    double x_tolerance, g_tolerance, f_tolerance; /* relative; 0: GSL's 1e-8 or so */
    size_t iterations;                            /* at most; 0: 100 */
    bool *no_memory;                              /* the solver's own */
} num_least_squares;

typedef struct {
    double sum; /* of squares at the solution */
    size_t iterations;
    bool converged; /* else the best so far */
    bool no_memory; /* why it failed */
} num_least_squares_outcome;

/* From x to the nearest minimum, in place. covariance (parameters squared, may be NULL): inverse of J'J there, to be
 * multiplied by the variance of a residual. FV_FAIL: out of memory, or no residuals at the start. */
fv_status num_least_squares_solve(const num_least_squares *problem, double *x, double *covariance,
                                  num_least_squares_outcome *outcome);

#endif
