/* SPDX-License-Identifier: MIT */
/* A coil: segments of pipe between holes, momentum regain across each hole, and the holes.
 *
 * The pressure unknown at a hole is the static pressure before its own regain. Across the hole the pressure rises by
 * r (G_before^2 - G_after^2)/rho; the hole sees the mean of before and after. Flow through it, written in squares so
 * that it is smooth where the drop is zero:
 *
 *   m|m| + c m/(1 + (m/c)^4) = (Cd A)^2 2 rho dp Y^2(dp/p),   m = flow before - flow after
 *
 * At the flow c, of a Reynolds number about 14, flow is as much creeping as inertial: without that term the holes of a
 * coil at rest would hold its pressure to the chamber's whatever came, and let no flow begin. At ten times c it is 1e-5
 * of m|m|, at a hundred 1e-10.
 *
 * The static pressure before a hole is not below the sonic one of the flow there (duct.c). Where the unknown is, a
 * shock takes the difference from what is regained.
 *
 * Upstream is the coil, or the chamber where it has the higher pressure. A coil as a whole gives nothing back: water
 * over the holes would not let it, and a vented chamber has no steam to spare for others, and soon only air, which this
 * model does not follow. The head w that is taken from whatever comes is an unknown,
 *
 *   0 <= flow into the coil   perpendicular to   w <= rho g depth of the water.
 *
 * Where one hose alone feeds the coil, from one end, and no water stands over the holes, it is the flow into the hose:
 * as long as all of it condenses on the way, air at the chamber's pressure stands in the coil and up to the front, and
 * that pressure tells how far the front gets.
 *
 * Cd from the correlation counts on the total head across the hole; the drop here is static, so it is divided by sqrt(1
 * - x), x = velocity head / total head, as far as the correlation's source reaches. */
#include "farvessel/flow.h"
#include "steady/equations.h"
#include "steady/smooth.h"

#include <math.h>
#include <string.h>

/* Share of the velocity head up to which the correlation is followed; above it Cd stays as it is there. */
static const double CROSSFLOW_MOST = 0.8;
/* Pa: below this a hole is at rest, and its Cd has no slope that could be told. */
static const double AT_REST = 1e-30;

/* Pa of head that count as much as all that the boilers could give; the root does not depend on it. */
static const double HEAD_SPAN = 1000;
/* Of all that the boilers could give: leakage back through the water for each HEAD_SPAN that is missing, so that the
 * pressure of a coil that nothing enters settles at the water's head instead of being undetermined. None is left once
 * it has settled. */
static const double LEAK = 1e-12;

/* Cd^2 and its slopes by the velocity head and the static drop. */
static void discharge(double still, double head, double drop, double *cd2, double *by_head, double *by_drop,
                      bool *doubtful)
{
    const double total = head + (drop > 0 ? drop : 0);
    const bool rests = total <= AT_REST;
    double x = rests ? 0 : head / total, cd, slope;
    const bool beyond = x > CROSSFLOW_MOST;
    if (beyond)
        x = CROSSFLOW_MOST;
    if (fv_flow_hole_cd_crossed(still, x, &cd, &slope) != FV_OK || beyond)
        *doubtful = true;
    *cd2 = cd * cd / (1 - x);
    const double by_x = beyond || rests ? 0 : 2 * cd * slope / (1 - x) + cd * cd / ((1 - x) * (1 - x));
    *by_head = rests ? 0 : by_x * (1 - x) / total;
    *by_drop = !rests && drop > 0 ? -by_x * x / total : 0;
}

/* What drives a hole, before Cd: Cd^2 times this is m|m| / (2 A^2). */
typedef struct {
    double value, by_pressure, by_chamber;
    bool choked;
} drive;

static drive driven_out(double p_abs, double rho, double slope, double drop)
{
    double y2, by_x;
    drive d = {0};
    const double x = drop / p_abs;
    fv_flow_expansibility2(x, FV_EXPONENT_SATURATED, &y2, &by_x, &d.choked);
    d.value = rho * drop * y2;
    d.by_pressure = slope * drop * y2 + rho * y2 + rho * drop * by_x * (1 - x) / p_abs;
    d.by_chamber = -rho * y2 - rho * drop * by_x / p_abs;
    return d;
}

