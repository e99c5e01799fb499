/* SPDX-License-Identifier: MIT */
/* Wind across a cylinder.
 *
 *     Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) / [1 + (0.4/Pr)^(2/3)]^(1/4) [1 + (Re/282000)^(5/8)]^(4/5)
 *
 * Given:    diameter, m; wind, m/s, across the axis; temperatures, K; air pressure, Pa. Air at the film mean.
 * Returned: h, W/m2/K, mean round the cylinder.
 * Range:    Re Pr > 0.2 and Re < 1e7; outside: FV_DOUBTFUL (still air is Nu = 0.3, doubtful). Negative wind, sizes that
 *           are not finite and positive: FV_FAIL.
 * Accuracy: within 20 % of nearly all measurements, the authors say; up to 20 % low from Re 2e4 to 4e5.
 * Source:   S. W. Churchill & M. Bernstein, J. Heat Transfer 99 (1977) 300-306; from memory, confirmed by the
 *           textbook example in the tests.
 */
#include "heat/convection.h"

#include <math.h>

fv_status heat_forced_cylinder(const heat_air *air, double diameter, double wind, double *h)
{
    if (!(diameter > 0) || !isfinite(diameter) || !(wind >= 0) || !isfinite(wind))
        return FV_FAIL;
    double re = wind * diameter / air->nu;
    double c = cbrt(0.4 / air->pr);
    double laminar = 0.62 * sqrt(re) * cbrt(air->pr) / sqrt(sqrt(1.0 + c * c));
    double nu = 0.3 + laminar * pow(1.0 + pow(re / 282000.0, 0.625), 0.8);
    *h = nu * air->k / diameter;
    return re * air->pr > 0.2 && re < 1e7 ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_heat_forced_cylinder(double diameter, double wind, double t_s, double t_a, double p, double *h)
{
    heat_air air;
    const fv_status film = heat_air_between(t_s, t_a, p, &air);
    return film == FV_FAIL || !h ? FV_FAIL : heat_worse(film, heat_forced_cylinder(&air, diameter, wind, h));
}
