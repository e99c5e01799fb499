/* SPDX-License-Identifier: MIT */
/* Flow of saturated vapour along a round bore, density following the saturation line:
 *
 *   Phi(p1) - Phi(p2) = G|G| (f L/(2 D) + K/2) + G^2 ln(rho1/rho2)
 *
 * one-dimensional momentum of a compressible fluid in a constant bore with friction, integrated along the saturation
 * line, kg/m3 Pa. Its Mach number is M = G sqrt(d rho/dp)/rho. Where M is 1 at the end that it flows to, it chokes:
 * lowering the pressure beyond changes nothing, so the end's pressure is then the sonic one, p*(G). On the way pressure
 * falls, so M < 1 where it begins; the equation's other root, with M > 1 there, is none of flow from rest. Below p* the
 * equation goes on with the slope rho*, on which no root lies. */
#include "farvessel/flow.h"
#include "steady/equations.h"

#include <math.h>

/* d(f Re^2/2)/dRe of laminar flow, and the share of it that stands beside a fixed friction factor: that alone has no
 * slope at rest, and two such lines side by side would be undetermined. Below 1e-7 of the friction above Re 30,000. */
static const double LAMINAR = 32, BESIDE_FIXED = 1e-6;

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

/* One end of the bore. */
typedef struct {
    double p, rho, slope; /* not below the sonic pressure */
    double below;         /* Pa that it lies below it */
    double sonic_by_flux; /* of the sonic pressure, where it lies below */
} duct_end;

static duct_end end_at(const fv_network *net, double p, double flux)
{
    duct_end e = {.p = p};
    e.rho = fv_sat_rho_g(net->sat, net->site_pressure + p, &e.slope);
    if (flux * flux * e.slope <= e.rho * e.rho)
        return e;
    e.p = steady_sonic_pressure(net, flux, p, &e.sonic_by_flux);
    e.rho = fv_sat_rho_g(net->sat, net->site_pressure + e.p, &e.slope);
    e.below = e.p - p;
    return e;
}

void steady_duct_evaluate(const fv_network *net, const steady_duct *duct, double k, double p1, double p2, double m,
                          double wet, double two_phase, steady_duct_state *out)
{
    const double g = m / duct->area, sign = m < 0 ? -1 : 1;
    const duct_end one = end_at(net, p1, fabs(g)), two = end_at(net, p2, fabs(g));
    const duct_end *first = m < 0 ? &two : &one, *last = m < 0 ? &one : &two;
    double mu_p;
    *out = (steady_duct_state){.two_phase = two_phase, .choked = last->below > 0, .rho1 = one.rho, .rho2 = two.rho};
    out->mach = fabs(g) * sqrt(last->slope) / last->rho;
    const double p_mean = net->site_pressure + 0.5 * (one.p + two.p), mu = fv_sat_mu_g(net->sat, p_mean, &mu_p);
    out->rho_mean = fv_sat_rho_g(net->sat, p_mean, NULL);

    const double re = fabs(g) * duct->bore / mu;
    double half_f_re2, by_re;
    friction_term(duct, re, &half_f_re2, &by_re, &out->doubtful);
    const double shape = two_phase * duct->length / (duct->bore * duct->bore * duct->bore);
    const double whole = sign * shape * mu * mu * half_f_re2; /* friction of the whole length */
    const double by_mu = sign * shape * mu * (2 * half_f_re2 - re * by_re) * wet * 0.5 * mu_p;
    const double logarithm = log1p((one.rho - two.rho) / two.rho);
    out->reynolds = re;
    out->f = re > 0 ? 2 * half_f_re2 / (re * re) : 0;
    out->friction = whole * wet;
    out->fittings = 0.5 * k * g * fabs(g);
    out->speed = g * g * logarithm;
    out->residual = fv_sat_phi_step(net->sat, net->site_pressure + two.p, one.p - two.p) - out->friction -
                    out->fittings - out->speed - sign * first->rho * first->below;
    out->by_p1 = one.rho - g * g * one.slope / one.rho - by_mu;
    out->by_p2 = -two.rho + g * g * two.slope / two.rho - by_mu;
    /* At the sonic pressure an end's own share of the slope is zero. */
    if (first->below > 0)
        *(m < 0 ? &out->by_p2 : &out->by_p1) = sign * first->rho;
    if (last->below > 0)
        *(m < 0 ? &out->by_p1 : &out->by_p2) = 0;
    const double by_g = shape * mu * by_re * duct->bore * wet + k * fabs(g) + 2 * g * logarithm +
                        (first->below > 0 ? first->rho * first->sonic_by_flux : 0);
    out->by_m = -by_g / duct->area;
    out->by_wet = -whole;
}