/* From the coil, or from the chamber where that has the higher pressure and no water stands between. */
static drive driving(const fv_network *net, double p, double p_chamber, double drop, double rho, double slope,
                     bool water)
{
    if (drop >= 0)
        return driven_out(net->site_pressure + p, rho, slope, drop);
    if (water)
        return (drive){.value = rho * drop, .by_pressure = rho + slope * drop, .by_chamber = -rho};
    double slope_chamber;
    const double rho_chamber = fv_sat_rho_g(net->sat, net->site_pressure + p_chamber, &slope_chamber);
    const drive d = driven_out(net->site_pressure + p_chamber, rho_chamber, slope_chamber, -drop);
    return (drive){-d.value, -d.by_chamber, -d.by_pressure, d.choked};
}

/* Of a hole, without its Cd and area, and its slope. */
static double resistance(double m, double creep_flow, double *by_m)
{
    const double u = m / creep_flow, u4 = u * u * u * u, fades = 1 / (1 + u4);
    *by_m = 2 * fabs(m) + creep_flow * fades * (1 - 4 * u4 * fades);
    return m * fabs(m) + creep_flow * m * fades;
}

/* Pressure before the hole, not below the sonic one of the flow there, and what is regained across it. */
static void find_regain(const fv_solver *s, const steady_net_vessel *v, double p, double before, double after,
                        steady_hole_state *out)
{
    const double a2 = v->bore_area * v->bore_area, recovery = s->state.recovery * v->regain;
    const double flux = fabs(before) / v->bore_area;
    double p_before = p, slope, by_flux = 0;
    double rho = fv_sat_rho_g(s->net->sat, s->net->site_pressure + p, &slope);
    out->sonic = flux * flux * slope > rho * rho;
    if (out->sonic) {
        p_before = steady_sonic_pressure(s->net, flux, p, &by_flux);
        rho = fv_sat_rho_g(s->net->sat, s->net->site_pressure + p_before, &slope);
    }
    out->mach = flux * sqrt(slope) / rho;
    out->sonic_by_before = by_flux * (before < 0 ? -1 : 1) / v->bore_area;
    out->regain = recovery * (before * before - after * after) / (a2 * rho);
    const double by_rho = -out->regain / rho;
    out->regain_by_p = out->sonic ? 0 : by_rho * slope;
    out->regain_by_before = 2 * recovery * before / (a2 * rho) + by_rho * slope * out->sonic_by_before;
    out->regain_by_after = -2 * recovery * after / (a2 * rho);
    out->pressure = 0.5 * (p_before + p + out->regain);
}

void steady_hole_evaluate(const fv_solver *s, const steady_net_vessel *v, int hole, double p, double before,
                          double after, double p_beyond, steady_hole_state *out)
{
    const fv_network *net = s->net;
    const steady_net_hole *h = &net->holes[v->first_hole + hole];
    const double site = net->site_pressure, a2 = v->bore_area * v->bore_area;
    out->flow = before - after;
    out->doubtful = h->doubtful;
    find_regain(s, v, p, before, after, out);
    const double by_p = out->sonic ? 0.5 : 1 + 0.5 * out->regain_by_p;
    const double by_before = 0.5 * (out->regain_by_before + out->sonic_by_before),
                 by_after = 0.5 * out->regain_by_after;
    double slope_hole;
    const double rho_hole = fv_sat_rho_g(net->sat, site + out->pressure, &slope_hole);

    const bool water = s->given.chambers[v - net->vessels].water > 0;
    out->drop = out->pressure - p_beyond;

    const double up = fmax(fabs(before), fabs(after)), head = 0.5 * up * up / (a2 * rho_hole);
    double cd2 = h->cd * h->cd, by_head = 0, by_drop = 0;
    if (!h->fixed)
        discharge(h->cd, head, out->drop, &cd2, &by_head, &by_drop, &out->doubtful);
    out->cd = sqrt(cd2);

    const double m = out->flow, area2 = 2 * h->area * h->area;
    const drive d = driving(net, out->pressure, p_beyond, out->drop, rho_hole, slope_hole, water);
    out->choked = d.choked;
    double by_m;
    out->residual = resistance(m, h->creep_flow, &by_m) - area2 * cd2 * d.value;
    /* Slope by the pressure at the hole, Cd held or following the drop. */
    const double by_ph =
        -area2 * (cd2 * d.by_pressure + by_drop * d.value - by_head * d.value * head * slope_hole / rho_hole);
    const double by_up = -area2 * by_head * d.value * up / (a2 * rho_hole);
    const bool first = fabs(before) >= fabs(after);
    out->by_p = by_ph * by_p;
    out->by_before = by_m + by_ph * by_before + (first ? by_up * (before < 0 ? -1 : 1) : 0);
    out->by_after = -by_m + by_ph * by_after + (first ? 0 : by_up * (after < 0 ? -1 : 1));
    out->by_beyond = -area2 * (cd2 * d.by_chamber - by_drop * d.value);
}

