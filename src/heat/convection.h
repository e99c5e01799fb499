/* SPDX-License-Identifier: MIT */
/* What the outside correlations share: air at the film temperature, and the correlations themselves with the surface's
 * excess over the air (K) given rather than two temperatures, so that a small excess keeps all its digits. */
#ifndef FARVESSEL_HEAT_CONVECTION_H
#define FARVESSEL_HEAT_CONVECTION_H

#include "farvessel/constants.h"
#include "farvessel/heat.h"

#define HEAT_STEFAN_BOLTZMANN 5.670374419e-8 /* W/m2/K4, exact in the 2019 SI (CODATA 2018) */

/* Dry air: kg/m3, Pa s, W/m/K, J/kg/K, m2/s, m2/s, -, 1/K. */
typedef struct {
    double rho, mu, k, cp, nu, alpha, pr, beta;
} heat_air;
fv_status heat_air_film(double t, double p, heat_air *air);
/* At the mean of surface and air. */
static inline fv_status heat_air_between(double t_s, double t_a, double p, heat_air *air)
{
    return heat_air_film(0.5 * (t_s + t_a), p, air);
}

/* Each gives h in W/m2/K; geometry in m, wind in m/s, excess in K of either sign. Arguments are checked here. */
fv_status heat_natural_cylinder(const heat_air *air, double diameter, double excess, double *h);
fv_status heat_natural_vertical(const heat_air *air, double height, double excess, double *h);
fv_status heat_forced_cylinder(const heat_air *air, double diameter, double wind, double *h);
fv_status heat_forced_plate(const heat_air *air, double length, double wind, double *h);

/* Rayleigh number of a length and an excess. */
static inline double heat_rayleigh(const heat_air *air, double length, double excess)
{
    double size = excess < 0 ? -excess : excess;
    return FV_GRAVITY * air->beta * size * length * length * length / (air->nu * air->alpha);
}

/* The worse of two: no result beats doubtful beats good. */
static inline fv_status heat_worse(fv_status a, fv_status b)
{
    if (a == FV_FAIL || b == FV_FAIL)
        return FV_FAIL;
    return a > b ? a : b;
}

#endif
