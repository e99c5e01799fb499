/* SPDX-License-Identifier: MIT */
/* A line: what its flow parameter t means, and its equation.
 *
 * t is the mean flow, and half of the condensate c is drawn at each end: t + c/2 enters at `from`, t - c/2 leaves at
 * `to`; between -c/2 and c/2 steam enters at both ends. Where a sag holds water, nothing passes while the head of the
 * seal builds up: t then runs on over a stretch in which the flows stand still. One parameter so runs along the whole
 * bent curve, and the complementarity 0 <= m_out  perpendicular to  p_before_seal - p_after <= rho_f g h is an equation
 * with a slope everywhere.
 *
 * Where steam is short (dry.c), a line that condenses all it gets has its wet length and delivers nothing; and a dry
 * node that may be fed from several sides gives each of its lines a share of the half that they could condense. */
#include "farvessel/flow.h"
#include "steady/network.h"

#include <math.h>

/* Share of the flow parameter that passes while a seal builds up, so that no pressure between two seals is
 * undetermined. */
static const double SEEP = 1e-10;
/* Below this Reynolds number of the vapour the water's share counts as it does there: the multiplier is one for
 * turbulent flow and would grow without bound towards rest. */
static const double TURBULENT = 2000;

/* Condensate of the filled line, kg/s, and its slope by one end's pressure (half the mean's). */
static void condensate_of(const fv_solver *s, int line, const double *x, double *c, double *by_p, fv_sat_point *mean)
{
    const fv_net_line *l = &s->net->lines[line];
    const fv_carried *carried = &s->carried[line];
    fv_sat_at(s->net->sat, s->net->site_pressure + 0.5 * (x[l->node_from] + x[l->node_to]), mean);
    const double latent = carried->enthalpy - mean->h_f;
    const double q = l->duct.length * (carried->q_loss + carried->dq_dt * (mean->t - carried->t_loss));
    /* A line colder inside than out gains heat; it then only superheats the steam, which this model does not follow. */
    if (q <= 0 || latent <= 0) {
        *c = 0;
        *by_p = 0;
        return;
    }
    *c = q / latent;
    *by_p = 0.5 * (l->duct.length * carried->dq_dt * mean->dt_dp / latent + *c * mean->dh_f_dp / latent);
}

/* What goes in and comes out, the mean, and the seal's head, with slopes by an amount a and by the condensate. */
typedef struct {
    double in, out, mean, wet, seal;
    double in_a, out_a, mean_a, wet_a, seal_a;
    double out_c, mean_c, wet_c;
} passage;

static void through(double t, double c, fv_line_flow *f)
{
    f->from = t + 0.5 * c;
    f->to = t - 0.5 * c;
    f->mean = t;
    f->from_t = f->to_t = f->mean_t = 1;
    f->from_c = 0.5;
    f->to_c = -0.5;
}

/* Through, with |t| beyond c/2, where steam wants to pass the seal; towards `to`, the other way by mirror image. */
static void through_seal(double t, double c, double head, double stretch, fv_line_flow *f)
{
    const double sign = t < 0 ? -1 : 1, beyond = fabs(t) - 0.5 * c;
    const bool open = beyond >= stretch;
    const double slope = open ? 1 : SEEP, out = open ? beyond - stretch * (1 - SEEP) : SEEP * beyond;
    f->seal = sign * (open ? head : head * beyond / stretch);
    f->seal_t = open ? 0 : head / stretch;
    f->seal_c = open ? 0 : -0.5 * sign * head / stretch;
    f->from = sign > 0 ? c + out : -out;
    f->to = sign > 0 ? out : -c - out;
    f->mean = sign * (out + 0.5 * c);
    f->from_t = f->to_t = f->mean_t = slope;
    f->from_c = sign > 0 ? 1 - 0.5 * slope : 0.5 * slope;
    f->to_c = sign > 0 ? -0.5 * slope : -1 + 0.5 * slope;
    f->mean_c = sign * 0.5 * (1 - slope);
}

/* What comes in condenses on the way, over as much of the length as that takes. */
static passage all_condenses(double in, double c)
{
    passage p = {.in = in, .in_a = 1, .mean = 0.5 * in, .mean_a = 0.5, .wet = 1};
    if (c > 0) {
        p.wet = in / c;
        p.wet_a = 1 / c;
        p.wet_c = -in / (c * c);
    }
    return p;
}

/* Drawn back out of a chamber, which only unequal ones can bring about: -in comes out at the end that used to be fed,
 * and as much again condenses until the wall has its fill; first the seal must be overcome. */
static passage drawn_back(double in, double c, double head, double stretch)
{
    const bool open = -in >= stretch;
    const double back = open ? -in - stretch * (1 - SEEP) : -SEEP * in, slope = open ? 1 : SEEP;
    const bool filled = back >= c;
    passage p = {.in = -back, .in_a = slope, .out = -back - (filled ? c : back), .out_a = filled ? slope : 2 * slope};
    p.out_c = filled ? -1 : 0;
    p.wet = filled || c <= 0 ? 1 : back / c;
    p.wet_a = filled || c <= 0 ? 0 : -slope / c;
    p.wet_c = filled || c <= 0 ? 0 : -back / (c * c);
    p.mean = 0.5 * (p.in + p.out);
    p.mean_a = 0.5 * (p.in_a + p.out_a);
    p.mean_c = 0.5 * p.out_c;
    p.seal = open ? -head : head * in / fmax(stretch, -in);
    p.seal_a = open ? 0 : head / stretch;
    return p;
}

