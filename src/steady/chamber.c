/* SPDX-License-Identifier: MIT */
/* A chamber and its openings.
 *
 * Pressure across an opening at height z above the coil: dp = p + (rho_ambient - rho_chamber) g z, p the chamber's
 * gauge pressure at the coil's level. Outward m = Cd A sqrt(2 rho_c dp Y^2), inward Cd A sqrt(2 rho_ambient |dp|): a
 * gap at the lid lets steam out by buoyancy even when the chamber is at no pressure, and air in at the bottom. One
 * opening has no counterflow. */
#include "farvessel/flow.h"
#include "steady/network.h"

#include <math.h>

/* Below this the square root is rounded off to a straight line through zero, so that Newton finds a finite slope, Pa.
 */
static const double ROUND_OFF = 1e-4;

double fv_opening_flow(const fv_net_opening *opening, double site_pressure, double rho_ambient, double rho_chamber,
                       double p, double *by_p)
{
    const double dp = p + (rho_ambient - rho_chamber) * FV_GRAVITY * opening->height;
    const double rho = dp >= 0 ? rho_chamber : rho_ambient;
    double y2 = 1, by_x = 0;
    bool choked;
    const double p_up = site_pressure + (dp > 0 ? dp : 0);
    if (dp > 0)
        fv_flow_expansibility2(dp / p_up, FV_EXPONENT_SATURATED, &y2, &by_x, &choked);
    const double factor = opening->cd_area * sqrt(2 * rho * y2);
    const double root = 1 / sqrt(sqrt(dp * dp + ROUND_OFF * ROUND_OFF));
    *by_p = factor * (root - 0.5 * dp * dp * root * root * root * root * root);
    if (dp > 0)
        *by_p += 0.5 * factor / y2 * by_x * (1 - dp / p_up) / p_up * dp * root;
    return factor * dp * root;
}

void fv_chamber_equation(const fv_solver *s, int vessel, const double *x, double *residual, fv_stamps *stamps)
{
    const fv_network *net = s->net;
    const fv_net_vessel *v = &net->vessels[vessel];
    const fv_chamber *c = &s->chambers[vessel];
    const int row = v->chamber_unknown;
    const double p = x[row];
    double by_p = 1, by_inflow = 0;
    if (c->kind != FV_CHAMBER_VENTED) {
        residual[row] = p - (c->kind == FV_CHAMBER_COLD ? c->pressure : 0);
    } else {
        const double rho_air = fv_air_density(net->site_pressure, s->t_air);
        double out = 0;
        by_p = 0;
        for (int j = 0; j < v->opening_count; j++) {
            double slope;
            out += fv_opening_flow(&net->openings[v->first_opening + j], net->site_pressure, rho_air, c->density, p,
                                   &slope);
            by_p += slope;
        }
        const double excess = c->gain * fv_coil_inflow(v, x) - c->condenses;
        residual[row] = out - (excess > 0 ? excess : 0);
        by_inflow = excess > 0 ? -c->gain : 0;
    }
    if (!stamps)
        return;
    fv_stamp(stamps, row, row, by_p);
    fv_stamp(stamps, row, v->flow_unknown, by_inflow);
    if (v->segment_count > v->hole_count)
        fv_stamp(stamps, row, v->flow_unknown + 2 * v->hole_count, -by_inflow);
}
