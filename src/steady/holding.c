/* SPDX-License-Identifier: MIT */
/* The steady balances of a holding chamber, the steady form of what a run follows in time:
 *
 *   air     sum of a_j = sum of w_j y_j
 *   heat    m (h_v - h_f) = W + sum of w_j (1 - y_j) (h_g - h_f) + sum of a_j c_pa (T - T_air)
 *
 * a_j air in and w_j gas out of opening j, kg/s; y the air's share of the gas by mass, y_j of what leaves by j; W what
 * the walls lose, W, soaked through at T, or the uptake that is said; m steam that comes, all at the temperature T, K,
 * of the well-mixed gas. Pure steam, y = 0 and T = T_s(p), stays as long as no opening draws in; else T is below the
 * boiling point, and the pressure follows from the air. The heat that is left falls as T rises: one root. Openings:
 * chamber.c. */
#include "steady/holding.h"
#include "farvessel/constants.h"
#include "num/root.h"
#include "steady/equations.h"
#include "steady/need.h"

#include <math.h>

static const double PRESSURE_MARGIN = 1.0, PRESSURE_MOST = 1e6, PRESSURE_SETTLED = 1e-9; /* Pa */
static const double T_MARGIN = 1e-7, T_SETTLED = 1e-9;                                   /* K */

typedef struct {
    const steady_holding *h;
    steady_held held;
    fv_sat_at_t_point vapour;
    double steam, h_v;
} search;

static double outside_density(const steady_holding *h)
{
    return fv_air_density(h->site_pressure, h->t_air);
}

/* What the openings pass at a chamber's pressure and density; with `share` of its gas air, how much of that leaves. */
static void pass(const steady_holding *h, double pressure, double density, double share, double *out, double *air,
                 double *in)
{
    const double outside = outside_density(h);
    *out = *air = *in = 0;
    for (int j = 0; j < h->opening_count; j++) {
        double by_m, slope;
        const double m = steady_opening_flow(&h->openings[j], h->site_pressure, outside, density, pressure, &slope);
        const double both = steady_opening_exchange(&h->openings[j], outside, density, m, &by_m, &slope);
        *out += fmax(0, m) + both * density;
        *in += fmax(0, -m) + both * outside;
        *air += (fmax(0, m) + both * density) * steady_purged_share(h->openings[j].purge, share);
    }
}

/* Of the pressures at which an opening begins to draw in the lowest and the highest; the highest at which one begins to
 * let out. Without seals an opening does both at one. */
typedef struct {
    double all_draw, one_draws, all_vent;
} limits;

static limits rest_pressures(const steady_holding *h, double density)
{
    const double outside = outside_density(h);
    limits at = {.all_draw = INFINITY, .one_draws = -INFINITY, .all_vent = -INFINITY};
    for (int j = 0; j < h->opening_count; j++) {
        const steady_net_opening *o = &h->openings[j];
        const double rest = -(outside - density) * FV_GRAVITY * o->height;
        /* a large one lets air in beside what leaves until its net outflow, Cd A sqrt(2 rho dp), ends that */
        double by_m, by_rho;
        const double both = steady_opening_exchange(o, outside, density, 0, &by_m, &by_rho);
        const double ends = both * o->ends / o->cd_area;
        const double over = both > 0 ? 0.5 * density * ends * ends : 0;
        at.all_draw = fmin(at.all_draw, rest - o->seal);
        at.one_draws = fmax(at.one_draws, rest - o->seal + over);
        at.all_vent = fmax(at.all_vent, rest + o->seal + over);
    }
    return at;
}

/* Air drawn in less air that leaves, kg/s, at a temperature and a pressure. */
static double air_gap(double pressure, void *context)
{
    search *s = context;
    const double air = fmax(0, s->h->site_pressure + pressure - s->vapour.p) / (FV_GAS_CONSTANT_AIR * s->held.t);
    s->held.pressure = pressure;
    s->held.density = air + s->vapour.rho_g;
    double gone;
    pass(s->h, pressure, s->held.density, air / s->held.density, &s->held.vented, &gone, &s->held.air);
    s->held.vapour = s->held.vented - gone;
    return s->held.air - gone;
}

