/* SPDX-License-Identifier: MIT */
/* Reading the saturation tables.
 *
 * Given: p (Pa) or t (K). Returned: the saturated line there, and the exact derivative of the very polynomial that
 * gave the value.
 * Range: 4864 Pa to 2.03 MPa, 273.15 to 481.15 K. Beyond, each quantity follows its end tangent; where that would
 * take a density, viscosity, pressure or temperature below half its end value, a hyperbola with the tangent's slope
 * goes on from there, towards zero but never reaching it. Finite and C1 for every finite argument; NaN gives NaN.
 * Accuracy: below 1e-10 relative to IF97 inside the range; see tests/props/test_sat.c. */
#include "props/sat.h"

#include <math.h>

/* Value and slope at a signed distance beyond an end of the table. */
static double beyond_table(const props_sat_end *end, double distance, double *slope)
{
    double change = end->slope * distance;
    if (end->positive && change < -0.5 * end->value) {
        double y = change / end->value; // the tangent is 1 + y, the hyperbola -1/(4 y): both 1/2 at y = -1/2
        *slope = end->slope / (4 * y * y);
        return -end->value / (4 * y);
    }
    *slope = end->slope;
    return end->value + change;
}

static double beyond_p(const fv_sat *sat, int quantity, double p, double *slope)
{
    if (p < PROPS_SAT_P_LOW)
        return beyond_table(&sat->p_low[quantity], p - PROPS_SAT_P_LOW, slope);
    return beyond_table(&sat->p_high[quantity], p - PROPS_SAT_P_HIGH, slope);
}

static inline double read_p(const fv_sat *sat, int quantity, double p, double *slope)
{
    double d;
    uint32_t cell = props_sat_cell(p, &d);
    if (cell >= PROPS_SAT_P_CELLS)
        return beyond_p(sat, quantity, p, slope);
    return props_sat_value(&sat->by_p[cell][quantity], d, slope);
}

double fv_sat_rho_g(const fv_sat *sat, double p, double *drho_dp)
{
    if (!sat)
        return (double)NAN;
    double slope, rho = read_p(sat, PROPS_SAT_RHO_G, p, &slope);
    if (drho_dp)
        *drho_dp = slope;
    return rho;
}

double fv_sat_t(const fv_sat *sat, double p, double *dt_dp)
{
    if (!sat)
        return (double)NAN;
    double slope, t = read_p(sat, PROPS_SAT_T, p, &slope);
    if (dt_dp)
        *dt_dp = slope;
    return t;
}

double fv_sat_mu_g(const fv_sat *sat, double p, double *dmu_dp)
{
    if (!sat)
        return (double)NAN;
    double slope, mu = read_p(sat, PROPS_SAT_MU_G, p, &slope);
    if (dmu_dp)
        *dmu_dp = slope;
    return mu;
}

static void at_beyond(const fv_sat *sat, double p, fv_sat_point *out)
{
    double unused;
    out->rho_g = beyond_p(sat, PROPS_SAT_RHO_G, p, &out->drho_g_dp);
    out->t = beyond_p(sat, PROPS_SAT_T, p, &out->dt_dp);
    out->h_g = beyond_p(sat, PROPS_SAT_H_G, p, &out->dh_g_dp);
    out->h_f = beyond_p(sat, PROPS_SAT_H_F, p, &out->dh_f_dp);
    out->mu_g = beyond_p(sat, PROPS_SAT_MU_G, p, &out->dmu_g_dp);
    out->rho_f = beyond_p(sat, PROPS_SAT_RHO_F, p, &unused);
    out->mu_f = beyond_p(sat, PROPS_SAT_MU_F, p, &unused);
}

void fv_sat_at(const fv_sat *sat, double p, fv_sat_point *out)
{
    if (!out)
        return;
    double d, unused;
    uint32_t cell = props_sat_cell(p, &d);
    if (cell >= PROPS_SAT_P_CELLS) {
        at_beyond(sat, p, out);
        return;
    }
    const props_sat_poly *poly = sat->by_p[cell];
    out->rho_g = props_sat_value(&poly[PROPS_SAT_RHO_G], d, &out->drho_g_dp);
    out->t = props_sat_value(&poly[PROPS_SAT_T], d, &out->dt_dp);
    out->h_g = props_sat_value(&poly[PROPS_SAT_H_G], d, &out->dh_g_dp);
    out->h_f = props_sat_value(&poly[PROPS_SAT_H_F], d, &out->dh_f_dp);
    out->mu_g = props_sat_value(&poly[PROPS_SAT_MU_G], d, &out->dmu_g_dp);
    out->rho_f = props_sat_value(&poly[PROPS_SAT_RHO_F], d, &unused);
    out->mu_f = props_sat_value(&poly[PROPS_SAT_MU_F], d, &unused);
}

static void at_t_beyond(const props_sat_end *end, double distance, fv_sat_at_t_point *out)
{
    out->p = beyond_table(&end[PROPS_SAT_T_P], distance, &out->dp_dt);
    out->rho_g = beyond_table(&end[PROPS_SAT_T_RHO_G], distance, &out->drho_g_dt);
    out->h_g = beyond_table(&end[PROPS_SAT_T_H_G], distance, &out->dh_g_dt);
    out->h_f = beyond_table(&end[PROPS_SAT_T_H_F], distance, &out->dh_f_dt);
}

void fv_sat_at_t(const fv_sat *sat, double t, fv_sat_at_t_point *out)
{
    if (!out)
        return;
    const double t_high = PROPS_SAT_T_LOW + PROPS_SAT_T_WIDTH * PROPS_SAT_T_CELLS;
    if (t < PROPS_SAT_T_LOW) {
        at_t_beyond(sat->t_low, t - PROPS_SAT_T_LOW, out);
        return;
    }
    if (!(t < t_high)) { // NaN goes this way too
        at_t_beyond(sat->t_high, t - t_high, out);
        return;
    }
    int cell = (int)((t - PROPS_SAT_T_LOW) / PROPS_SAT_T_WIDTH);
    double d = t - (PROPS_SAT_T_LOW + PROPS_SAT_T_WIDTH * cell);
    const props_sat_poly *poly = sat->by_t[cell];
    out->p = props_sat_value(&poly[PROPS_SAT_T_P], d, &out->dp_dt);
    out->rho_g = props_sat_value(&poly[PROPS_SAT_T_RHO_G], d, &out->drho_g_dt);
    out->h_g = props_sat_value(&poly[PROPS_SAT_T_H_G], d, &out->dh_g_dt);
    out->h_f = props_sat_value(&poly[PROPS_SAT_T_H_F], d, &out->dh_f_dt);
}
