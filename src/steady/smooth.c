/* SPDX-License-Identifier: MIT */
#include "steady/smooth.h"

#include <math.h>

double steady_smooth_clamp(double z, double smoothing, double *slope)
{
    if (smoothing <= 0) {
        *slope = z > 0 && z < 1 ? 1 : 0;
        return z < 0 ? 0 : z > 1 ? 1 : z;
    }
    const double low = sqrt(z * z + smoothing * smoothing), high = sqrt((z - 1) * (z - 1) + smoothing * smoothing);
    *slope = 0.5 * (z / low - (z - 1) / high);
    /* (low - high) without cancellation where z is large */
    return 0.5 * (1 + (2 * z - 1) / (low + high));
}

double steady_smooth_least(double a, double b, double smoothing, double *by_a, double *by_b)
{
    if (smoothing <= 0) {
        *by_a = a < b ? 1 : 0;
        *by_b = 1 - *by_a;
        return a < b ? a : b;
    }
    const double gap = a - b, root = sqrt(gap * gap + smoothing * smoothing);
    *by_a = 0.5 * (1 - gap / root);
    *by_b = 1 - *by_a;
    return 0.5 * (a + b - root);
}
