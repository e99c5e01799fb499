/* SPDX-License-Identifier: MIT */
/* Series and state properties shared by regions 1, 2 and the metastable-vapour equation.
 *
 * Given: a series of terms n x^i y^j; or the reduced Gibbs energy gamma(pi, tau) with its derivatives.
 * Returned: the sum with its first and second derivatives; or v, h, u, s, cp, cv, w in SI.
 * Range: that of the equation that calls. x = 0 and, for series without negative j, y = 0 are allowed.
 * Accuracy: rounding; the powers are made by repeated multiplication, about 1e-14 of a term.
 * Source: IAPWS R7-97(2012), Table 3 (the relations hold for gamma = gamma0 + gammar as well as for region 1). */
#include "props/gibbs.h"
#include "farvessel/constants.h"

#include <math.h>

enum { BELOW = 2, X_POWERS = BELOW + 33, Y_POWERS = BELOW + 64 };

/* out[k + BELOW - lowest] = base^k for k = lowest - 2 .. highest. Where no power is negative, the two places below 0
 * hold 0: second derivatives reach there with a factor 0, and 1/base may be infinite. */
static const double *powers(double *out, double base, int lowest, int highest)
{
    double *at = out + BELOW - lowest;
    at[0] = 1;
    for (int k = 1; k <= highest; k++)
        at[k] = k == 1 ? base : at[k / 2] * at[k - k / 2];
    at[-1] = lowest < 0 ? 1 / base : 0;
    at[-2] = lowest < 0 ? at[-1] * at[-1] : 0;
    for (int k = 3; k <= BELOW - lowest; k++)
        at[-k] = at[-(k / 2)] * at[-(k - k / 2)];
    return at;
}

props_gibbs_sum props_gibbs_add_up(const props_gibbs_series *series, double x, double y)
{
    double x_store[X_POWERS], y_store[Y_POWERS];
    const double *xp = powers(x_store, x, 0, series->i_max);
    const double *yp = powers(y_store, y, series->j_min, series->j_max);
    props_gibbs_sum sum = {0};
    for (size_t k = 0; k < series->count; k++) {
        int i = series->terms[k].i, j = series->terms[k].j;
        double n = series->terms[k].n;
        double nx = n * xp[i], nx1 = n * i * xp[i - 1], nx2 = n * i * (i - 1) * xp[i - 2];
        double y0 = yp[j], y1 = j * yp[j - 1], y2 = (double)j * (j - 1) * yp[j - 2];
        sum.f += nx * y0;
        sum.fx += nx1 * y0;
        sum.fxx += nx2 * y0;
        sum.fy += nx * y1;
        sum.fyy += nx * y2;
        sum.fxy += nx1 * y1;
    }
    return sum;
}

props_gibbs props_gibbs_steam(const props_gibbs_series *ideal, const props_gibbs_series *residual, double p, double t)
{
    const double p_star = 1e6, t_star = 540;
    double pi = p / p_star, tau = t_star / t;
    props_gibbs_sum i = props_gibbs_add_up(ideal, 1, tau);
    props_gibbs_sum r = props_gibbs_add_up(residual, pi, tau - 0.5);
    return (props_gibbs){
        .p = p,
        .t = t,
        .p_star = p_star,
        .pi = pi,
        .tau = tau,
        .g = log(pi) + i.f + r.f,
        .gp = 1 / pi + r.fx,
        .gpp = r.fxx - 1 / (pi * pi),
        .gt = i.fy + r.fy,
        .gtt = i.fyy + r.fyy,
        .gpt = r.fxy,
    };
}

fv_status props_gibbs_state(const props_gibbs *gibbs, fv_if97_state *out)
{
    double rt = FV_GAS_CONSTANT_WATER * gibbs->t;
    double tau = gibbs->tau;
    double a = gibbs->gp - tau * gibbs->gpt;
    double b = tau * tau * gibbs->gtt;
    fv_if97_state s = {
        .v = rt / gibbs->p_star * gibbs->gp,
        .h = rt * tau * gibbs->gt,
        .u = rt * (tau * gibbs->gt - gibbs->pi * gibbs->gp),
        .s = FV_GAS_CONSTANT_WATER * (tau * gibbs->gt - gibbs->g),
        .cp = -FV_GAS_CONSTANT_WATER * b,
        .cv = FV_GAS_CONSTANT_WATER * (a * a / gibbs->gpp - b),
        .w = sqrt(rt * gibbs->gp * gibbs->gp / (a * a / b - gibbs->gpp)),
    };
    if (!isfinite(s.v) || !isfinite(s.h) || !isfinite(s.u) || !isfinite(s.s) || !isfinite(s.cp) || !isfinite(s.cv) ||
        !isfinite(s.w))
        return FV_FAIL;
    *out = s;
    return FV_OK;
}

props_gibbs_slopes props_gibbs_slopes_of(const props_gibbs *gibbs)
{
    double r = FV_GAS_CONSTANT_WATER / gibbs->p_star;
    props_gibbs_slopes s = {
        .v = r * gibbs->t * gibbs->gp,
        .v_p = r * gibbs->t * gibbs->gpp / gibbs->p_star,
        .v_t = r * (gibbs->gp - gibbs->tau * gibbs->gpt),
        .h = FV_GAS_CONSTANT_WATER * gibbs->t * gibbs->tau * gibbs->gt,
        .h_t = -FV_GAS_CONSTANT_WATER * gibbs->tau * gibbs->tau * gibbs->gtt,
    };
    s.h_p = s.v - gibbs->t * s.v_t;
    return s;
}

bool props_if97_usable(double p, double t)
{
    return isfinite(p) && isfinite(t) && p > 0 && t > 0;
}
