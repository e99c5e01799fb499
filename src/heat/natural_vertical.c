/* SPDX-License-Identifier: MIT */
/* Natural convection on a vertical plate, all Rayleigh numbers.
 *
 *     Nu = { 0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27) }^2,  lengths by the height, air at the film mean
 *
 * Given:    height, m; surface and air temperature, K; air pressure, Pa. The surface may be the colder one.
 * Returned: h, W/m2/K, mean over the height.
 * Range:    Ra <= 1e12. Above: FV_DOUBTFUL. Air outside its own range: FV_DOUBTFUL. Arguments that are not finite and
 *           positive: FV_FAIL.
 * Accuracy: about 10 % in air; a laminar form of the same authors (Ra < 1e9) is a little better and is not used, so
 *           that h has no step. Vertical cylinders: good while the diameter is over about 35 heights / Gr^(1/4).
 * Source:   S. W. Churchill & H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323-1329, eq 9; from memory,
 *           confirmed by the textbook example in the tests.
 */
#include "heat/convection.h"

#include <math.h>

fv_status heat_natural_vertical(const heat_air *air, double height, double excess, double *h)
{
    if (!(height > 0) || !isfinite(height) || !isfinite(excess))
        return FV_FAIL;
    double ra = heat_rayleigh(air, height, excess);
    double prandtl = pow(1.0 + pow(0.492 / air->pr, 9.0 / 16.0), -8.0 / 27.0);
    double root = 0.825 + 0.387 * prandtl * cbrt(sqrt(ra));
    *h = root * root * air->k / height;
    return ra <= 1e12 ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_heat_natural_vertical(double height, double t_s, double t_a, double p, double *h)
{
    heat_air air;
    const fv_status film = heat_air_between(t_s, t_a, p, &air);
    return film == FV_FAIL || !h ? FV_FAIL : heat_worse(film, heat_natural_vertical(&air, height, t_s - t_a, h));
}
