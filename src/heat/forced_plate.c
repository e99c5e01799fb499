/* SPDX-License-Identifier: MIT */
/* Wind along a flat plate.
 *
 *     Re <= 5e5:  Nu = 0.664 Re^(1/2) Pr^(1/3)
 *     above:      Nu = (0.037 Re^(4/5) - A) Pr^(1/3),  A chosen so that both meet at 5e5 (871.3; printed 871)
 *
 * Given:    length along the wind, m; wind, m/s; temperatures, K; air pressure, Pa. Air at the film mean.
 * Returned: h, W/m2/K, mean over the length. Still air: 0.
 * Range:    Re to 1e8; above: FV_DOUBTFUL. Negative wind, sizes that are not finite and positive: FV_FAIL.
 * Accuracy: 10 % for a smooth plate in a smooth stream. A vessel in gusty wind with edges and ribs sees up to twice as
 *           much: who knows better fixes the outside coefficient.
 * Source:   laminar: E. Pohlhausen (1921); turbulent after a laminar start: the mixed-layer form of the textbooks
 *           (Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, eqs 7.30 and 7.38); from memory.
 */
#include "heat/convection.h"

#include <math.h>

#define CRITICAL_RE 5e5

fv_status heat_forced_plate(const heat_air *air, double length, double wind, double *h)
{
    if (!(length > 0) || !isfinite(length) || !(wind >= 0) || !isfinite(wind))
        return FV_FAIL;
    double re = wind * length / air->nu;
    double nu = 0.664 * sqrt(fmin(re, CRITICAL_RE));
    if (re > CRITICAL_RE)
        nu += 0.037 * (pow(re, 0.8) - pow(CRITICAL_RE, 0.8));
    *h = nu * cbrt(air->pr) * air->k / length;
    return re <= 1e8 ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_heat_forced_plate(double length, double wind, double t_s, double t_a, double p, double *h)
{
    heat_air air;
    const fv_status film = heat_air_between(t_s, t_a, p, &air);
    return film == FV_FAIL || !h ? FV_FAIL : heat_worse(film, heat_forced_plate(&air, length, wind, h));
}
