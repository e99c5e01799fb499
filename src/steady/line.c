/* SPDX-License-Identifier: MIT */
/* A line: what its flow parameter t, kg/s, means, and its equation (duct.c, with the column of steam less that of air
 * outside, and the head of a seal):
 *
 *   Phi(p1) - Phi(p2) - losses(m) - rho (rho - rho_air) g rise = 0.
 *
 * Where steam may come from both ends t is the mean flow, and half of the condensate c is drawn at each end: t + c/2
 * enters at `from`, t - c/2 leaves at `to`; between -c/2 and c/2 steam enters at both ends. A node where steam is short
 * gives less than its half (dry.c).
 *
 * Where it comes from one end alone t is what enters there (negative where that is `to`). Less than c condenses over a
 * wet length of t/c, and nothing leaves; more than c leaves as t - c. Backflow from beyond condenses nowhere.
 *
 * Where a sag holds water, nothing leaves while the head of the seal builds up. The head h that the seal takes, signed
 * with the flow, is an unknown: h = rho_f g depth where steam leaves at `to`, the negative where it leaves at `from`,
 * between where none does. */
#include "farvessel/flow.h"
#include "steady/equations.h"
#include "steady/smooth.h"

#include <math.h>

/* Of all that the boilers could give: leakage against the whole head of a seal, so that the pressure of a closed end
 * beyond it is determined. */
static const double LEAK = 1e-10;
/* Pa: of the head of a seal on a shut line, whose water has no density to be looked up. */
static const double HEAD_LEAST = 1e-3;
/* Share of the length that has friction even when next to nothing of it is wet, so that its flow is determined. */
static const double FRICTION_SHARE_LEAST = 1e-3;
/* Water counts beside no less vapour than has this Reynolds number: the multiplier is one for turbulent flow and would
 * grow without bound towards rest. */
static const double TURBULENT = 2000;

/* Heat loss per metre with steam at t, and its slope. */
static double loss_at(const steady_convected *c, double t, double *slope)
{
    const double u = (t - c->below.t) / STEADY_LOSS_SPAN, v = 1 - u;
    const double rise = c->above.q - c->below.q, first = STEADY_LOSS_SPAN * c->below.q_t,
                 last = STEADY_LOSS_SPAN * c->above.q_t;
    *slope = (6 * u * v * rise + v * (v - 2 * u) * first + u * (u - 2 * v) * last) / STEADY_LOSS_SPAN;
    return c->below.q + u * u * (3 - 2 * u) * rise + u * v * (v * first - u * last);
}

/* Condensate of the filled line, kg/s, and its slope by one end's pressure (half the mean's). */
static void condensate_of(const fv_solver *s, int line, const double *x, double *c, double *by_p, fv_sat_point *mean)
{
    const steady_net_line *l = &s->net->lines[line];
    const steady_convected *carried = &s->state.convected[line];
    fv_sat_at(s->net->sat, s->net->site_pressure + 0.5 * (x[l->node_from] + x[l->node_to]), mean);
    const double latent = carried->enthalpy - mean->h_f;
    double slope;
    const double q = l->duct.length * loss_at(carried, mean->t, &slope);
    /* A line colder inside than out gains heat; it then only superheats the steam, which this model does not follow. */
    if (q <= 0 || latent <= 0) {
        *c = 0;
        *by_p = 0;
        return;
    }
    *c = q / latent;
    *by_p = 0.5 * (l->duct.length * slope * mean->dt_dp / latent + *c * mean->dh_f_dp / latent);
}

/* Steam from both ends. */
static void through(const fv_solver *s, const steady_net_line *l, const double *x, steady_line_flow *f)
{
    const double t = x[l->unknown], c = f->condensate;
    const double share_from = x[s->net->share_first + l->node_from], share_to = x[s->net->share_first + l->node_to];
    f->mean = t;
    f->mean_t = f->from_t = f->to_t = f->friction_share = 1;
    f->from = t + 0.5 * c * share_from;
    f->to = t - 0.5 * c * share_to;
    f->from_c = 0.5 * share_from;
    f->to_c = -0.5 * share_to;
    f->from_y = 0.5 * c;
    f->to_y = -0.5 * c;
    f->wet = f->made_c = 0.5 * (share_from + share_to);
}

