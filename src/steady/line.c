/* SPDX-License-Identifier: MIT */
/* A line: what its flow parameter t means, and its equation.
 *
 * One-way form. Steam enters at the end that |t| > 0 points from. While less enters than the wall condenses, the wet
 * length is that share of the line and nothing comes out; then, where a sag holds water, the head of the seal builds up
 * with the inflow standing still; beyond it the rest comes out. One parameter runs along that whole bent curve, so that
 * the complementarity 0 <= m_out  perpendicular to  p_before_seal - p_after <= rho_f g h becomes an equation with a
 * slope everywhere.
 *
 * Through form. The line has live steam at both ends, or ends at a shut valve: t is the mean flow and the condensate is
 * drawn half from each side of it, whatever passes. */
#include "steady/network.h"

#include <math.h>

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

static void through(double t, double c, fv_line_flow *f)
{
    f->from = t + 0.5 * c;
    f->to = t - 0.5 * c;
    f->mean = t;
    f->wet = 1;
    f->from_t = f->to_t = f->mean_t = 1;
    f->from_c = 0.5;
    f->to_c = -0.5;
    f->made = c;
}

static void one_way(double t, double c, double head, double scale, fv_line_flow *f)
{
    const double sign = t < 0 ? -1 : 1, a = fabs(t);
    const double stretch = head > 0 ? scale : 0;
    double in, out, in_t, out_t = 0, in_c = 0, out_c = 0, mean_t, mean_c = 0;
    f->wet = 1;
    if (a < c) {
        in = a;
        out = 0;
        in_t = 1;
        f->wet = a / c;
        f->wet_t = sign / c;
        f->wet_c = -a / (c * c);
        f->mean = 0.5 * a;
        mean_t = 0.5;
    } else if (a <= c + stretch) {
        in = c;
        out = 0;
        in_t = 0;
        in_c = 1;
        f->mean = 0.5 * c;
        mean_t = 0;
        mean_c = 0.5;
        f->seal = sign * head * (stretch > 0 ? (a - c) / stretch : 0);
        f->seal_t = stretch > 0 ? head / stretch : 0;
        f->seal_c = stretch > 0 ? -sign * head / stretch : 0;
    } else {
        in = a - stretch;
        out = in - c;
        in_t = out_t = 1;
        out_c = -1;
        f->mean = in - 0.5 * c;
        mean_t = 1;
        mean_c = -0.5;
        f->seal = sign * head;
    }
    f->made = in - out;
    f->mean *= sign;
    f->mean_t = mean_t;
    f->mean_c = sign * mean_c;
    f->from = sign > 0 ? in : -out;
    f->to = sign > 0 ? out : -in;
    f->from_t = sign > 0 ? in_t : out_t;
    f->to_t = sign > 0 ? out_t : in_t;
    f->from_c = sign > 0 ? in_c : -out_c;
    f->to_c = sign > 0 ? out_c : -in_c;
}

static void flow_with_mean(const fv_solver *s, int line, const double *x, fv_line_flow *f, fv_sat_point *mean)
{
    const fv_net_line *l = &s->net->lines[line];
    *f = (fv_line_flow){0};
    if (s->form[line] == FORM_SHUT) {
        *mean = (fv_sat_point){0};
        return;
    }
    condensate_of(s, line, x, &f->condensate, &f->condensate_p, mean);
    const double t = x[l->unknown];
    if (s->form[line] == FORM_THROUGH)
        through(t, f->condensate, f);
    else
        one_way(t, f->condensate, mean->rho_f * FV_GRAVITY * l->sag, s->seal_scale, f);
}

void fv_line_flow_of(const fv_solver *s, int line, const double *x, fv_line_flow *out)
{
    fv_sat_point mean;
    flow_with_mean(s, line, x, out, &mean);
}

/* The duct runs up to the seal, which sits at its downstream end. */
static void ends_before_seal(const fv_net_line *l, const double *x, const fv_line_flow *f, double *p1, double *p2)
{
    *p1 = x[l->node_from] + (f->seal < 0 ? -f->seal : 0);
    *p2 = x[l->node_to] + (f->seal > 0 ? f->seal : 0);
}

void fv_line_state(const fv_solver *s, int line, const double *x, fv_line_flow *flow, fv_duct_state *duct)
{
    const fv_net_line *l = &s->net->lines[line];
    double p1, p2;
    fv_line_flow_of(s, line, x, flow);
    ends_before_seal(l, x, flow, &p1, &p2);
    fv_duct_evaluate(s->net, &l->duct, s->line_k[line], p1, p2, flow->mean, flow->wet, s->carried[line].two_phase,
                     duct);
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
    double by_t = 1, by_from = 0, by_to = 0;
    if (s->form[line] == FORM_SHUT) {
        residual[row] = x[row];
    } else {
        double p1, p2;
        fv_duct_state d;
        ends_before_seal(l, x, &f, &p1, &p2);
        fv_duct_evaluate(s->net, &l->duct, s->line_k[line], p1, p2, f.mean, f.wet, s->carried[line].two_phase, &d);
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
    fv_stamp(stamps, l->node_from, l->node_from, -f.from_c * f.condensate_p);
    fv_stamp(stamps, l->node_from, l->node_to, -f.from_c * f.condensate_p);
    fv_stamp(stamps, l->node_to, row, f.to_t);
    fv_stamp(stamps, l->node_to, l->node_from, f.to_c * f.condensate_p);
    fv_stamp(stamps, l->node_to, l->node_to, f.to_c * f.condensate_p);
}
