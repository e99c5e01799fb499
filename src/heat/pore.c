/* SPDX-License-Identifier: MIT */
/* Conductivities of the phases in a moist medium: water, air, and what vapour adds in the pores.
 *
 *     water   0.57109 + 1.762e-3 t - 6.7036e-6 t^2           t in degC
 *     air     as the film air of this folder
 *     vapour  D h_fg M / (R T) * P / (P - p_v) * dp_v/dT,     D = 2.17e-5 (T/273.15)^1.88 m2/s at 1 atm
 *
 * Between a warm and a cold side of a moist pore water evaporates, diffuses and condenses; that carries as much heat as
 * liquid water of the same shape would conduct at about 60 degC, and without bound towards boiling. Here the vapour's
 * part is held at its value at 40 degC (0.20 W/m/K): further up the pores' own moisture no longer keeps pace with
 * it, and the whole medium must not come out above what has been measured. The temperature of 40 degC is a fit, made
 * for that, without a source. Its band is 30 to 50 degC (0.12 to 0.33 W/m/K), which moves the diffusivity of sawdust at
 * 60 % moisture by -7 to +11 % (1.39 to 1.67e-7 m2/s).
 *
 * Given:    T, K.   Returned: W/m/K.
 * Range:    0 to 110 degC; callers say when they are outside.
 * Accuracy: water 1 %, air 1 %; the vapour's part a third.
 * Source:   water: Choi & Okos (1986); vapour: D. A. de Vries, Trans. Am. Geophys. Union 39 (1958) 909-916, with O.
 *           Krischer & H. Rohnalter's diffusivity (1940); pressure: O. A. Alduchov & R. E. Eskridge, J. Appl. Meteor.
 * 35 (1996) 601-609; all from memory.
 */
#include "farvessel/constants.h"
#include "heat/convection.h"
#include "heat/media.h"

#include <math.h>

double heat_water_conductivity(double t)
{
    double c = t - FV_MELTING_POINT;
    return 0.57109 + c * (1.7625e-3 - 6.7036e-6 * c);
}

double heat_air_conductivity(double t)
{
    heat_air air;
    return heat_air_film(t, 101325.0, &air) == FV_FAIL ? NAN : air.k;
}

double heat_vapour_conductivity(double t)
{
    const double held = FV_MELTING_POINT + 40.0, pressure = 101325.0, vapour_gas_constant = 461.52;
    double at = fmin(t, held), c = at - FV_MELTING_POINT;
    double p_v = 610.94 * exp(17.625 * c / (c + 243.04));
    double slope = p_v * 17.625 * 243.04 / ((c + 243.04) * (c + 243.04));
    double diffusivity = 2.17e-5 * pow(at / FV_MELTING_POINT, 1.88);
    double h_fg = 2501000.0 - 2380.0 * c;
    return diffusivity * h_fg / (vapour_gas_constant * at) * pressure / (pressure - p_v) * slope;
}

double heat_ramp(double x, double from, double to)
{
    return fmin(fmax((x - from) / (to - from), 0.0), 1.0);
}