double steady_coil_inflow(const steady_net_vessel *v, const double *x)
{
    const double last = v->segment_count > v->hole_count ? x[v->flow_unknown + 2 * v->hole_count] : 0;
    return x[v->flow_unknown] - last;
}

/* Where segment k starts or ends: static pressure with its slopes by the unknowns it is made of. */
typedef struct {
    double p;
    int p_unknown;
    double by_p;
    int before, after; /* flow unknowns, -1: none */
    double by_before, by_after;
} segment_end;

static segment_end at_inlet(const steady_net_vessel *v, const double *x)
{
    return (segment_end){.p = x[v->node], .p_unknown = v->node, .by_p = 1, .before = -1, .after = -1};
}

/* Downstream of hole k: its pressure and the regain. */
static segment_end beyond_hole(const steady_net_vessel *v, int k, const steady_hole_state *hole, const double *x)
{
    const int flow = v->flow_unknown + 2 * k;
    return (segment_end){.p = x[flow + 1] + hole->regain,
                         .p_unknown = flow + 1,
                         .by_p = 1 + hole->regain_by_p,
                         .before = flow,
                         .after = flow + 2,
                         .by_before = hole->regain_by_before,
                         .by_after = hole->regain_by_after};
}

/* before: the hole that segment k starts from, if not from the inlet. */
static void segment_equation(const fv_solver *s, const steady_net_vessel *v, int k, const steady_hole_state *before,
                             const double *x, double *residual, steady_stamps *stamps)
{
    const int row = v->flow_unknown + 2 * k;
    const bool last_of_ring = k == v->hole_count;
    const int index = (int)(v - s->net->vessels);
    const segment_end start = k == 0 ? at_inlet(v, x) : beyond_hole(v, k - 1, before, x);
    const segment_end end =
        last_of_ring ? at_inlet(v, x)
                     : (segment_end){.p = x[row + 1], .p_unknown = row + 1, .by_p = 1, .before = -1, .after = -1};
    const bool leg = k == 0 || last_of_ring;
    const steady_duct duct = {v->bore_area, v->bore, steady_segment_lengths(s->net, index)[k], v->relative_roughness,
                              v->friction};
    steady_duct_state d;
    steady_duct_evaluate(s->net, &duct, leg ? v->entry : 0, start.p, end.p, x[row], 1, 1, &d);
    double by_m = d.by_m, by_start = d.by_p1, by_end = d.by_p2;
    residual[row] = d.residual;
    if (leg && s->given.chambers[index].kind == FV_CHAMBER_SHUT) {
        residual[row] = x[row];
        by_m = 1;
        by_start = by_end = 0;
    }
    if (!stamps)
        return;
    steady_stamp(stamps, row, row, by_m);
    steady_stamp(stamps, row, start.p_unknown, by_start * start.by_p);
    steady_stamp(stamps, row, end.p_unknown, by_end * end.by_p);
    if (start.before >= 0) {
        steady_stamp(stamps, row, start.before, by_start * start.by_before);
        steady_stamp(stamps, row, start.after, by_start * start.by_after);
    }
}

static void hole_equation(const fv_solver *s, const steady_net_vessel *v, int k, steady_hole_state *h, const double *x,
                          double *residual, steady_stamps *stamps)
{
    const int flow = v->flow_unknown + 2 * k, row = flow + 1;
    const bool dead_end = k + 1 == v->segment_count;
    steady_hole_evaluate(s, v, k, x[row], x[flow], dead_end ? 0 : x[flow + 2], steady_beyond_holes(v, x), h);
    residual[row] = h->residual;
    if (!stamps)
        return;
    steady_stamp(stamps, row, row, h->by_p);
    steady_stamp(stamps, row, flow, h->by_before);
    if (!dead_end)
        steady_stamp(stamps, row, flow + 2, h->by_after);
    steady_stamp(stamps, row, v->chamber_unknown, h->by_beyond);
    steady_stamp(stamps, row, v->head_unknown, h->by_beyond);
}

/* Line that alone feeds a coil with no water over its holes, from one end alone; -1: none does. */
static int feeding_line(const fv_solver *s, const steady_net_vessel *v)
{
    const bool dry = s->given.chambers[v - s->net->vessels].water <= 0;
    return dry && v->only_line >= 0 && s->layout.form[v->only_line] == FORM_ONE_WAY ? v->only_line : -1;
}

