/* SPDX-License-Identifier: MIT */
/* Standard atmosphere: site pressure from altitude.
 *
 * Given: geopotential altitude (m). Returned: pressure (Pa).
 * Valid: -2000 to 11000 m, the lowest layer (6.5 K per km). Outside: FV_DOUBTFUL; FV_FAIL where the layer's
 * temperature would reach 0 K (44.3 km) and for an altitude that is no finite number.
 * Accuracy: reproduces the tabulated pressures to their printed digits. A real day differs by up to about 3 %
 * (about 1 K in the boiling point): a barometer reading is better.
 * Geometric altitude z gives H = z r / (r + z), r = 6356766 m: 0.35 m less than z at 1500 m, of no account here.
 * Source: ISO 2533:1975, eq 12 with the sea-level constants of its Table 1 (from memory). */
#include "farvessel/constants.h"
#include "farvessel/props.h"

#include <math.h>

fv_status fv_atmosphere_pressure(double altitude, double *p)
{
    if (!p)
        return FV_FAIL;
    const double p0 = 101325;    /* Pa */
    const double t0 = 288.15;    /* K */
    const double lapse = 6.5e-3; /* K/m */

    if (!isfinite(altitude))
        return FV_FAIL;
    double ratio = 1 - lapse * altitude / t0;
    if (ratio <= 0)
        return FV_FAIL;
    double found = p0 * pow(ratio, FV_GRAVITY / (FV_GAS_CONSTANT_AIR * lapse));
    if (!isfinite(found) || found <= 0)
        return FV_FAIL;
    *p = found;
    return altitude < -2000 || altitude > 11000 ? FV_DOUBTFUL : FV_OK;
}
