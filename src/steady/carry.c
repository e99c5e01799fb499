/* SPDX-License-Identifier: MIT */
/* What travels with the steam: its enthalpy, the water beside it, and what lines lose on the way. These change slowly
 * with the unknowns, so they are brought up to date before each residual instead of being unknowns; the residual is
 * exact when they have settled.
 *
 * Throttling is isenthalpic: vapour keeps the enthalpy it left the boiler with, mixed by mass at nodes. Condensate
 * leaves at the enthalpy of boiling water at the line's mean pressure. Water divides at a node like the vapour, which
 * is as much as a one-dimensional model knows. A drip leg takes all water out at its node. */
#include "steady/network.h"

#include <math.h>
#include <string.h>

/* Heat loss is followed along its tangent within this span of temperature; its curvature then costs below 1e-10. */
static const double TANGENT_SPAN = 2e-3; /* K */
/* Flow below this share of what the boilers could give is rounding, and carries nothing. */
static const double NOTHING = 1e-12;

static void line_loss(fv_solver *s, int line, double t_inside)
{
    const fv_net_line *l = &s->net->lines[line];
    fv_carried *c = &s->carried[line];
    c->t_loss = t_inside;
    if (!isnan(l->heat_loss)) {
        c->q_loss = l->heat_loss;
        c->dq_dt = 0;
        c->t_surface = NAN;
        c->doubtful = false;
        return;
    }
    const fv_heat_outside outside = {.t_air = isnan(l->air) ? s->t_air : l->air,
                                     .p_air = s->net->site_pressure,
                                     .wind = isnan(l->wind) ? s->wind : l->wind,
                                     .emissivity = l->emissivity,
                                     .h_fixed = l->h_outside};
    c->doubtful = fv_heat_pipe_loss(&l->pipe, t_inside, &outside, &c->q_loss, &c->dq_dt, &c->t_surface) != FV_OK;
}

/* Flows of all lines, their losses brought up to date. */
static void find_flows(fv_solver *s, const double *x)
{
    for (int i = 0; i < (int)s->net->line_count; i++) {
        if (s->form[i] == FORM_SHUT)
            continue;
        fv_line_flow_of(s, i, x, &s->flow[i]);
        if (fabs(s->flow[i].t - s->carried[i].t_loss) <= TANGENT_SPAN)
            continue;
        line_loss(s, i, s->flow[i].t);
        fv_line_flow_of(s, i, x, &s->flow[i]);
    }
}

/* Plant node that the line's steam runs from, and the one it runs to; both -1 where steam enters at both ends or
 * nothing moves. */
static int upstream(const fv_solver *s, int line, int *downstream)
{
    const fv_network *net = s->net;
    const double nothing = NOTHING * s->steam_scale;
    const int from = net->plant_node[net->lines[line].node_from], to = net->plant_node[net->lines[line].node_to];
    const bool forward = s->flow[line].to > nothing, backward = s->flow[line].from < -nothing;
    *downstream = forward ? to : backward ? from : -1;
    return forward ? from : backward ? to : -1;
}

/* Plant nodes, upstream before downstream; what stands in a circle, if ever, comes last in the order of the file. */
static void sort_by_flow(fv_solver *s)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    int *waiting = s->scratch, down;
    memset(waiting, 0, (size_t)n * sizeof(int));
    for (int i = 0; i < (int)net->line_count; i++)
        if (s->form[i] != FORM_SHUT && upstream(s, i, &down) >= 0)
            waiting[down]++;
    int count = 0;
    for (int i = 0; i < n; i++)
        if (waiting[i] == 0)
            s->order[count++] = i;
    for (int head = 0; head < count; head++) {
        const int node = s->order[head];
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
            const int line = net->touch_line[j];
            if (s->form[line] != FORM_SHUT && upstream(s, line, &down) == node && --waiting[down] == 0)
                s->order[count++] = down;
        }
    }
    for (int i = 0; i < n && count < n; i++)
        if (waiting[i] > 0)
            s->order[count++] = i;
}

static void add_boilers(fv_solver *s, const double *x)
{
    const fv_network *net = s->net;
    for (size_t g = 0; g < net->boiler_group_count; g++) {
        const fv_net_boilers *b = &net->boilers[g];
        fv_at_node *at = &s->at[net->plant_node[b->node]];
        fv_sat_point sat;
        fv_sat_at(net->sat, net->site_pressure + x[b->node], &sat);
        const double m = x[b->unknown], water = m * fv_boilers_wetness(s, (int)g, x[b->node]);
        at->in += m;
        at->heat_in += m * sat.h_g;
        at->water += water;
        at->water_heat += water * sat.h_f;
    }
}

