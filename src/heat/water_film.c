/* SPDX-License-Identifier: MIT */
/* Water and steam for film condensation.
 *
 * Given:    t_sat, saturation temperature, and t_film, mean temperature of the film, K.
 * Returned: film density, viscosity, conductivity, specific heat; vapour density and heat of evaporation at t_sat.
 * Range:    0 to 150 degC, both. Outside: FV_DOUBTFUL; not finite, not positive or above 370 degC: FV_FAIL.
 * Accuracy: against IF97 and the IAPWS transport releases, 81 to 150 degC: densities 0.01 %, viscosity 0.2 %,
 *           conductivity 0.25 %, heat of evaporation 0.01 %, specific heat 0.6 %; the film formula takes roots of
 *           these, and its own error is 10 %.
 * Source:   densities: IAPWS SR1-86(1992), eqs 2 and 3; viscosity and conductivity: IAPWS SR6-08(2011), published for
 *           0.1 MPa to 110 degC; constants from memory, confirmed by the check values in the tests. Heat of
 *           evaporation and specific heat: own cubic and parabola through IF97 values.
 */
#include "heat/water_film.h"

#include <math.h>

#define CRITICAL_T 647.096
#define CRITICAL_RHO 322.0

static double liquid_density(double t)
{
    double c = cbrt(1.0 - t / CRITICAL_T), c2 = c * c, c5 = c2 * c2 * c, c16 = c5 * c5 * c5 * c;
    return CRITICAL_RHO * (1.0 + 1.99274064 * c + 1.09965342 * c2 - 0.510839303 * c5 - 1.75493479 * c16 -
                           45.5170352 * pow(c, 43.0) - 6.74694450e5 * pow(c, 110.0));
}

static double vapour_density(double t)
{
    double s = cbrt(1.0 - t / CRITICAL_T), r = sqrt(s), s2 = s * s;
    return CRITICAL_RHO * exp(-2.03150240 * s - 2.68302940 * s2 - 5.38626492 * s2 * s2 - 17.2991605 * pow(s, 9.0) -
                              44.7586581 * pow(r, 37.0) - 63.9201063 * pow(r, 71.0));
}

fv_status heat_water_film(double t_sat, double t_film, heat_film_water *w)
{
    if (!(t_sat > 0) || !(t_film > 0) || !(t_sat < 643.15) || !(t_film < 643.15))
        return FV_FAIL;
    double x = t_film / 300.0, c = t_film - 273.15, s = t_sat - 273.15;
    w->rho = liquid_density(t_film);
    w->mu = 1e-6 * (280.68 * pow(x, -1.9) + 511.45 * pow(x, -7.7) + 61.131 * pow(x, -19.6) + 0.45903 * pow(x, -40.0));
    w->k = 1.6630 * pow(x, -1.15) - 1.7781 * pow(x, -3.4) + 1.1567 * pow(x, -6.0) - 0.432115 * pow(x, -7.6);
    w->cp = 4178.0 + 0.0116 * (c - 38.0) * (c - 38.0);
    w->rho_v = vapour_density(t_sat);
    w->h_fg = 2501014.8 + s * (-2395.98669 + s * (1.01438060 - 0.0150450419 * s));
    bool inside = c >= 0 && s >= 0 && c <= 150.0 && s <= 150.0;
    return inside ? FV_OK : FV_DOUBTFUL;
}
