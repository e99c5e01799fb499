/* SPDX-License-Identifier: MIT */
/* Solid wood: conductivity across the grain and specific heat, below fibre saturation.
 *
 *     k   = G (0.1941 + 0.004064 x) + 0.01864                        W/m/K    (4-15)
 *     c_0 = 0.1031 + 0.003867 T                                      kJ/kg/K  (4-16)
 *     c   = (c_0 + 4.18 x/100) / (1 + x/100) + A                     kJ/kg/K  (4-17)
 *     A   = x (-0.06191 + 2.36e-4 T - 1.33e-4 x)                     kJ/kg/K  (4-18)
 *
 * Given:    G, oven-dry mass over the volume at moisture x, relative to water; x, water in % of dry mass; T, K.
 * Returned: k at 24 degC; c.
 * Range:    k: x < 25 %, G > 0.3.  c: x up to fibre saturation (30 % here), 280 to 420 K.  Outside: FV_DOUBTFUL.
 *           Negative or not finite: FV_FAIL.
 * Accuracy: k of single species within 20 %; c within a few %.
 * Source:   USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), chapter 4; read for 4-15, 4-16 to 4-18
 *           from a library manual that quotes them.
 */
#include "heat/media.h"

#include <math.h>

fv_status fv_heat_wood_conductivity(double specific_gravity, double moisture_dry_percent, double *k)
{
    if (!k)
        return FV_FAIL;
    double x = moisture_dry_percent;
    if (!(specific_gravity > 0) || !isfinite(specific_gravity) || !(x >= 0) || !isfinite(x))
        return FV_FAIL;
    *k = specific_gravity * (0.1941 + 0.004064 * x) + 0.01864;
    return x <= 25.0 && specific_gravity >= 0.3 ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_heat_wood_specific_heat(double moisture_dry_percent, double t, double *c)
{
    if (!c)
        return FV_FAIL;
    double x = moisture_dry_percent;
    if (!(x >= 0) || !isfinite(x) || !(t > 0) || !isfinite(t))
        return FV_FAIL;
    double dry = 0.1031 + 0.003867 * t;
    double bond = x * (-0.06191 + 2.36e-4 * t - 1.33e-4 * x);
    *c = 1000.0 * ((dry + 4.18 * x / 100.0) / (1.0 + x / 100.0) + bond);
    return x <= 30.0 && t >= 280.0 && t <= 420.0 ? FV_OK : FV_DOUBTFUL;
}
