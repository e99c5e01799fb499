/* SPDX-License-Identifier: MIT */
/* IAPWS-IF97 region 1: liquid water.
 *
 * Given: p (Pa), t (K). Returned: v, h, u, s, cp, cv, w.
 * Valid: 273.15 to 623.15 K, saturation pressure to 100 MPa. Outside, down to superheated or stretched liquid:
 * FV_DOUBTFUL. A pressure up to 1e-8 below saturation counts as saturated, so that a point read from a fit of the
 * saturation line is not called doubtful for its rounding.
 * Accuracy: reproduces Table 5 of the release to every printed digit.
 * Source: IAPWS R7-97(2012), eq 7 and Table 2. */
#include "props/gibbs.h"

static const props_gibbs_term residual[] = {
    {0, -2, 0.14632971213167},        {0, -1, -0.84548187169114},       {0, 0, -0.3756360367204e1},
    {0, 1, 0.33855169168385e1},       {0, 2, -0.95791963387872},        {0, 3, 0.15772038513228},
    {0, 4, -0.16616417199501e-1},     {0, 5, 0.81214629983568e-3},      {1, -9, 0.28319080123804e-3},
    {1, -7, -0.60706301565874e-3},    {1, -1, -0.18990068218419e-1},    {1, 0, -0.32529748770505e-1},
    {1, 1, -0.21841717175414e-1},     {1, 3, -0.5283835796993e-4},      {2, -3, -0.47184321073267e-3},
    {2, 0, -0.30001780793026e-3},     {2, 1, 0.47661393906987e-4},      {2, 3, -0.44141845330846e-5},
    {2, 17, -0.72694996297594e-15},   {3, -4, -0.31679644845054e-4},    {3, 0, -0.28270797985312e-5},
    {3, 6, -0.85205128120103e-9},     {4, -5, -0.22425281908e-5},       {4, -2, -0.65171222895601e-6},
    {4, 10, -0.14341729937924e-12},   {5, -8, -0.40516996860117e-6},    {8, -11, -0.12734301741641e-8},
    {8, -6, -0.17424871230634e-9},    {21, -29, -0.68762131295531e-18}, {23, -31, 0.14478307828521e-19},
    {29, -38, 0.26335781662795e-22},  {30, -39, -0.11947622640071e-22}, {31, -40, 0.18228094581404e-23},
    {32, -41, -0.93537087292458e-25},
};

static const props_gibbs_series residual_series = {residual, sizeof residual / sizeof residual[0], 32, -41, 17};

static const double pressure_slack = 1e-8;

props_gibbs props_gibbs_region1(double p, double t)
{
    const double p_star = 16.53e6, t_star = 1386;
    double pi = p / p_star, tau = t_star / t;
    props_gibbs_sum sum = props_gibbs_add_up(&residual_series, 7.1 - pi, tau - 1.222);
    return (props_gibbs){
        .p = p,
        .t = t,
        .p_star = p_star,
        .pi = pi,
        .tau = tau,
        .g = sum.f,
        .gp = -sum.fx, // the series runs in 7.1 - pi
        .gpp = sum.fxx,
        .gt = sum.fy,
        .gtt = sum.fyy,
        .gpt = -sum.fxy,
    };
}

fv_status fv_if97_region1(double p, double t, fv_if97_state *out)
{
    if (!props_if97_usable(p, t))
        return FV_FAIL;
    props_gibbs gibbs = props_gibbs_region1(p, t);
    if (props_gibbs_state(&gibbs, out) == FV_FAIL)
        return FV_FAIL;
    double p_sat;
    if (t < 273.15 || t > 623.15 || p > 100e6 || fv_if97_saturation_pressure(t, &p_sat) != FV_OK)
        return FV_DOUBTFUL;
    return p < p_sat * (1 - pressure_slack) ? FV_DOUBTFUL : FV_OK;
}
