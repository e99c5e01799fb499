/* SPDX-License-Identifier: MIT */
#include "num/root.h"
#include "num/quiet.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>

enum { STEPS_MOST = 200, STATE_MOST = 32 };

fv_status num_root_between(num_function f, void *context, double low, double high, double tolerance, double share,
                           double *root)
{
    const double f_low = f(low, context), f_high = f(high, context);
    *root = f_low == 0 ? low : high;
    if (f_low == 0 || f_high == 0)
        return FV_OK;
    num_quiet();
    gsl_function function = {.function = f, .params = context};
    /* Laid out here and not by gsl_root_fsolver_alloc: a root that is not found for want of memory would be taken for
     * one that is not there. */
    double state[STATE_MOST] = {0};
    gsl_root_fsolver here = {.type = gsl_root_fsolver_brent, .state = state}, *solver = &here;
    int status =
        here.type->size <= sizeof state ? gsl_root_fsolver_set(solver, &function, low, high) : (int)GSL_EFAILED;
    for (int i = 0; i < STEPS_MOST && status == GSL_SUCCESS; i++) {
        status = gsl_root_fsolver_iterate(solver);
        *root = gsl_root_fsolver_root(solver);
        if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver), tolerance,
                                   share) == GSL_SUCCESS)
            break;
    }
    return status == GSL_SUCCESS ? FV_OK : FV_FAIL;
}

/* Where to look next when Newton's step is of no use. */
static double without_slope(double x, double low, bool has_low, double high, bool has_high, double reach)
{
    if (has_low && has_high)
        return 0.5 * (low + high);
    return has_low ? fmin(x + reach, high) : fmax(x - reach, low);
}

fv_status num_root_rising(num_slope_function f, void *context, double start, double least, double most,
                          double tolerance, double *root)
{
    double low = least, high = most, x = fmin(fmax(start, least), most), slope, reach = 1, width = INFINITY;
    bool has_low = false, has_high = false;
    for (int i = 0; i < STEPS_MOST; i++) {
        const double fx = f(x, &slope, context);
        *root = x;
        if (isnan(fx))
            return FV_FAIL;
        if (fx < 0) {
            low = x;
            has_low = true;
        } else {
            high = x;
            has_high = true;
        }
        /* Every fourth step must have narrowed the bounds to a quarter, else the middle is taken. */
        const bool check = i % 4 == 3, slow = check && has_low && has_high && high - low > 0.25 * width;
        if (check)
            width = high - low;
        const double newton = x - fx / slope;
        if (fx == 0 || fabs(newton - x) <= tolerance)
            return FV_OK;
        double next = newton;
        if (slow || !(next > low && next < high)) {
            next = without_slope(x, low, has_low, high, has_high, reach);
            reach *= 8;
        }
        if (fabs(next - x) <= tolerance)
            return FV_OK;
        x = next;
    }
    return FV_OK;
}