/* Steam from one end. Written as if that were `from`, then mirrored. */
static void one_way(const fv_solver *s, double in, bool forth, steady_line_flow *f)
{
    const double c = f->condensate, sign = forth ? 1 : -1;
    double wet = 1, slope = 0, back = 0, back_slope = 0, share = 0;
    if (c > 0) {
        share = in / c;
        const double smoothing = s->state.smoothing * fmin(1, s->given.steam_scale / c);
        wet = steady_smooth_clamp(share, smoothing, &slope);
        back = steady_smooth_clamp(-share, smoothing, &back_slope);
    }
    const double out = in - c * wet, out_in = 1 - slope, out_c = slope * share - wet;
    f->wet = wet;
    f->made_t = sign * slope;
    f->made_c = -out_c;
    f->friction_share = FRICTION_SHARE_LEAST + (1 - FRICTION_SHARE_LEAST) * (wet + back);
    const double share_by_in = c > 0 ? (1 - FRICTION_SHARE_LEAST) * (slope - back_slope) / c : 0;
    f->friction_share_t = sign * share_by_in;
    f->friction_share_c = -share * share_by_in;
    f->mean = sign * (in - 0.5 * c * wet);
    f->mean_t = 1 - 0.5 * slope;
    f->mean_c = sign * 0.5 * out_c;
    f->from = forth ? in : -out;
    f->to = forth ? out : -in;
    f->from_t = forth ? 1 : out_in;
    f->to_t = forth ? out_in : 1;
    f->from_c = forth ? 0 : -out_c;
    f->to_c = forth ? out_c : 0;
}

static void flow_with_mean(const fv_solver *s, int line, const double *x, steady_line_flow *f, fv_sat_point *mean)
{
    const steady_net_line *l = &s->net->lines[line];
    *f = (steady_line_flow){.wet = 1};
    if (s->layout.form[line] == FORM_SHUT) {
        *mean = (fv_sat_point){0};
        return;
    }
    condensate_of(s, line, x, &f->condensate, &f->condensate_p, mean);
    f->t = mean->t;
    f->h_f = mean->h_f;
    f->latent = s->state.convected[line].enthalpy - mean->h_f;
    const bool forth = s->layout.fed_from[line];
    if (s->layout.form[line] == FORM_ONE_WAY)
        one_way(s, forth ? x[l->unknown] : -x[l->unknown], forth, f);
    else
        through(s, l, x, f);
    if (l->head_unknown >= 0)
        f->seal = x[l->head_unknown];
    f->made = f->wet * f->condensate;
}

void steady_line_flow_of(const fv_solver *s, int line, const double *x, steady_line_flow *out)
{
    fv_sat_point mean;
    flow_with_mean(s, line, x, out, &mean);
}

/* Multiplier for the water beside the vapour, with slopes by the mean flow, by what condenses, by the water that enters
 * and by the mean pressure (through the vapour's density; viscosity stands under the tenth root). */
typedef struct {
    double factor, by_m, by_made, by_water, by_p;
} two_phase;

/* What comes in with the steam is there all along, and half of what condenses on the way in the mean. */
static two_phase load_with_water(const fv_solver *s, int line, const steady_line_flow *f, double water_in,
                                 const fv_sat_point *mean)
{
    const steady_net_line *l = &s->net->lines[line];
    const double entrained = s->state.convected[line].entrained,
                 least = TURBULENT * mean->mu_g * l->duct.area / l->duct.bore;
    const bool laminar = fabs(f->mean) < least;
    const double vapour = laminar ? least : fabs(f->mean), water = water_in + 0.5 * f->made * entrained;
    two_phase t = {.factor = 1};
    if (water <= 0 || fv_flow_two_phase(vapour / (vapour + water), mean->rho_g, mean->rho_f, mean->mu_g, mean->mu_f,
                                        &t.factor) == FV_FAIL)
        return (two_phase){.factor = 1};
    /* factor = 1 + 20 X + X^2, so dfactor/dX from factor alone; X goes as (water/vapour)^0.9 and as rho_g^0.5. */
    const double x = sqrt(t.factor + 99) - 10, by_log = (20 + 2 * x) * x;
    t.by_p = by_log * 0.5 * mean->drho_g_dp / mean->rho_g;
    if (!s->work.water_in_jacobian)
        return t;
    t.by_m = laminar ? 0 : -by_log * 0.9 / vapour * (f->mean < 0 ? -1 : 1);
    t.by_water = by_log * 0.9 / water;
    t.by_made = 0.5 * entrained * t.by_water;
    return t;
}

