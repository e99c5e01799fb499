/* SPDX-License-Identifier: MIT */
/* Derivatives that the saturation tables need beside the public functions. None of these checks a range. */
#ifndef PROPS_LINE_H
#define PROPS_LINE_H

#include "farvessel/props.h"

/* IF97 region 4, both directions: Pa from K, K from Pa; and dT/dp (K/Pa) at a point (p, t) of the line. */
double fv_line_pressure(double t);
double fv_line_temperature(double p);
double fv_line_slope(double p, double t);

/* Viscosity (Pa s) with its partial derivatives over t and rho. */
typedef struct {
    double mu, mu_t, mu_rho;
} fv_viscosity_slopes;
fv_viscosity_slopes fv_iapws_viscosity_slopes(double t, double rho);

#endif
