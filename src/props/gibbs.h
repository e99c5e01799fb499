/* SPDX-License-Identifier: MIT */
/* What the Gibbs equations of IAPWS-IF97 have in common: a series in two variables, and the properties of a state
 * from the reduced Gibbs energy and its derivatives. */
#ifndef PROPS_GIBBS_H
#define PROPS_GIBBS_H

#include "farvessel/props.h"

typedef struct {
    int i, j;
    double n;
} props_gibbs_term;

/* Sum of n x^i y^j. i from 0 to i_max <= 32; j from j_min <= 0 to j_max; at most 64 different j. */
typedef struct {
    const props_gibbs_term *terms;
    size_t count;
    int i_max, j_min, j_max;
} props_gibbs_series;

typedef struct {
    double f, fx, fxx, fy, fyy, fxy;
} props_gibbs_sum;

props_gibbs_sum props_gibbs_add_up(const props_gibbs_series *series, double x, double y);

/* Reduced Gibbs energy g/(R T) at pi = p / p_star and tau = t_star / t, and its derivatives. */
typedef struct {
    double p, t; /* Pa, K */
    double p_star, pi, tau;
    double g, gp, gpp, gt, gtt, gpt;
} props_gibbs;

/* The equations for steam: an ideal-gas part in tau beside ln pi, and a residual part in pi and tau - 0.5. */
props_gibbs props_gibbs_steam(const props_gibbs_series *ideal, const props_gibbs_series *residual, double p, double t);
/* Regions 1 and 2, without any check of the range. */
props_gibbs props_gibbs_region1(double p, double t);
props_gibbs props_gibbs_region2(double p, double t);

/* FV_FAIL when a property is not a finite number; *out is then left alone. */
fv_status props_gibbs_state(const props_gibbs *gibbs, fv_if97_state *out);

/* Volume and enthalpy with their partial derivatives over p (at constant t) and over t (at constant p). */
typedef struct {
    double v, v_p, v_t; /* m3/kg, m3/kg/Pa, m3/kg/K */
    double h, h_p, h_t; /* J/kg, J/kg/Pa, J/kg/K */
} props_gibbs_slopes;
props_gibbs_slopes props_gibbs_slopes_of(const props_gibbs *gibbs);

/* Arguments that any of the equations can take at all. */
bool props_if97_usable(double p, double t);

#endif
