/* SPDX-License-Identifier: MIT */
/* Floor 1: a root of a function of one variable between two bounds. */
#ifndef NUM_ROOT_H
#define NUM_ROOT_H

#include "farvessel/base.h"

/* Value and an approximate slope (0: none at hand). */
typedef double (*num_root_function)(double x, double *slope, void *context);

/* Newton's steps kept between bounds that close in by bisection (Press et al., Numerical Recipes, "safe" Newton). The
 * function must have opposite signs at low and high, or be zero at one. The root is within `tolerance`, or where
 * rounding has its sign change: a short step alone ends nothing, for a flat function makes short ones, too. FV_FAIL: no
 * change of sign, or a value is not a number. */
fv_status num_root_between(num_root_function f, void *context, double low, double high, double start, double tolerance,
                           double *root);

/* Root of a function that rises all the way from least to most, where a good guess is at hand: Newton's steps from
 * `start`, bounds found on the way, and the middle of them where Newton does not close in. The slope must be right.
 * Ends when |step| <= tolerance, at least or most where the root lies beyond; the function was asked at the root last.
 * FV_FAIL: a value is not a number. */
fv_status num_root_rising(num_root_function f, void *context, double start, double least, double most, double tolerance,
                          double *root);

#endif
