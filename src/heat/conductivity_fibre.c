/* SPDX-License-Identifier: MIT */
/* Conductivity of wood, sawdust and chopped straw, dry to soaked.
 *
 *     x <= 25 %:  Wood Handbook eq 4-15 (wood.c)
 *     x >= 40 %:  k = G (0.2005 + 0.005481 x) + 0.0238  +  0.66 pore k_vapour
 *     between:    straight line in x between the two
 *     all:        times 1 + 0.0025 (T - 297 K), but for the vapour's part
 *     sawdust:    x >= 40 %: times 0.79 for bits (G to 0.28), 1 for grown wood (G from 0.35), even between
 *
 * Pressed bits touch at points, so they conduct less than grown wood of the same density. The factor is a fit, without
 * a source of its own: with it sawdust of 60 % moisture has a diffusivity of 1.5e-7 m2/s, the middle of what wet timber
 * was measured at (Wood Handbook (2010) table 20-8, read with a fixed surface temperature: 1.25 to 1.78e-7). Its band
 * is 0.69 to 1 (1.3 to 1.9e-7).
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

static const double BITS = 0.79;

static double soaked(double g, double x, double pore, double warm, double t)
{
    return (g * (0.2005 + 0.005481 * x) + 0.0238) * warm + 0.66 * pore * heat_vapour_conductivity(t);
}

double heat_conductivity_fibre(const heat_packing *pack, bool bits, double t)
{
    double g = pack->dry / 1000.0, x = 100.0 * pack->u;
    double warm = 1.0 + 0.0025 * (t - 297.15), damp = 0;
    double touching = bits ? BITS + (1.0 - BITS) * heat_ramp(g, 0.28, 0.35) : 1.0;
    if (x >= 40.0)
        return touching * soaked(g, x, pack->pore, warm, t);
    // The formula's own doubt (G below 0.3) is part of the accuracy stated above.
    (void)fv_heat_wood_conductivity(g, x < 25.0 ? x : 25.0, &damp);
    damp *= warm;
    return damp + heat_ramp(x, 25.0, 40.0) * (touching * soaked(g, 40.0, pack->pore, warm, t) - damp);
}
