/* SPDX-License-Identifier: MIT */
/* Conductivity of peat and peat-based potting mix.
 *
 *     k = k_dry + K (k_sat - k_dry) + 0.66 pore k_vapour,   K = 0.60 S / (1 - 0.40 S)
 *     k_dry = 0.30 10^(-0.87 n),   k_sat = 0.25^(1-n) k_water^n
 *
 * n porosity, S share of the pores that is water. The vapour's part rises with the moisture from nothing to 30 % of dry
 * mass (our choice, no source).
 *
 * Given:    packing; T, K.   Returned: W/m/K.
 * Range:    0 to 100 degC. The formula without vapour was made at room temperature.
 * Accuracy: 20 %; its ends agree with O. T. Farouki, Thermal Properties of Soils, CRREL Monograph 81-1 (1981): dry 0.05
 * to 0.10, saturated 0.45 to 0.55 W/m/K. A mix with much sand or perlite differs. Source:   J. Cote & J.-M. Konrad,
 * Can. Geotech. J. 42 (2005) 443-458, organic fibrous soil, unfrozen; from memory. Vapour: pore.c, and 0.66 as in
 * conductivity_fibre.c.
 */
#include "heat/media.h"

#include <math.h>

double heat_conductivity_peat(const heat_packing *pack, double t)
{
    double n = pack->water + pack->pore, s = n > 0 ? pack->water / n : 1.0;
    double k_dry = 0.30 * pow(10.0, -0.87 * n);
    double k_sat = pow(0.25, 1.0 - n) * pow(heat_water_conductivity(t), n);
    double kersten = 0.60 * s / (1.0 - 0.40 * s);
    double vapour = 0.66 * pack->pore * heat_ramp(pack->u, 0.0, 0.30) * heat_vapour_conductivity(t);
    return k_dry + kersten * (k_sat - k_dry) + vapour;
}