static void head_equation(const fv_solver *s, const steady_net_vessel *v, const double *x, double *residual,
                          steady_stamps *stamps)
{
    const int row = v->head_unknown;
    const fv_chamber *c = &s->given.chambers[v - s->net->vessels];
    const int line = feeding_line(s, v), entering = line >= 0 ? s->net->lines[line].unknown : row;
    const double forth = line >= 0 && !s->layout.fed_from[line] ? -1 : 1;
    double by_flow = 0, by_head = 1;
    residual[row] = x[row];
    if (c->kind != FV_CHAMBER_SHUT) {
        fv_sat_point at; /* a vented chamber stands so near the site's pressure that it changes no digit of density */
        fv_sat_at(s->net->sat, s->net->site_pressure, &at);
        const double left = (at.rho_f * FV_GRAVITY * c->water - x[row]) / HEAD_SPAN;
        const double leak = LEAK + s->state.smoothing,
                     comes = line >= 0 ? forth * x[entering] : steady_coil_inflow(v, x);
        const double flow = comes / s->given.steam_scale;
        residual[row] = steady_smooth_least(flow + leak * left, left, s->state.smoothing, &by_flow, &by_head);
        by_head = -(by_head + leak * by_flow) / HEAD_SPAN;
        by_flow /= s->given.steam_scale;
    }
    if (!stamps)
        return;
    steady_stamp(stamps, row, row, by_head);
    steady_stamp(stamps, row, v->only_line >= 0 ? s->net->lines[v->only_line].unknown : row,
                 line >= 0 ? forth * by_flow : 0);
    const double by_inflow = line >= 0 ? 0 : by_flow;
    steady_stamp(stamps, row, v->flow_unknown, by_inflow);
    if (v->segment_count > v->hole_count)
        steady_stamp(stamps, row, v->flow_unknown + 2 * v->hole_count, -by_inflow);
}

/* Of all segments and holes. */
static void chain_equations(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_vessel *v = &s->net->vessels[vessel];
    steady_hole_state hole;
    for (int k = 0; k < v->segment_count; k++) {
        segment_equation(s, v, k, &hole, x, residual, stamps);
        if (k < v->hole_count)
            hole_equation(s, v, k, &hole, x, residual, stamps);
    }
}

/* The same, taken over where nothing that they depend on has changed since they were last worked out: a solve begins
 * where the last one ended, and is asked for residuals alone before it is for slopes. */
static void recall_chain(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_vessel *v = &s->net->vessels[vessel];
    const fv_chamber *c = &s->given.chambers[vessel];
    const int first = v->flow_unknown;
    const size_t size = (size_t)(v->segment_count + v->hole_count) * sizeof *x;
    steady_coil_memo *memo = &s->work.coils[vessel];
    const steady_coil_memo now = {.node = x[v->node],
                                  .beyond = steady_beyond_holes(v, x),
                                  .recovery = s->state.recovery,
                                  .shut = c->kind == FV_CHAMBER_SHUT,
                                  .water = c->water > 0,
                                  .known = true};
    const bool kept = !stamps || stamps->values == s->work.values;
    const bool same = memo->known && now.node == memo->node && now.beyond == memo->beyond &&
                      now.recovery == memo->recovery && now.shut == memo->shut && now.water == memo->water &&
                      memcmp(x + first, s->work.coil_x + first, size) == 0;
    if (same && kept && (!stamps || memo->stamps > 0)) {
        memcpy(residual + first, s->work.coil_rows + first, size);
        if (stamps)
            stamps->count += memo->stamps;
        return;
    }
    const size_t before = stamps ? stamps->count : 0;
    chain_equations(s, vessel, x, residual, stamps);
    if (!kept)
        return;
    *memo = now;
    memo->stamps = stamps ? stamps->count - before : 0;
    memcpy(s->work.coil_x + first, x + first, size);
    memcpy(s->work.coil_rows + first, residual + first, size);
}

void steady_coil_equations(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_vessel *v = &s->net->vessels[vessel];
    recall_chain(s, vessel, x, residual, stamps);
    head_equation(s, v, x, residual, stamps);
    residual[v->node] -= steady_coil_inflow(v, x);
    if (!stamps)
        return;
    steady_stamp(stamps, v->node, v->flow_unknown, -1);
    if (v->segment_count > v->hole_count)
        steady_stamp(stamps, v->node, v->flow_unknown + 2 * v->hole_count, 1);
}
