/* SPDX-License-Identifier: MIT */
/* Natural convection round a long horizontal cylinder.
 *
 *     Nu = { 0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27) }^2,  lengths by the diameter, air at the film mean
 *
 * Given:    diameter, m; surface and air temperature, K; air pressure, Pa. The surface may be the colder one.
 * Returned: h, W/m2/K.
 * Range:    1e-5 < Ra <= 1e12. Above: FV_DOUBTFUL. Below, the film only conducts and Nu tends to 0.36: taken as
 *           good, because the loss is then nil (surface as warm as the air). Air outside its own range: FV_DOUBTFUL.
 *           Arguments that are not finite and positive: FV_FAIL.
 * Accuracy: about 10 to 15 % against measurements in air. A vertical or sloping line differs by less than that.
 * Source:   S. W. Churchill & H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1049-1053, eq 10; from memory,
 *           confirmed by the textbook examples in the tests.
 */
#include "heat/convection.h"

#include <math.h>

fv_status heat_natural_cylinder(const heat_air *air, double diameter, double excess, double *h)
{
    if (!(diameter > 0) || !isfinite(diameter) || !isfinite(excess))
        return FV_FAIL;
    double ra = heat_rayleigh(air, diameter, excess);
    double prandtl = pow(1.0 + pow(0.559 / air->pr, 9.0 / 16.0), -8.0 / 27.0);
    double root = 0.60 + 0.387 * prandtl * cbrt(sqrt(ra));
    *h = root * root * air->k / diameter;
    return ra <= 1e12 ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_heat_natural_cylinder(double diameter, double t_s, double t_a, double p, double *h)
{
    heat_air air;
    const fv_status film = heat_air_between(t_s, t_a, p, &air);
    return film == FV_FAIL || !h ? FV_FAIL : heat_worse(film, heat_natural_cylinder(&air, diameter, t_s - t_a, h));
}