/* Delivers nothing. in = sign t + c/2 is what comes in at the end that is fed, `from` if sign is 1, `to` if -1. */
static void asleep(const passage *p, double sign, fv_line_flow *f)
{
    const bool forth = sign > 0;
    f->from = forth ? p->in : -p->out;
    f->to = forth ? p->out : -p->in;
    f->mean = sign * p->mean;
    f->wet = p->wet;
    f->seal = sign * p->seal;
    f->from_t = forth ? p->in_a : p->out_a;
    f->to_t = forth ? p->out_a : p->in_a;
    f->mean_t = p->mean_a;
    f->wet_t = sign * p->wet_a;
    f->seal_t = p->seal_a;
    f->from_c = 0.5 * sign * f->from_t - (forth ? 0 : p->out_c);
    f->to_c = 0.5 * sign * f->to_t + (forth ? p->out_c : 0);
    f->mean_c = sign * (0.5 * p->mean_a + p->mean_c);
    f->wet_c = 0.5 * p->wet_a + p->wet_c;
    f->seal_c = 0.5 * sign * p->seal_a;
}

static void flow_with_mean(const fv_solver *s, int line, const double *x, fv_line_flow *f, fv_sat_point *mean)
{
    const fv_net_line *l = &s->net->lines[line];
    *f = (fv_line_flow){.wet = 1};
    if (s->form[line] == FORM_SHUT) {
        *mean = (fv_sat_point){0};
        return;
    }
    condensate_of(s, line, x, &f->condensate, &f->condensate_p, mean);
    const double t = x[l->unknown], c = f->condensate;
    f->t = mean->t;
    f->h_f = mean->h_f;
    f->latent = s->carried[line].enthalpy - mean->h_f;
    const double head = mean->rho_f * FV_GRAVITY * l->sag, stretch = l->sag > 0 ? s->seal_scale : 0;
    const double sign = s->fed_from[line] ? 1 : -1, in = sign * t + 0.5 * c;
    if (s->asleep[line] && in < c) {
        const passage p = in >= 0 ? all_condenses(in, c) : drawn_back(in, c, head, stretch);
        asleep(&p, sign, f);
    } else if (stretch > 0 && fabs(t) > 0.5 * c) {
        through_seal(t, c, head, stretch, f);
    } else {
        through(t, c, f);
    }
}

void fv_line_flow_of(const fv_solver *s, int line, const double *x, fv_line_flow *out)
{
    const fv_net_line *l = &s->net->lines[line];
    fv_sat_point mean;
    flow_with_mean(s, line, x, out, &mean);
    if (s->form[line] != FORM_ONE_WAY && !s->asleep[line]) {
        out->wet = 1 - s->dry[l->node_from] * out->from_c + s->dry[l->node_to] * out->to_c;
        out->from -= s->dry[l->node_from] * out->from_c * out->condensate;
        out->to -= s->dry[l->node_to] * out->to_c * out->condensate;
    }
    out->made = out->wet * out->condensate;
}

/* Multiplier for the water beside the vapour, and its slope by the mean flow. Water comes in with the steam in the
 * proportion of the node before, and half of what condenses on the way is there in the mean. */
static double two_phase(const fv_solver *s, int line, const fv_line_flow *f, const fv_sat_point *mean, double *by_m)
{
    const fv_net_line *l = &s->net->lines[line];
    const fv_carried *carried = &s->carried[line];
    const double least = TURBULENT * mean->mu_g * l->duct.area / l->duct.bore;
    const bool laminar = fabs(f->mean) < least;
    const double vapour = laminar ? least : fabs(f->mean), riding = 0.5 * f->wet * f->condensate * carried->rides;
    const double water = carried->water_ratio * (vapour + 0.5 * f->wet * f->condensate) + riding;
    double factor = 1;
    *by_m = 0;
    if (water <= 0 || fv_flow_two_phase(vapour / (vapour + water), mean->rho_g, mean->rho_f, mean->mu_g, mean->mu_f,
                                        &factor) == FV_FAIL)
        return 1;
    /* factor = 1 + 20 X + X^2, so 2 X dfactor/dX from factor alone, and X goes as (water/vapour)^0.9. */
    const double x = sqrt(factor + 99) - 10;
    if (!laminar)
        *by_m = (20 + 2 * x) * 0.9 * x * (carried->water_ratio / water - 1 / vapour) * (f->mean < 0 ? -1 : 1);
    return factor;
}

