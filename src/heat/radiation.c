/* SPDX-License-Identifier: MIT */
/* Radiation between a surface and wide surroundings at the air's temperature, as a coefficient.
 *
 *     h = emissivity sigma (t_s + t_a) (t_s^2 + t_a^2),  so that h (t_s - t_a) = emissivity sigma (t_s^4 - t_a^4)
 * exactly
 *
 * Given:    emissivity 0 to 1; temperatures, K.   Returned: h, W/m2/K.
 * Range:    any temperature; surroundings large against the surface. A clear night sky is colder than the air by up to
 *           20 K: then the loss is larger than this says. Not finite arguments come back as not finite.
 * Accuracy: exact but for the emissivity (bright steel 0.1 to 0.3, galvanised 0.3, painted, rusty or rubber 0.9).
 * Source:   law of Stefan and Boltzmann; constant of CODATA 2018, exact in the SI of 2019.
 */
#include "heat/convection.h"

double fv_heat_radiation(double emissivity, double t_s, double t_a)
{
    return emissivity * HEAT_STEFAN_BOLTZMANN * (t_s + t_a) * (t_s * t_s + t_a * t_a);
}
