/* SPDX-License-Identifier: MIT */
/* A chamber and its openings.
 *
 * Pressure across an opening at height z above the coil: dp = p + (rho_ambient - rho_chamber) g z, p the chamber's
 * gauge pressure at the coil's level. Outward m = Cd A sqrt(2 rho_c dp Y^2), inward Cd A sqrt(2 rho_ambient |dp|): a
 * gap at the lid lets steam out by buoyancy even when the chamber is at no pressure, and air in at the bottom. One
 * large opening lets air in and gas out at once (flow/exchange.c), less by its net flow, none from `ends` times what
 * passes at rest on; a smaller one has no counterflow.
 *
 * A water seal takes its head H = rho_f g h off that, both ways: gas bubbles out where dp > H, against the site's
 * pressure and H, and in where -dp > H; between, none passes. The head stays while it bubbles, and the seal full.
 *
 * What leaves is not quite what the chamber holds in the mean: with the ventilation effectiveness E and the air's mean
 * share y by mass it has y_j = E y while air is scarce, and 1 - (1 - y)/E, the same for vapour, while that is. */
#include "farvessel/flow.h"
#include "steady/equations.h"

#include <math.h>

/* Pa: below this the square root becomes a straight line through zero, so that it has a finite slope. */
static const double ROUND_OFF = 1e-4;

static const double LIGHTER_LEAST = 1e-6; /* kg/m3: gas that is no lighter rises through no opening */

enum { ROOT_STEPS = 100 };
static const double ROOT_SETTLED = 1e-13; /* of 1 Pa and the pressure */
static const double REACH_MOST = 1e9;     /* Pa: beyond it no opening is open at all */

double steady_purged_share(double purge, double share)
{
    const double scarce_air = purge * share, scarce_vapour = 1 - (1 - share) / purge;
    return purge >= 1 ? fmin(scarce_air, scarce_vapour) : fmax(scarce_air, scarce_vapour);
}

double steady_opening_flow(const steady_net_opening *opening, double site_pressure, double rho_ambient,
                           double rho_chamber, double p, double *by_p)
{
    const double across = p + (rho_ambient - rho_chamber) * FV_GRAVITY * opening->height, seal = opening->seal;
    if (seal > 0 && fabs(across) <= seal) {
        *by_p = 0;
        return 0;
    }
    const double dp = across > 0 ? across - seal : across + seal;
    const double rho = dp >= 0 ? rho_chamber : rho_ambient;
    double y2 = 1, by_x = 0;
    bool choked;
    const double p_up = site_pressure + (across > 0 ? across : 0);
    if (dp > 0)
        fv_flow_expansibility2(dp / p_up, FV_EXPONENT_SATURATED, &y2, &by_x, &choked);
    const double factor = opening->cd_area * sqrt(2 * rho * y2);
    const double root = 1 / sqrt(sqrt(dp * dp + ROUND_OFF * ROUND_OFF));
    *by_p = factor * (root - 0.5 * dp * dp * root * root * root * root * root);
    if (dp > 0)
        *by_p += 0.5 * factor / y2 * by_x * (1 - dp / p_up) / p_up * dp * root;
    return factor * dp * root;
}

double steady_opening_exchange(const steady_net_opening *opening, double rho_ambient, double rho_chamber, double m,
                               double *by_m, double *by_rho)
{
    const double lighter = rho_ambient - rho_chamber, both = rho_ambient + rho_chamber;
    *by_m = *by_rho = 0;
    if (!(opening->exchange > 0) || !(lighter > LIGHTER_LEAST))
        return 0;
    const double at_rest = opening->exchange * sqrt(2 * lighter / both), rho = m > 0 ? rho_chamber : rho_ambient;
    const double left = at_rest - fabs(m) / (rho * opening->ends);
    if (!(left > 0))
        return 0;
    *by_m = (m > 0 ? -1 : 1) / (rho * opening->ends);
    *by_rho = -0.5 * at_rest * (1 / lighter + 1 / both) + (m > 0 ? m / (rho * rho * opening->ends) : 0);
    return left;
}

/* All gas out of the openings at chamber pressure p. */
static double outflow(const fv_solver *s, int vessel, double p, double *by_p)
{
    const fv_network *net = s->net;
    const steady_net_vessel *v = &net->vessels[vessel];
    const double rho_air = fv_air_density(net->site_pressure, s->given.t_air), rho = s->given.chambers[vessel].density;
    double out = 0, slope;
    *by_p = 0;
    for (int j = 0; j < v->opening_count; j++) {
        out += steady_opening_flow(&net->openings[v->first_opening + j], net->site_pressure, rho_air, rho, p, &slope);
        *by_p += slope;
    }
    return out;
}

/* The pressure at which the openings let `wanted` out, and its slope. The flow grows with the root of the pressure, on
 * which Newton's method of the whole network would swing to and fro; here it is caught between two bounds. */
double steady_venting_pressure(const fv_solver *s, int vessel, double wanted, double start, double *by_wanted)
{
    double low = start, high = start, reach = 1, slope, p = start;
    while (outflow(s, vessel, low, &slope) > wanted && reach < REACH_MOST)
        low = start - (reach *= 4);
    for (reach = 1; outflow(s, vessel, high, &slope) < wanted && reach < REACH_MOST;)
        high = start + (reach *= 4);
    double last = high - low;
    for (int i = 0; i < ROOT_STEPS; i++) {
        const double gap = outflow(s, vessel, p, &slope) - wanted;
        if (gap < 0)
            low = p;
        else
            high = p;
        double next = p - gap / slope;
        /* Newton's step only where it closes in by half. */
        if (!(next >= low && next <= high) || fabs(next - p) > 0.5 * last)
            next = 0.5 * (low + high);
        last = fabs(next - p);
        p = next;
        if (last <= ROOT_SETTLED * (1 + fabs(p)))
            break;
    }
    outflow(s, vessel, p, &slope);
    *by_wanted = 1 / slope;
    return p;
}

void steady_chamber_equation(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_vessel *v = &s->net->vessels[vessel];
    const fv_chamber *c = &s->given.chambers[vessel];
    const int row = v->chamber_unknown;
    double by_inflow = 0;
    if (c->kind != FV_CHAMBER_VENTED) {
        residual[row] = x[row] - (c->kind == FV_CHAMBER_COLD ? c->pressure : 0);
    } else {
        const double excess = c->gain * steady_coil_inflow(v, x) - c->condenses;
        double slope;
        residual[row] = x[row] - steady_venting_pressure(s, vessel, excess > 0 ? excess : 0, x[row], &slope);
        by_inflow = excess > 0 ? -c->gain * slope : 0;
    }
    if (!stamps)
        return;
    steady_stamp(stamps, row, row, 1);
    steady_stamp(stamps, row, v->flow_unknown, by_inflow);
    if (v->segment_count > v->hole_count)
        steady_stamp(stamps, row, v->flow_unknown + 2 * v->hole_count, -by_inflow);
}
