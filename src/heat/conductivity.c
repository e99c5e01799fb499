/* SPDX-License-Identifier: MIT */
/* Conductivity of a medium from moisture, density and temperature: the choice among the files conductivity_*.c.
 *
 * Given:    medium; moisture, kg water per kg wet; density of the wet medium, kg/m3; T, K.
 * Returned: W/m/K.
 * Range:    0 to 110 degC. Below 0 degC the value at 0 degC is given, FV_DOUBTFUL: frozen water conducts four times as
 *           much, so a frozen load warms sooner than this says. Above 110 degC, more solid and water than the volume
 *           holds, pores of over 97 % or moisture above 0.95: FV_DOUBTFUL. Not a medium, moisture outside 0..1, density
 *           not positive: FV_FAIL.
 * Accuracy: 20 to 30 %: the time to heat a core goes with it. A measured core curve is the remedy.
 */
#include "farvessel/constants.h"
#include "heat/media.h"

#include <math.h>

fv_status fv_heat_conductivity(fv_medium medium, double moisture, double density, double t, double *k)
{
    if (!(moisture >= 0 && moisture < 1) || !(density > 0) || !isfinite(density) || !(t > 0) || !isfinite(t))
        return FV_FAIL;
    heat_packing pack = heat_pack(medium, moisture, density);
    double at = fmax(t, FV_MELTING_POINT);
    switch (medium) {
    case FV_MEDIUM_WOOD:
    case FV_MEDIUM_STRAW:
        *k = heat_conductivity_fibre(&pack, medium == FV_MEDIUM_WOOD, at);
        break;
    case FV_MEDIUM_GRAIN:
        *k = heat_conductivity_grain(&pack, at);
        break;
    case FV_MEDIUM_PEAT:
        *k = heat_conductivity_peat(&pack, at);
        break;
    case FV_MEDIUM_SOIL:
        *k = heat_conductivity_soil(&pack, at);
        break;
    default:
        return FV_FAIL;
    }
    bool inside = t >= FV_MELTING_POINT && t <= FV_MELTING_POINT + 110.0 && moisture <= 0.95 && !pack.overfull &&
                  pack.pore <= 0.97;
    return inside ? FV_OK : FV_DOUBTFUL;
}
