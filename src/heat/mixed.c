/* SPDX-License-Identifier: MIT */
/* Natural and forced convection together.
 *
 *     h^4 = h_natural^4 + h_forced^4
 *
 * Given:    both coefficients, W/m2/K, >= 0.   Returned: h, W/m2/K; the larger one where the other is small.
 * Range:    any. The exponent 4 is for wind across the rising stream, which is how wind meets lines and vessel walls.
 *           Wind along the stream (up a wall) would take 3, which gives at most 6 % more where both are equal
 *           (2^(1/3) against 2^(1/4)); wind against it gives less.
 * Accuracy: 10 % beyond that of the two parts.
 * Source:   blending: S. W. Churchill, AIChE J. 23 (1977) 10-16 (exponent 3, assisting flow); 7/2 and 4 for transverse
 *           flow over plates and cylinders: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, sec. 9.9;
 *           both from memory.
 */
#include "farvessel/heat.h"

#include <math.h>

double fv_heat_mixed(double h_natural, double h_forced)
{
    double large = fmax(h_natural, h_forced), small = fmin(h_natural, h_forced);
    if (!(large > 0))
        return large;
    double r = small / large, r2 = r * r;
    return large * sqrt(sqrt(1.0 + r2 * r2));
}
