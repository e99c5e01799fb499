/* SPDX-License-Identifier: MIT */
/* Flow of saturated vapour along a round bore, density following the saturation line:
 *
 *   Phi(p1) - Phi(p2) = G|G| (f L/(2 D) + K/2) + G^2 ln(rho1/rho2)
 *
 * one-dimensional momentum of a compressible fluid in a constant bore with friction, integrated along the saturation
 * line. It chokes where G^2 = rho^2/(d rho/dp) at the end it flows to: further lowering the pressure beyond changes
 * nothing, so the end's pressure is then the choking one. */
#include "farvessel/flow.h"
#include "steady/equations.h"

#include <math.h>

/* d(f Re^2/2)/dRe of laminar flow, and the share of it that stands beside a fixed friction factor: that alone has no
 * slope at rest, and two such lines side by side would be undetermined. Below 1e-7 of the friction above Re 30,000. */
static const double LAMINAR = 32, BESIDE_FIXED = 1e-6;

/* Gauge pressure at which mass flux g chokes: rho = g sqrt(d rho/dp). */
static double choking_pressure(const fv_network *net, double flux, double p)
{
    for (int i = 0; i < 30; i++) {
        double slope, rho = fv_sat_rho_g(net->sat, net->site_pressure + p, &slope);
        double step = (flux * sqrt(slope) - rho) / slope;
        p += step;
        if (fabs(step) < 1e-9 * (net->site_pressure + fabs(p)))
            break;
    }
    return p;
}

/* f Re^2/2 with the fixed factor or the correlation. */
static void friction_term(const steady_duct *duct, double re, double *value, double *slope, bool *doubtful)
{
    if (!isnan(duct->friction)) {
        *value = 0.5 * duct->friction * re * re + BESIDE_FIXED * LAMINAR * re;
        *slope = duct->friction * re + BESIDE_FIXED * LAMINAR;
        return;
    }
    if (fv_flow_friction_re2(re, duct->relative_roughness, value, slope) != FV_OK)
        *doubtful = true;
}

void steady_duct_evaluate(const fv_network *net, const steady_duct *duct, double k, double p1, double p2, double m,
                          double wet, double two_phase, steady_duct_state *out)
{
    const double site = net->site_pressure;
    const double g = m / duct->area;
    double slope1, slope2, mu_p;
    out->choked = out->doubtful = false;
    out->by_made = out->by_water = out->by_seal = 0; /* these are the line's */
    out->two_phase = two_phase;
    out->rho1 = fv_sat_rho_g(net->sat, site + p1, &slope1);
    out->rho2 = fv_sat_rho_g(net->sat, site + p2, &slope2);
    double *p_end = m >= 0 ? &p2 : &p1, *rho_end = m >= 0 ? &out->rho2 : &out->rho1,
           *slope_end = m >= 0 ? &slope2 : &slope1;
    if (g * g * *slope_end > *rho_end * *rho_end) {
        out->choked = true;
        *p_end = choking_pressure(net, fabs(g), *p_end);
        *rho_end = fv_sat_rho_g(net->sat, site + *p_end, slope_end);
    }
    const double p_mean = site + 0.5 * (p1 + p2), mu = fv_sat_mu_g(net->sat, p_mean, &mu_p);
    out->rho_mean = fv_sat_rho_g(net->sat, p_mean, NULL);

    const double re = fabs(g) * duct->bore / mu, sign = m < 0 ? -1 : 1;
    double half_f_re2, by_re;
    friction_term(duct, re, &half_f_re2, &by_re, &out->doubtful);
    const double shape = two_phase * duct->length / (duct->bore * duct->bore * duct->bore);
    const double whole = sign * shape * mu * mu * half_f_re2; /* friction of the whole length */
    const double by_mu = sign * shape * mu * (2 * half_f_re2 - re * by_re) * wet * 0.5 * mu_p;
    const double logarithm = log1p((out->rho1 - out->rho2) / out->rho2);
    out->reynolds = re;
    out->f = re > 0 ? 2 * half_f_re2 / (re * re) : 0;
    out->friction = whole * wet;
    out->fittings = 0.5 * k * g * fabs(g);
    out->speed = g * g * logarithm;
    out->residual = fv_sat_phi_step(net->sat, site + p2, p1 - p2) - out->friction - out->fittings - out->speed;
    out->by_p1 = out->rho1 - g * g * slope1 / out->rho1 - by_mu;
    out->by_p2 = -out->rho2 + g * g * slope2 / out->rho2 - by_mu;
    /* At a choked end the pressure beyond has no say; the end's own share of the slope is zero by the choking
     * condition. */
    if (out->choked)
        *(m >= 0 ? &out->by_p2 : &out->by_p1) = 0;
    const double by_g = shape * mu * by_re * duct->bore * wet + k * fabs(g) + 2 * g * logarithm;
    out->by_m = -by_g / duct->area;
    out->by_wet = -whole;
}
