/* SPDX-License-Identifier: MIT */
/* A dry gap of air under a film that lies loosely on a medium: conduction and radiation side by side.
 *
 *     h = k_air(T)/d + 4 sigma T^3/(2/eps - 1),     k_air = 2.64638e-3 T^1.5/(T + 245.4 10^(-12/T))
 *
 * Given:    gap d, m, > 0; emissivity of both faces; T, K, mean of the gap.
 * Returned: W/m2/K; INFINITY without a gap, NaN for what is not finite or not positive.
 * Range:    gaps to a few mm, in which air does not turn over.
 * Accuracy: that of the gap's width. Water that has run into it, or vapour that condenses in it, makes it conduct more.
 * Source:   k_air: US Standard Atmosphere 1976, eq 53, from memory; radiation between parallel grey faces.
 */
#include "farvessel/heat.h"

#include <math.h>

double fv_heat_film_gap(double gap, double emissivity, double t)
{
    static const double sigma = 5.670374419e-8;
    if (!(gap >= 0) || !(emissivity > 0 && emissivity <= 1) || !(t > 0) || !isfinite(t))
        return NAN;
    const double k = 2.64638e-3 * t * sqrt(t) / (t + 245.4 * pow(10.0, -12.0 / t));
    return k / gap + 4.0 * sigma * t * t * t / (2.0 / emissivity - 1.0);
}
