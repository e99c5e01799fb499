/* SPDX-License-Identifier: MIT */
/* Conductivity of wood, sawdust and chopped straw, dry to soaked.
 *
 *     x <= 25 %:  Wood Handbook eq 4-15 (wood.c)
 *     x >= 40 %:  k = G (0.2005 + 0.005481 x) + 0.0238  +  0.66 pore k_vapour
 *     between:    straight line in x between the two
 *     all:        times 1 + 0.0025 (T - 297 K), but for the vapour's part
 *
 * Given:    packing (G = dry mass per volume over 1000 kg/m3, x = % of dry mass, pore share); T, K.
 * Returned: W/m/K, across the fibre.
 * Range:    solid wood 0 to 100 %. Used for bulk wood and straw with the bulk G, for which the formulas were not
 *           made; 0 to 100 degC.
 * Accuracy: solid wood 20 %; bulk 30 %. Ahn et al. (2009) measured 0.12 to 0.81 W/m/K on sawdust and composts and 0.03
 *           to 0.30 on straw and shavings, both linear in moisture and in density, as this is.
 * Source:   J. D. MacLean, Trans. ASHVE 47 (1941) 323-354 (1.39 + 0.038 x and 0.165 in Btu in/h/ft2/F, above 40 %),
 * from memory; temperature: the handbook's 2 to 3 % per 10 K; 0.66, the winding of pores: H. L. Penman, J. Agric. Sci.
 * 30 (1940) 437-462, from memory; vapour: pore.c; H. K. Ahn, T. J. Sauer, T. L. Richard & T. D. Glanville, Bioresource
 * Technol. 100 (2009) 3974-3981.
 */
#include "heat/media.h"

static double soaked(double g, double x, double pore, double warm, double t)
{
    return (g * (0.2005 + 0.005481 * x) + 0.0238) * warm + 0.66 * pore * heat_vapour_conductivity(t);
}

double heat_conductivity_fibre(const heat_packing *pack, double t)
{
    double g = pack->dry / 1000.0, x = 100.0 * pack->u;
    double warm = 1.0 + 0.0025 * (t - 297.15), damp = 0;
    if (x >= 40.0)
        return soaked(g, x, pack->pore, warm, t);
    // The formula's own doubt (G below 0.3) is part of the accuracy stated above.
    (void)fv_heat_wood_conductivity(g, x < 25.0 ? x : 25.0, &damp);
    damp *= warm;
    return damp + heat_ramp(x, 25.0, 40.0) * (soaked(g, 40.0, pack->pore, warm, t) - damp);
}
