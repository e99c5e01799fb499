/* SPDX-License-Identifier: MIT */
/* What boilers may give, kg/s: at most (x Q - loss - rate (T - t))/(h_g - h_feed + (1/dryness - 1)(h_f - h_feed)). A
 * boiler has a non-return valve and a control pressure: below it, it gives all it can make; at
 * it, anything from nothing to all; above it, nothing. Boilers at one point with one control pressure share one
 * unknown, and the result shares it among them in proportion to what each could make. */
#include "steady/equations.h"
#include "steady/smooth.h"

/* Pressure by which the control's vertical line is tilted inside Newton's method only; the root does not depend on it.
 */
static const double CONTROL_SPAN = 1000.0; /* Pa */

/* Of all that the boilers could give: what the node of the boiler with the highest control pressure loses for each
 * CONTROL_SPAN above it, so that where nothing takes steam the boiler stands at what it holds instead of anywhere above
 * it. */
static const double LEAK = 1e-14;

/* Water that replaces what leaves: fed at once; or, where it is fed by hand, none, so that what leaves was at the
 * boiling point already. */
double steady_feed_enthalpy(const fv_network *net, const fv_boiler *boiler, const fv_sat_point *at, double *by_p)
{
    const bool by_hand = fv_word(boiler->feeding) == FV_FEED_BY_HAND;
    fv_sat_at_t_point cold;
    fv_sat_at_t(net->sat, boiler->feed.v, &cold);
    *by_p = by_hand ? at->dh_f_dp : 0;
    return by_hand ? at->h_f : cold.h_f;
}

double steady_boiler_most(const fv_network *net, const fv_boiler *boiler, double fire, fv_stored stored, double p,
                          double *by_p)
{
    fv_sat_point at;
    fv_sat_at(net->sat, net->site_pressure + p, &at);
    double feed_by_p;
    const double feed = steady_feed_enthalpy(net, boiler, &at, &feed_by_p);
    const double dryness = boiler->dryness.v;
    /* Heat for each kg of vapour that leaves, its carried water included. */
    const double wet = (1 - dryness) / dryness;
    const double rise = at.h_g - feed + wet * (at.h_f - feed);
    const double heat = boiler->output.v * fire - boiler->loss.v - stored.rate * (at.t - stored.t);
    if (heat <= 0) {
        *by_p = 0;
        return 0;
    }
    *by_p =
        -heat / (rise * rise) * (at.dh_g_dp + wet * at.dh_f_dp - (1 + wet) * feed_by_p) - stored.rate * at.dt_dp / rise;
    return heat / rise;
}

double steady_boilers_wetness(const fv_solver *s, int group, double p, double *by_p)
{
    const fv_network *net = s->net;
    const steady_net_boilers *b = &net->boilers[group];
    double steam = 0, water = 0, steam_p = 0, water_p = 0;
    for (int i = 0; i < b->count; i++) {
        const int k = net->boiler_order[b->first + i];
        const fv_boiler *boiler = net->plant->boilers[k];
        const double wet = (1 - boiler->dryness.v) / boiler->dryness.v;
        double slope;
        const double most = steady_boiler_most(net, boiler, s->given.fire[k], s->given.stored[k], p, &slope);
        steam += most;
        steam_p += slope;
        water += wet * most;
        water_p += wet * slope;
    }
    *by_p = steam > 0 ? (water_p - water / steam * steam_p) / steam : 0;
    return steam > 0 ? water / steam : 0;
}

double steady_boilers_most(const fv_solver *s, int group, double p, double *by_p)
{
    const fv_network *net = s->net;
    const steady_net_boilers *b = &net->boilers[group];
    double most = 0;
    *by_p = 0;
    for (int i = 0; i < b->count; i++) {
        const int k = net->boiler_order[b->first + i];
        double slope;
        most += steady_boiler_most(net, net->plant->boilers[k], s->given.fire[k], s->given.stored[k], p, &slope);
        *by_p += slope;
    }
    return most;
}

void steady_boiler_equation(const fv_solver *s, int group, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    const steady_net_boilers *b = &net->boilers[group];
    double slope;
    const double most = steady_boilers_most(s, group, x[b->node], &slope), m = x[b->unknown];
    double by_m = 1, by_p = 0;
    residual[b->unknown] = m;
    if (most > 0) {
        /* m less the middle one of nothing, what the control asks for, and all that can be made */
        double clamped;
        const double under = (b->holds - x[b->node]) / CONTROL_SPAN,
                     relaxation = STEADY_RELAXATION * s->state.smoothing;
        const double share = steady_smooth_clamp(m / most + under, s->state.smoothing, &clamped) + relaxation * under;
        residual[b->unknown] -= most * share;
        by_m = 1 - clamped;
        by_p = clamped * (most / CONTROL_SPAN + m * slope / most) + relaxation * most / CONTROL_SPAN - slope * share;
    }
    const double leak = most > 0 && s->layout.leads[group] ? LEAK * s->given.steam_scale / CONTROL_SPAN : 0;
    residual[b->node] += m - leak * (x[b->node] - b->holds);
    if (!stamps)
        return;
    steady_stamp(stamps, b->unknown, b->unknown, by_m);
    steady_stamp(stamps, b->unknown, b->node, by_p);
    steady_stamp(stamps, b->node, b->unknown, 1);
    steady_stamp(stamps, b->node, b->node, -leak);
}
