/* SPDX-License-Identifier: MIT */
/* Floor 1: a root of a function of one variable between two bounds. */
#ifndef FV_NUM_ROOT_H
#define FV_NUM_ROOT_H

#include "farvessel/base.h"

/* Value and an approximate slope (0: none at hand). */
typedef double (*fv_root_function)(double x, double *slope, void *context);

/* Newton's steps kept between bounds that close in by bisection (Press et al., Numerical Recipes, "safe" Newton). The function must
 * have opposite signs at low and high, or be zero at one. Ends when |step| <= tolerance. FV_FAIL: no change of sign. */
fv_status fv_root_between(fv_root_function f, void *context, double low, double high, double start, double tolerance, double *root);

#endif
