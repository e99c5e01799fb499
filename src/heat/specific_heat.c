/* SPDX-License-Identifier: MIT */
/* Specific heat of a moist medium, sensible part only.
 *
 *     c = (1 - w) c_dry + w c_water,   c_water = 4190 above 0 degC, ice 2117 + 7.80 t below (t in degC)
 *
 * Wood has more: below fibre saturation the Wood Handbook's eqs 4-17, 4-18 hold, whose extra for the bond between wood
 * and water reaches 20 % at 30 % (of dry mass). That extra is not added far above fibre saturation, where the mixture
 * rule is used. In between, from 30 to 40 %, the two are blended, so that c has no step (our choice, no source).
 *
 * Given:    medium; w, kg water per kg wet; T, K; c_dry > 0 replaces the dry matter's value, and then the plain mixture
 *           rule is used for wood too.
 * Returned: J/kg/K.
 * Range:    0 <= w < 1, 240 to 420 K; w above 0.95 or T outside: FV_DOUBTFUL; else FV_FAIL. All water is taken to
 *           freeze at 0 degC; the heat of fusion (FV_LATENT_ICE per kg of water) is the caller's. In truth water bound
 *           in fibre (up to 0.3 of the dry mass) stays unfrozen: taking it as frozen asks for a little too much heat.
 * Accuracy: 3 % where the dry value is right; water's own c varies by 0.5 % from 10 to 100 degC, mean 4190 (IF97).
 * Source:   mixture rule; ice: H. C. Dickinson & N. S. Osborne, Bull. Bur. Stand. 12 (1915) 49-81, from memory.
 */
#include "farvessel/constants.h"
#include "heat/media.h"

#define WATER_C 4190.0

static double water_specific_heat(double t)
{
    return t >= FV_MELTING_POINT ? WATER_C : 2117.0 + 7.80 * (t - FV_MELTING_POINT);
}

fv_status fv_heat_specific_heat(fv_medium medium, double moisture, double t, double c_dry, double *c)
{
    double dry;
    fv_status status = fv_heat_dry_specific_heat(medium, t, &dry);
    if (status == FV_FAIL || !(moisture >= 0 && moisture < 1))
        return FV_FAIL;
    if (moisture > 0.95)
        status = FV_DOUBTFUL;
    if (c_dry > 0)
        dry = c_dry;
    *c = (1.0 - moisture) * dry + moisture * water_specific_heat(t);
    double x = 100.0 * moisture / (1.0 - moisture);
    if (medium == FV_MEDIUM_WOOD && !(c_dry > 0) && t >= FV_MELTING_POINT && x < 40.0) {
        double bound;
        // Its own doubt starts at 280 K; the few kelvin from there to the ice point do not matter.
        if (fv_heat_wood_specific_heat(x, t, &bound) == FV_FAIL)
            return FV_FAIL;
        *c += (1.0 - heat_ramp(x, 30.0, 40.0)) * (bound - *c);
    }
    return status;
}
