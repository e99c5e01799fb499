/* SPDX-License-Identifier: MIT */
/* Derivatives that the saturation tables need beside the public functions. None of these checks a range. */
#ifndef PROPS_LINE_H
#define PROPS_LINE_H

#include "farvessel/props.h"

/* IF97 region 4, both directions: Pa from K, K from Pa; and dT/dp (K/Pa) at a point (p, t) of the line. */
double props_line_pressure(double t);
double props_line_temperature(double p);
double props_line_slope(double p, double t);

/* Viscosity (Pa s) with its partial derivatives over t and rho. */
typedef struct {
    double mu, mu_t, mu_rho;
} props_viscosity_slopes;
props_viscosity_slopes props_iapws_viscosity_slopes(double t, double rho);

#endif
