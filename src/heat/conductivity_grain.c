/* SPDX-License-Identifier: MIT */
/* Conductivity of a bulk of grain, dry to soaked.
 *
 * Kernel: water and dry matter side by side by volume. Bulk: kernels (share f) and pores by the symmetric effective
 * medium rule,
 *
 *     f (k_k - k)/(k_k + 2 k) + (1 - f) (k_p - k)/(k_p + 2 k) = 0,
 *
 * a quadratic. k_p is air, and with soaked kernels air and moving vapour (rising straight from 33 to 50 % of dry mass:
 * below, the kernels hold their water too firmly, and the bulks measured show no such part; our choice, no source).
 *
 * Given:    packing; T, K.   Returned: W/m/K.
 * Range:    0 to 100 degC, any moisture.
 * Accuracy: 15 % against measured bulks at 24 degC (corn, A. M. Kazarian & C. W. Hall, Trans. ASAE 8 (1965) 33-37:
 * 0.1409 + 0.0011 M, M in % of wet mass, from memory) up to 25 %; nothing measured was found for soaked grain. Source:
 * D. A. G. Bruggeman, Ann. Phys. 416 (1935) 636-664; dry matter (as carbohydrate): Choi & Okos (1986), from memory;
 * vapour: pore.c.
 */
#include "farvessel/constants.h"
#include "heat/media.h"

#include <math.h>

double heat_conductivity_grain(const heat_packing *pack, double t)
{
    double c = t - FV_MELTING_POINT;
    double dry = 0.20141 + c * (1.3874e-3 - 4.3312e-6 * c);
    double kernels = pack->solid + pack->water;
    double k_k = (pack->solid * dry + pack->water * heat_water_conductivity(t)) / kernels;
    double k_p = heat_air_conductivity(t) + heat_ramp(pack->u, 0.33, 0.50) * heat_vapour_conductivity(t);
    double f = fmin(kernels, 1.0);
    double b = (3.0 * f - 1.0) * k_k + (2.0 - 3.0 * f) * k_p;
    return 0.25 * (b + sqrt(b * b + 8.0 * k_k * k_p));
}
