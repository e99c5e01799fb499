/* SPDX-License-Identifier: MIT */
/* Floor 1: a root of a function of one variable between two bounds. */
#ifndef NUM_ROOT_H
#define NUM_ROOT_H

#include "farvessel/base.h"

typedef double (*num_function)(double x, void *context);

/* By Brent's method (GSL). The function must have opposite signs at low and high, or be zero at one. The root is
 * enclosed to `tolerance` + `share` of its size, or where rounding has its sign change. FV_FAIL: no change of sign, a
 * value is not a number, or no memory. */
fv_status num_root_between(num_function f, void *context, double low, double high, double tolerance, double share,
                           double *root);

/* Value and slope. */
typedef double (*num_slope_function)(double x, double *slope, void *context);

/* Root of a function that rises all the way from least to most, where a good guess is at hand: Newton's steps from
 * `start`, bounds found on the way, and the middle of them where Newton does not close in. The slope must be right.
 * Ends when |step| <= tolerance, at least or most where the root lies beyond; the function was asked at the root last.
 * FV_FAIL: a value is not a number. */
fv_status num_root_rising(num_slope_function f, void *context, double start, double least, double most,
                          double tolerance, double *root);

#endif
