/* SPDX-License-Identifier: MIT */
/* IAPWS-IF97 region 2, supplementary equation: metastable (supercooled) steam.
 *
 * Given: p (Pa), t (K). Returned: v, h, u, s, cp, cv, w.
 * Valid: from the saturated-vapour line to the 5 % equilibrium moisture line (the enthalpy that wet steam of 5 %
 * moisture has at that pressure), triple-point pressure to 10 MPa. Outside: FV_DOUBTFUL.
 * Accuracy: reproduces Table 18 of the release to every printed digit. Not continuous with region 2 on the
 * saturation line: the two differ there within the uncertainty of the equations.
 * Source: IAPWS R7-97(2012), eqs 18 and 19, Table 16 (coefficients from memory, confirmed by Table 18). */
#include "props/gibbs.h"

static const props_gibbs_term ideal[] = {
    {0, 0, -0.96937268393049e1},  {0, 1, 0.10087275970006e2}, {0, -5, -0.5608791128302e-2},
    {0, -4, 0.71452738081455e-1}, {0, -3, -0.40710498223928}, {0, -2, 0.14240819171444e1},
    {0, -1, -0.4383951131945e1},  {0, 2, -0.28408632460772},  {0, 3, 0.21268463753307e-1},
};
static const props_gibbs_term residual[] = {
    {1, 0, -0.73362260186506e-2},  {1, 2, -0.88223831943146e-1},  {1, 5, -0.72334555213245e-1},
    {1, 11, -0.40813178534455e-2}, {2, 1, 0.20097803380207e-2},   {2, 7, -0.53045921898642e-1},
    {2, 16, -0.7619040908697e-2},  {3, 4, -0.63498037657313e-2},  {3, 16, -0.86043093028588e-1},
    {4, 7, 0.7532158152277e-2},    {4, 10, -0.79238375446139e-2}, {5, 9, -0.22888160778447e-3},
    {5, 10, -0.2645650148281e-2},
};

static const props_gibbs_series ideal_series = {ideal, sizeof ideal / sizeof ideal[0], 0, -5, 3};
static const props_gibbs_series residual_series = {residual, sizeof residual / sizeof residual[0], 5, 0, 16};

static const double temperature_slack = 1e-9, moisture_limit = 0.05;

static props_gibbs gibbs_metastable(double p, double t)
{
    return props_gibbs_steam(&ideal_series, &residual_series, p, t);
}

static bool within_range(double p, double t, double h)
{
    double t_sat;
    if (p < 611.657 || p > 10e6 || fv_if97_saturation_temperature(p, &t_sat) != FV_OK)
        return false;
    if (t > t_sat * (1 + temperature_slack))
        return false;
    props_gibbs water = props_gibbs_region1(p, t_sat), steam = props_gibbs_region2(p, t_sat);
    double h_f = props_gibbs_slopes_of(&water).h, h_g = props_gibbs_slopes_of(&steam).h;
    return h >= h_g - moisture_limit * (h_g - h_f);
}

fv_status fv_if97_region2_metastable(double p, double t, fv_if97_state *out)
{
    if (!props_if97_usable(p, t))
        return FV_FAIL;
    props_gibbs gibbs = gibbs_metastable(p, t);
    if (props_gibbs_state(&gibbs, out) == FV_FAIL)
        return FV_FAIL;
    return within_range(p, t, out->h) ? FV_OK : FV_DOUBTFUL;
}
