/* SPDX-License-Identifier: MIT */
#include "num/root.h"

#include <math.h>

enum { STEPS_MOST = 200 };

/* The next point: Newton's where its slope is of use, else the secant's through the bounds; the middle where that does
 * not close in. */
static double next_point(double x, double fx, double slope, double low, double f_low, double high, double f_high,
                         bool slow)
{
    double next = slope != 0 ? x - fx / slope : NAN;
    if (!(next > low && next < high))
        next = low - f_low * (high - low) / (f_high - f_low);
    return slow || !(next > low && next < high) ? 0.5 * (low + high) : next;
}

fv_status fv_root_between(fv_root_function f, void *context, double low, double high, double start, double tolerance,
                          double *root)
{
    double slope, f_low = f(low, &slope, context), f_high = f(high, &slope, context);
    if (f_low == 0 || f_high == 0) {
        *root = f_low == 0 ? low : high;
        return FV_OK;
    }
    if ((f_low < 0) == (f_high < 0) || isnan(f_low) || isnan(f_high))
        return FV_FAIL;
    double x = start > low && start < high ? start : 0.5 * (low + high), width = high - low;
    for (int i = 0; i < STEPS_MOST; i++) {
        const double fx = f(x, &slope, context);
        if (isnan(fx))
            return FV_FAIL;
        if (fx == 0)
            break;
        if ((fx < 0) == (f_low < 0)) {
            low = x;
            f_low = fx;
        } else {
            high = x;
            f_high = fx;
        }
        /* Every third step must have halved the interval twice over, else the middle is taken. */
        const bool check = i % 3 == 2, slow = check && high - low > 0.25 * width;
        if (check)
            width = high - low;
        const double next = next_point(x, fx, slope, low, f_low, high, f_high, slow);
        const double step = fabs(next - x);
        x = next;
        if (step <= tolerance || high - low <= tolerance)
            break;
    }
    *root = x;
    return FV_OK;
}

/* Where to look next when Newton's step is of no use. */
static double without_slope(double x, double low, bool has_low, double high, bool has_high, double reach)
{
    if (has_low && has_high)
        return 0.5 * (low + high);
    return has_low ? fmin(x + reach, high) : fmax(x - reach, low);
}

fv_status fv_root_rising(fv_root_function f, void *context, double start, double least, double most, double tolerance,
                         double *root)
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