/* Fittings, valves and reducers, by the flow's direction. What is regained never exceeds the line's own losses, so that
 * no line drives its steam. */
static double losses_of(const fv_solver *s, int line, bool back)
{
    const steady_net_line *l = &s->net->lines[line];
    return fmax(0, s->given.line_k[line] + l->narrowing[back] - s->state.recovery * l->widening[back]);
}

/* The duct runs up to the seal, which sits at its downstream end. */
static void duct_of(const fv_solver *s, int line, const double *x, const steady_line_flow *f, double water_in,
                    const fv_sat_point *mean, steady_duct_state *d)
{
    const steady_net_line *l = &s->net->lines[line];
    const double p1 = x[l->node_from] + (f->seal < 0 ? -f->seal : 0), p2 = x[l->node_to] + (f->seal > 0 ? f->seal : 0);
    const two_phase t = load_with_water(s, line, f, water_in, mean);
    steady_duct_evaluate(s->net, &l->duct, losses_of(s, line, f->mean < 0), p1, p2, f->mean, f->friction_share,
                         t.factor, d);
    d->by_seal = f->seal < 0 ? -d->by_p1 : d->by_p2; /* |seal| adds to the end that it guards */
    const double dry = d->friction / t.factor;
    d->by_m -= dry * t.by_m;
    d->by_made = -dry * t.by_made;
    d->by_water = -dry * t.by_water;
    d->by_p1 -= 0.5 * dry * t.by_p;
    d->by_p2 -= 0.5 * dry * t.by_p;
}

void steady_line_state(const fv_solver *s, int line, const double *x, steady_line_flow *flow, steady_duct_state *duct)
{
    fv_sat_point mean;
    steady_line_water water;
    flow_with_mean(s, line, x, flow, &mean);
    steady_water_into(s, line, flow, x, &water);
    duct_of(s, line, x, flow, water.in, &mean, duct);
}

static void stamp_balances(const fv_network *net, const steady_net_line *l, const steady_line_flow *f,
                           steady_stamps *stamps)
{
    const int row = l->unknown, from = l->node_from, to = l->node_to;
    steady_stamp(stamps, from, row, -f->from_t);
    steady_stamp(stamps, from, from, -f->from_c * f->condensate_p);
    steady_stamp(stamps, from, to, -f->from_c * f->condensate_p);
    steady_stamp(stamps, to, row, f->to_t);
    steady_stamp(stamps, from, net->share_first + from, -f->from_y);
    steady_stamp(stamps, to, from, f->to_c * f->condensate_p);
    steady_stamp(stamps, to, to, f->to_c * f->condensate_p);
    steady_stamp(stamps, to, net->share_first + to, f->to_y);
}

/* Steam leaves at `to` where the flow parameter t is above one bound and at `from` where it is below another; at the
 * bound the head grows from nothing to the whole. */
