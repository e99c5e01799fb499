/* SPDX-License-Identifier: MIT */
/* The media: their names, what a cubic metre of them holds, and what they typically weigh.
 *
 * Typical densities: common practice, no source. Dry matter per cubic metre of a pressed bag and of a loose bed:
 *     wood (sawdust)   250 / 160       straw (chopped)  90 / 60       peat (potting mix)  180 / 130
 *     soil             1200 / 1000     grain            kernels fill 0.58 / 0.55, whatever they have swollen to
 * At 60 % moisture sawdust so weighs 625 / 400 kg/m3, straw at 72 % 321 / 214, peat at 55 % 400 / 289, soil at 20 %
 * 1500 / 1250, grain at 45 % 699 / 663. So wet that less than 5 % of the volume would be left as pores, the density is
 * that of the medium with 5 % pores.
 * Densities of the pore-free dry matter: cell wall 1530 (Wood Handbook (2010) ch. 4, from memory), straw the same,
 * grain 1450, peat 1500, mineral soil 2650 kg/m3 (O. T. Farouki 1981; D. A. de Vries 1963; from memory).
 */
#include "heat/media.h"

#include <math.h>

const char *fv_medium_name(fv_medium medium)
{
    static const char *const names[FV_MEDIUM_COUNT] = {"wood", "straw", "grain", "peat", "soil"};
    return (unsigned)medium < FV_MEDIUM_COUNT ? names[medium] : "unknown";
}

double heat_solid_density(fv_medium medium)
{
    switch (medium) {
    case FV_MEDIUM_GRAIN:
        return 1450.0;
    case FV_MEDIUM_PEAT:
        return 1500.0;
    case FV_MEDIUM_SOIL:
        return 2650.0;
    default:
        return 1530.0;
    }
}

heat_packing heat_pack(fv_medium medium, double moisture, double density)
{
    heat_packing pack;
    pack.dry = density * (1.0 - moisture);
    pack.u = moisture / (1.0 - moisture);
    pack.solid = pack.dry / heat_solid_density(medium);
    pack.water = density * moisture / HEAT_WATER_RHO;
    double rest = 1.0 - pack.solid - pack.water;
    // Water at 20 degC and round solid densities: a percent over is not yet a fault of the data.
    pack.overfull = rest < -0.01;
    pack.pore = fmax(rest, 0.0);
    return pack;
}

double fv_heat_pore_share(fv_medium medium, double moisture, double density)
{
    if ((unsigned)medium >= FV_MEDIUM_COUNT || !(moisture >= 0 && moisture < 1) || !(density >= 0))
        return 0;
    return heat_pack(medium, moisture, density).pore;
}

double fv_heat_typical_density(fv_medium medium, double moisture, bool loose)
{
    static const double dry[FV_MEDIUM_COUNT][2] = {{250, 160}, {90, 60}, {0, 0}, {180, 130}, {1200, 1000}};
    if ((unsigned)medium >= FV_MEDIUM_COUNT || !(moisture >= 0 && moisture < 1))
        return 0;
    // Volume of 1 kg of the wet medium without its pores.
    double compact = (1.0 - moisture) / heat_solid_density(medium) + moisture / HEAT_WATER_RHO;
    if (medium == FV_MEDIUM_GRAIN)
        return (loose ? 0.55 : 0.58) / compact;
    return fmin(dry[medium][loose] / (1.0 - moisture), 0.95 / compact);
}