/* The duct runs up to the seal, which sits at its downstream end. */
static void duct_of(const fv_solver *s, int line, const double *x, const fv_line_flow *f, const fv_sat_point *mean,
                    fv_duct_state *d)
{
    const fv_net_line *l = &s->net->lines[line];
    const double p1 = x[l->node_from] + (f->seal < 0 ? -f->seal : 0), p2 = x[l->node_to] + (f->seal > 0 ? f->seal : 0);
    double by_m;
    const double factor = two_phase(s, line, f, mean, &by_m);
    fv_duct_evaluate(s->net, &l->duct, s->line_k[line], p1, p2, f->mean, f->wet, factor, d);
    d->by_m -= d->friction / factor * by_m;
    d->two_phase = factor;
}

void fv_line_state(const fv_solver *s, int line, const double *x, fv_line_flow *flow, fv_duct_state *duct)
{
    fv_sat_point mean;
    flow_with_mean(s, line, x, flow, &mean);
    duct_of(s, line, x, flow, &mean, duct);
    fv_line_flow_of(s, line, x, flow);
}

/* Shut, fed from a dry node alone, or between two dry nodes. */
static bool stands_still(const fv_solver *s, int line)
{
    const fv_net_line *l = &s->net->lines[line];
    if (s->form[line] == FORM_SHUT || !s->shortage)
        return s->form[line] == FORM_SHUT;
    if (s->form[line] == FORM_THROUGH)
        return s->held[l->node_from] && s->held[l->node_to];
    return s->held[s->fed_from[line] ? l->node_from : l->node_to];
}

double fv_line_lacks(const fv_solver *s, int line, const double *x, double *in)
{
    const fv_net_line *l = &s->net->lines[line];
    double c, by_p;
    fv_sat_point mean;
    condensate_of(s, line, x, &c, &by_p, &mean);
    *in = (s->fed_from[line] ? x[l->unknown] : -x[l->unknown]) + 0.5 * c;
    return c + (l->sag > 0 ? s->seal_scale : 0) - *in;
}

void fv_line_equation(const fv_solver *s, int line, const double *x, double *residual, fv_stamps *stamps)
{
    const fv_net_line *l = &s->net->lines[line];
    const int row = l->unknown;
    fv_line_flow f;
    fv_sat_point mean;
    flow_with_mean(s, line, x, &f, &mean);
    residual[l->node_from] -= f.from;
    residual[l->node_to] += f.to;
    double fade_from = 0, fade_to = 0; /* of what enters and leaves, by the end's pressure */
    if (s->ramp > 0) {
        residual[l->node_from] += f.from_c * f.condensate * fv_fading(s, l->node_from, x, &fade_from);
        residual[l->node_to] -= f.to_c * f.condensate * fv_fading(s, l->node_to, x, &fade_to);
        fade_from *= f.from_c * f.condensate;
        fade_to *= -f.to_c * f.condensate;
    }
    if (s->shortage && s->form[line] != FORM_ONE_WAY) {
        s->draw[l->node_from] += f.from_c * f.condensate;
        s->draw[l->node_to] -= f.to_c * f.condensate;
    }
    double by_t = 1, by_from = 0, by_to = 0;
    if (stands_still(s, line)) {
        const double half = s->asleep[line] ? (s->fed_from[line] ? 0.5 : -0.5) : 0; /* asleep: nothing comes in */
        residual[row] = x[row] + half * f.condensate;
        by_from = by_to = half * f.condensate_p;
    } else {
        fv_duct_state d;
        duct_of(s, line, x, &f, &mean, &d);
        /* Steam column less the column of air outside, which gauge pressures are counted from. */
        const double buoyancy = d.rho_mean - fv_air_density(s->net->site_pressure, s->t_air);
        residual[row] = d.residual - d.rho_mean * buoyancy * FV_GRAVITY * l->rise;
        const double by_mean = -(d.rho_mean + buoyancy) * mean.drho_g_dp * FV_GRAVITY * l->rise;
        const double by_seal = f.seal < 0 ? -d.by_p1 : d.by_p2; /* |seal| adds to the end that it guards */
        const double by_c = d.by_m * f.mean_c + d.by_wet * f.wet_c + by_seal * f.seal_c;
        by_t = d.by_m * f.mean_t + d.by_wet * f.wet_t + by_seal * f.seal_t;
        by_from = d.by_p1 + by_c * f.condensate_p + 0.5 * by_mean;
        by_to = d.by_p2 + by_c * f.condensate_p + 0.5 * by_mean;
    }
    if (!stamps)
        return;
    fv_stamp(stamps, row, row, by_t);
    fv_stamp(stamps, row, l->node_from, by_from);
    fv_stamp(stamps, row, l->node_to, by_to);
    fv_stamp(stamps, l->node_from, row, -f.from_t);
    fv_stamp(stamps, l->node_from, l->node_from, -f.from_c * f.condensate_p + fade_from);
    fv_stamp(stamps, l->node_from, l->node_to, -f.from_c * f.condensate_p);
    fv_stamp(stamps, l->node_to, row, f.to_t);
    fv_stamp(stamps, l->node_to, l->node_from, f.to_c * f.condensate_p);
    fv_stamp(stamps, l->node_to, l->node_to, f.to_c * f.condensate_p + fade_to);
}