/* The mixed chamber at t: pressure from the balance of air, and the heat that it takes, W. */
static double heat_at(search *s, double t)
{
    const steady_holding *h = s->h;
    double low = INFINITY, high = -INFINITY, root;
    s->held.t = t;
    s->held.pure = false;
    fv_sat_at_t(h->sat, t, &s->vapour);
    s->held.loss = steady_uptake(h->plant, h->vessel, t);
    const double densities[] = {fv_air_density(h->site_pressure, t), s->vapour.rho_g};
    for (int i = 0; i < 2; i++) {
        const limits at = rest_pressures(h, densities[i]);
        low = fmin(low, at.all_draw - PRESSURE_MARGIN);
        high = fmax(high, at.all_vent + PRESSURE_MARGIN);
    }
    /* less than its vapour's pressure no gas has */
    low = fmax(low, s->vapour.p - h->site_pressure);
    if (!(low < high) || num_root_between(air_gap, s, low, high, PRESSURE_SETTLED, 0, &root) != FV_OK)
        root = fmax(low, fmin(high, 0));
    air_gap(root, s);
    s->held.h_f = s->vapour.h_f;
    s->held.h_fg = s->vapour.h_g - s->vapour.h_f;
    return s->held.loss + s->held.vapour * s->held.h_fg + s->held.air * FV_CP_AIR * (t - h->t_air);
}

static double heat_left(double t, void *context)
{
    search *s = context;
    const double taken = heat_at(s, t);
    return s->steam * (s->h_v - s->held.h_f) - taken;
}

/* Pure steam at a pressure. */
static void pure_at(search *s, double pressure)
{
    const steady_holding *h = s->h;
    fv_sat_point at;
    double in, air;
    fv_sat_at(h->sat, h->site_pressure + pressure, &at);
    s->held = (steady_held){
        .t = at.t, .pressure = pressure, .pure = true, .density = at.rho_g, .h_f = at.h_f, .h_fg = at.h_g - at.h_f};
    s->held.loss = steady_uptake(h->plant, h->vessel, at.t);
    pass(h, pressure, at.rho_g, 0, &s->held.vented, &air, &in);
    s->held.vapour = s->held.vented;
}

/* Heat that comes less what pure steam at that pressure takes, W. */
static double pure_left(double pressure, void *context)
{
    search *s = context;
    pure_at(s, pressure);
    return s->steam * (s->h_v - s->held.h_f) - s->held.loss - s->held.vapour * s->held.h_fg;
}

/* Least pressure at which no opening draws in air while the chamber is full of steam. */
static double pure_limit(const steady_holding *h)
{
    return rest_pressures(h, fv_sat_rho_g(h->sat, h->site_pressure, NULL)).one_draws;
}

fv_status steady_hold_with(const steady_holding *h, double steam, double h_v, steady_held *out)
{
    search s = {.h = h, .steam = steam, .h_v = h_v};
    const double limit = pure_limit(h);
    double root;
    fv_status status;
    if (pure_left(limit, &s) >= 0) {
        status = num_root_between(pure_left, &s, limit, PRESSURE_MOST, PRESSURE_SETTLED, 0, &root);
        if (status == FV_OK)
            pure_at(&s, root);
    } else {
        const double most = fv_sat_t(h->sat, h->site_pressure + limit, NULL) - T_MARGIN;
        status = num_root_between(heat_left, &s, h->t_air, most, T_SETTLED, 0, &root);
        if (status == FV_OK)
            heat_at(&s, root);
        else /* at one of the bounds */
            heat_at(&s, heat_left(most, &s) >= 0 ? most : h->t_air);
        status = isfinite(s.held.pressure) ? FV_OK : FV_FAIL;
    }
    *out = s.held;
    return status;
}

fv_status steady_hold_need(const steady_holding *h, double t, double h_v, double *steam)
{
    search s = {.h = h, .h_v = h_v};
    const double limit = pure_limit(h), boils = fv_sat_t(h->sat, h->site_pressure + limit, NULL);
    double heat;
    if (t < boils - T_MARGIN) {
        heat = heat_at(&s, t);
    } else {
        pure_at(&s, limit);
        heat = s.held.loss + s.held.vapour * s.held.h_fg;
    }
    *steam = heat / (h_v - s.held.h_f);
    return isfinite(*steam) ? FV_OK : FV_FAIL;
}
