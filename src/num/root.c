/* SPDX-License-Identifier: MIT */
#include "num/root.h"

#include <math.h>

enum { STEPS_MOST = 200 };

/* The root lies between: the function has opposite signs there. */
typedef struct {
    double low, f_low, high, f_high;
} bounds;

static void narrow(bounds *b, double x, double fx)
{
    if ((fx < 0) == (b->f_low < 0)) {
        b->low = x;
        b->f_low = fx;
    } else {
        b->high = x;
        b->f_high = fx;
    }
}

static double middle(const bounds *b)
{
    return 0.5 * (b->low + b->high);
}

/* The next point: Newton's where its slope is of use, else the secant's through the bounds; the middle where that does
 * not close in. */
static double next_point(double x, double fx, double slope, const bounds *b, bool slow)
{
    double next = slope != 0 ? x - fx / slope : NAN;
    if (!(next > b->low && next < b->high))
        next = b->low - b->f_low * (b->high - b->low) / (b->f_high - b->f_low);
    return slow || !(next > b->low && next < b->high) ? middle(b) : next;
}

/* A step may be short because the root is near, or because the function is flat. Whether the root lies between x, a
 * bound, and a tolerance beyond `next`; where it does not, the bounds narrow. FV_FAIL: the value there is not a number.
 */
static fv_status is_near(num_root_function f, void *context, double x, double next, double tolerance, bounds *b,
                         bool *near)
{
    const bool up = x == b->low;
    const double beyond = up ? next + tolerance : next - tolerance;
    *near = up ? beyond >= b->high : beyond <= b->low;
    if (*near)
        return FV_OK;
    double slope;
    const double f_beyond = f(beyond, &slope, context);
    *near = f_beyond == 0 || (f_beyond < 0) == ((up ? b->f_high : b->f_low) < 0);
    narrow(b, beyond, f_beyond);
    return isnan(f_beyond) ? FV_FAIL : FV_OK;
}

fv_status num_root_between(num_root_function f, void *context, double low, double high, double start, double tolerance,
                           double *root)
{
    double slope;
    bounds b = {.low = low, .f_low = f(low, &slope, context), .high = high, .f_high = f(high, &slope, context)};
    if (b.f_low == 0 || b.f_high == 0) {
        *root = b.f_low == 0 ? low : high;
        return FV_OK;
    }
    if ((b.f_low < 0) == (b.f_high < 0) || isnan(b.f_low) || isnan(b.f_high))
        return FV_FAIL;
    double x = start > low && start < high ? start : middle(&b), width = high - low;
    for (int i = 0; i < STEPS_MOST; i++) {
        const double fx = f(x, &slope, context);
        if (isnan(fx))
            return FV_FAIL;
        if (fx == 0)
            break;
        narrow(&b, x, fx);
        /* Every third step must have halved the interval twice over, else the middle is taken. */
        const bool check = i % 3 == 2, slow = check && b.high - b.low > 0.25 * width;
        if (check)
            width = b.high - b.low;
        double next = next_point(x, fx, slope, &b, slow);
        bool near = false;
        if (fabs(next - x) <= tolerance) {
            if (is_near(f, context, x, next, tolerance, &b, &near) == FV_FAIL)
                return FV_FAIL;
            next = near ? next : middle(&b);
        }
        x = next;
        if (near || b.high - b.low <= tolerance)
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

fv_status num_root_rising(num_root_function f, void *context, double start, double least, double most, double tolerance,
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