static void seal_equation(const fv_solver *s, int line, const steady_line_flow *f, const fv_sat_point *mean,
                          const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_line *l = &s->net->lines[line];
    const int row = l->head_unknown;
    const double head = fmax(mean->rho_f * FV_GRAVITY * l->sag, HEAD_LEAST), taken = x[row] / head;
    double by_head = 1, by_t = 0, by_c = 0;
    residual[row] = taken;
    if (s->layout.form[line] == FORM_ONE_WAY || s->layout.form[line] == FORM_THROUGH) {
        const double c = f->condensate / s->given.steam_scale, t = x[l->unknown] / s->given.steam_scale;
        const double forth_c = s->layout.form[line] == FORM_THROUGH ? 0.5
                               : s->layout.fed_from[line]           ? 1
                                                                    : 0,
                     back_c = 1 - forth_c;
        const double leak = LEAK + 0.5 * s->state.smoothing;
        double forth, back;
        residual[row] -= steady_smooth_clamp((1 - leak) * taken + t - forth_c * c, s->state.smoothing, &forth) -
                         steady_smooth_clamp(-(1 - leak) * taken - t - back_c * c, s->state.smoothing, &back);
        by_head = 1 - (1 - leak) * (forth + back);
        by_t = -(forth + back) / s->given.steam_scale;
        by_c = (forth * forth_c - back * back_c) / s->given.steam_scale;
    }
    if (!stamps)
        return;
    steady_stamp(stamps, row, row, by_head / head);
    steady_stamp(stamps, row, l->unknown, by_t);
    steady_stamp(stamps, row, l->node_from, by_c * f->condensate_p);
    steady_stamp(stamps, row, l->node_to, by_c * f->condensate_p);
}

void steady_line_equation(const fv_solver *s, int line, const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_line *l = &s->net->lines[line];
    const int row = l->unknown;
    steady_line_flow f;
    steady_line_water water;
    fv_sat_point mean;
    flow_with_mean(s, line, x, &f, &mean);
    steady_water_into(s, line, &f, x, &water);
    residual[l->node_from] -= f.from;
    residual[l->node_to] += f.to;
    double by_t = 1, by_from = 0, by_to = 0, by_head = 0, by_shares[2] = {0}, by_water = 0;
    if (s->layout.form[line] == FORM_SHUT) {
        residual[row] = x[row];
    } else {
        steady_duct_state d;
        duct_of(s, line, x, &f, water.in, &mean, &d);
        /* Steam column less the column of air outside, which gauge pressures are counted from. */
        const double buoyancy = d.rho_mean - fv_air_density(s->net->site_pressure, s->given.t_air);
        residual[row] = d.residual - d.rho_mean * buoyancy * FV_GRAVITY * l->rise;
        const double by_mean = -(d.rho_mean + buoyancy) * mean.drho_g_dp * FV_GRAVITY * l->rise;
        const double by_end[2] = {d.by_water * water.by_from, d.by_water * water.by_to};
        const double by_c = d.by_m * f.mean_c + d.by_wet * f.friction_share_c + d.by_made * f.made_c +
                            by_end[0] * f.from_c + by_end[1] * f.to_c;
        by_t = d.by_m * f.mean_t + d.by_wet * f.friction_share_t + d.by_made * f.made_t + by_end[0] * f.from_t +
               by_end[1] * f.to_t;
        by_shares[0] = (by_end[0] + d.by_made) * f.from_y;
        by_shares[1] = (by_end[1] - d.by_made) * f.to_y;
        by_water = d.by_water;
        by_head = d.by_seal;
        by_from = d.by_p1 + by_c * f.condensate_p + 0.5 * by_mean;
        by_to = d.by_p2 + by_c * f.condensate_p + 0.5 * by_mean;
    }
    if (l->head_unknown >= 0)
        seal_equation(s, line, &f, &mean, x, residual, stamps);
    steady_line_water_equations(s, line, &f, &water, x, residual, stamps);
    if (!stamps)
        return;
    if (l->head_unknown >= 0)
        steady_stamp(stamps, row, l->head_unknown, by_head);
    steady_stamp(stamps, row, row, by_t);
    steady_stamp(stamps, row, l->node_from, by_from);
    steady_stamp(stamps, row, l->node_to, by_to);
    steady_stamp(stamps, row, s->net->share_first + l->node_from, by_shares[0]);
    steady_stamp(stamps, row, s->net->share_first + l->node_to, by_shares[1]);
    steady_stamp(stamps, row, s->net->water_first + s->net->plant_node[l->node_from], by_water * water.by_water[0]);
    steady_stamp(stamps, row, s->net->water_first + s->net->plant_node[l->node_to], by_water * water.by_water[1]);
    stamp_balances(s->net, l, &f, stamps);
}
