/* SPDX-License-Identifier: MIT */
/* Conductivity of mineral soil.
 *
 *     k = k_dry + K (k_sat - k_dry) + 0.66 pore k_vapour,   K = 1 + log10 S (S > 0.1, else 0)
 *     k_dry = (0.135 d + 64.7)/(2700 - 0.947 d),   k_sat = k_s^(1-n) k_water^n,   k_s = 7.7^q 2.0^(1-q)
 *
 * d dry mass per volume (kg/m3), n porosity, S share of the pores that is water, q = 0.40 the share of quartz of a
 * loam (C. D. Peters-Lidard et al., J. Atmos. Sci. 55 (1998) 1209-1224, from memory). The vapour's part rises with the
 * water content from nothing to 5 % of the volume (our choice, no source).
 *
 * Given:    packing; T, K.   Returned: W/m/K.
 * Range:    fine-grained unfrozen soil, 0 to 100 degC; S below 0.1 gives the dry value.
 * Accuracy: 25 % (O. T. Farouki 1981 on this formula); sand with q = 0.9 conducts half as much again. Diffusivity comes
 *           to 4 to 5e-7 m2/s, twice that of organic substrates, as measured loams have.
 * Source:   O. Johansen, Thermal Conductivity of Soils, thesis Trondheim (1975), as in Farouki (1981); from memory.
 *           Vapour: pore.c, and 0.66 as in conductivity_fibre.c.
 */
#include "heat/media.h"

#include <math.h>

#define QUARTZ 0.40

double heat_conductivity_soil(const heat_packing *pack, double t)
{
    double n = pack->water + pack->pore, s = n > 0 ? pack->water / n : 1.0;
    double dry = fmin(pack->dry, heat_solid_density(FV_MEDIUM_SOIL));
    double k_dry = (0.135 * dry + 64.7) / (2700.0 - 0.947 * dry);
    double k_solid = pow(7.7, QUARTZ) * pow(2.0, 1.0 - QUARTZ);
    double k_sat = pow(k_solid, 1.0 - n) * pow(heat_water_conductivity(t), n);
    double kersten = s > 0.1 ? 1.0 + log10(s) : 0.0;
    double vapour = 0.66 * pack->pore * heat_ramp(pack->water, 0.0, 0.05) * heat_vapour_conductivity(t);
    return k_dry + kersten * (k_sat - k_dry) + vapour;
}