/* What leaves each node, and what vessels with a higher pressure give back. */
static void add_outflows(fv_solver *s, const double *x)
{
    const fv_network *net = s->net;
    const double nothing = NOTHING * s->steam_scale;
    for (size_t i = 0; i < net->line_count; i++) {
        const fv_net_line *l = &net->lines[i];
        if (s->form[i] == FORM_SHUT)
            continue;
        if (s->flow[i].from > nothing)
            s->at[net->plant_node[l->node_from]].out += s->flow[i].from;
        if (s->flow[i].to < -nothing)
            s->at[net->plant_node[l->node_to]].out -= s->flow[i].to;
    }
    for (size_t i = 0; i < net->vessel_count; i++) {
        const fv_net_vessel *v = &net->vessels[i];
        const double m = fv_coil_inflow(v, x);
        fv_at_node *at = &s->at[net->plant_node[v->node]];
        if (m > nothing) {
            at->out += m;
        } else if (m < -nothing) {
            fv_sat_point chamber;
            fv_sat_at(net->sat, net->site_pressure + x[v->chamber_unknown], &chamber);
            at->in -= m;
            at->heat_in -= m * chamber.h_g;
        }
    }
}

static double follow(double *slot, double value, double scale)
{
    const double change = fabs(value - *slot) / scale;
    *slot = value;
    return change;
}

/* What enters a line, from either end or both. */
typedef struct {
    double vapour, heat, water, water_heat;
} inflow;

static void enter(const fv_at_node *at, double vapour, inflow *in)
{
    if (vapour <= 0)
        return;
    const double share = at->out > 0 ? vapour / at->out : 0;
    in->vapour += vapour;
    in->heat += vapour * at->enthalpy;
    in->water += share * at->water;
    in->water_heat += share * at->water_heat;
}

/* One line, the nodes it is fed from settled: passes on vapour and water, and returns the relative change of what it
 * carries. */
static double pass_on(fv_solver *s, int line, int down)
{
    const fv_network *net = s->net;
    const fv_net_line *l = &net->lines[line];
    const fv_at_node *ends[2] = {&s->at[net->plant_node[l->node_from]], &s->at[net->plant_node[l->node_to]]};
    const fv_line_flow *f = &s->flow[line];
    fv_carried *c = &s->carried[line];
    inflow in = {0};
    enter(ends[0], f->from, &in);
    enter(ends[1], -f->to, &in);
    const double enthalpy = in.vapour > 0 ? in.heat / in.vapour : 0.5 * (ends[0]->enthalpy + ends[1]->enthalpy);
    double change = follow(&c->enthalpy, enthalpy, f->latent);
    change = fmax(change, follow(&c->water_ratio, in.vapour > 0 ? in.water / in.vapour : 0, 1));
    const double riding = c->rides * f->made, leaving = f->made - riding;
    c->water_out = in.water + riding;
    const double out = fmax(fmax(f->to, -f->from), 0);
    c->quality = out + c->water_out > 0 ? out / (out + c->water_out) : 1;
    s->drained += leaving;
    s->drained_enthalpy += leaving * f->h_f;
    if (down >= 0) {
        s->at[down].in += out;
        s->at[down].heat_in += out * c->enthalpy;
        s->at[down].water += c->water_out;
        s->at[down].water_heat += in.water_heat + riding * f->h_f;
    } else {
        s->drained += c->water_out;
        s->drained_enthalpy += in.water_heat + riding * f->h_f;
    }
    return change;
}

static void settle_node(fv_solver *s, int node, const double *x)
{
    fv_at_node *at = &s->at[node];
    if (at->in > 0) {
        at->enthalpy = at->heat_in / at->in;
    } else {
        fv_sat_point sat;
        fv_sat_at(s->net->sat, s->net->site_pressure + x[node], &sat);
        at->enthalpy = sat.h_g;
    }
    if (s->net->drip[node] || at->out <= 0) {
        s->drained += at->water;
        s->drained_enthalpy += at->water_heat;
        at->water = at->water_heat = 0;
    }
    at->quality = at->in + at->water > 0 ? at->in / (at->in + at->water) : 1;
}

/* Shares of missing condensate that hold from now on. */
static double take_dryness(fv_solver *s, const double *x)
{
    double change = 0, slope;
    if (s->shortage || s->ramp > 0)
        for (int i = 0; i < s->net->node_count; i++)
            change = fmax(change, follow(&s->dry[i], s->ramp > 0 ? fv_fading(s, i, x, &slope) : s->dry_now[i], 1));
    return change;
}

double fv_carry(fv_solver *s, const double *x)
{
    const fv_network *net = s->net;
    const size_t n = net->plant->node_count;
    double change = take_dryness(s, x);
    int down;
    memset(s->at, 0, n * sizeof *s->at);
    s->drained = s->drained_enthalpy = 0;
    find_flows(s, x);
    sort_by_flow(s);
    add_boilers(s, x);
    add_outflows(s, x);
    for (size_t i = 0; i < n; i++) {
        const int node = s->order[i];
        settle_node(s, node, x);
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
            const int line = net->touch_line[j];
            if (s->form[line] != FORM_SHUT && upstream(s, line, &down) == node)
                change = fmax(change, pass_on(s, line, down));
        }
    }
    /* Lines that steam enters at both ends feed no node: they come when all nodes are settled. */
    for (int i = 0; i < (int)net->line_count; i++)
        if (s->form[i] != FORM_SHUT && upstream(s, i, &down) < 0)
            change = fmax(change, pass_on(s, i, -1));
    return change;
}
