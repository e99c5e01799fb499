/* SPDX-License-Identifier: MIT */
/* Natural convection on a horizontal plate (a lid, a floor above free air).
 *
 *     unstable (hot face up, or cold face down):  Nu = the larger of 0.54 Ra^(1/4) and 0.15 Ra^(1/3)
 *     stable (hot face down, or cold face up):    Nu = 0.27 Ra^(1/4)
 *
 * Given:    length = area / perimeter, m; hot_side_up: the face looks up; temperatures, K; air pressure, Pa. A face
 *           colder than the air swaps the two cases.
 * Returned: h, W/m2/K.
 * Range:    unstable 1e4 to 1e11, stable 1e5 to 1e10; outside: FV_DOUBTFUL. A face as warm as the air: h = 0, good.
 *           Arguments that are not finite and positive: FV_FAIL.
 * Accuracy: 10 to 20 % in air. The published pair changes over at Ra = 1e7 with a step of 6 %; taking the larger one
 *           moves the change to Ra = 4.7e6, where both agree, and h has no step.
 * Source:   W. H. McAdams, Heat Transmission, 3rd ed. (1954), with the length area/perimeter of R. J. Goldstein, E. M.
 *           Sparrow & D. C. Jones, Int. J. Heat Mass Transfer 16 (1973) 1025-1035, as in the textbooks; from memory.
 */
#include "heat/convection.h"

#include <math.h>

static fv_status natural_horizontal(const heat_air *air, double length, bool faces_up, double excess, double *h)
{
    if (!(length > 0) || !isfinite(length) || !isfinite(excess))
        return FV_FAIL;
    double ra = heat_rayleigh(air, length, excess);
    double fourth = sqrt(sqrt(ra));
    bool unstable = faces_up == (excess > 0);
    double nu = unstable ? fmax(0.54 * fourth, 0.15 * cbrt(ra)) : 0.27 * fourth;
    *h = nu * air->k / length;
    double lowest = unstable ? 1e4 : 1e5, highest = unstable ? 1e11 : 1e10;
    return excess == 0 || (ra >= lowest && ra <= highest) ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_heat_natural_horizontal(double length, bool hot_side_up, double t_s, double t_a, double p, double *h)
{
    heat_air air;
    const fv_status film = heat_air_between(t_s, t_a, p, &air);
    return film == FV_FAIL || !h ? FV_FAIL
                                 : heat_worse(film, natural_horizontal(&air, length, hot_side_up, t_s - t_a, h));
}
