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
/* Steam that leaves a line with less than this share of its condensate carries only a part of the water along; common
 * practice, no source. Without it, all water would turn round at once where a line's flow does. */
static const double CARRIES = 0.1;
/* Of what the boilers could give: less steam counts as much. */
static const double LITTLE = 1e-6;
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
    memset(s->draws, 0, (size_t)s->net->node_count * sizeof(double));
    for (int i = 0; i < (int)s->net->line_count; i++) {
        if (s->form[i] == FORM_SHUT)
            continue;
        fv_line_flow_of(s, i, x, &s->flow[i]);
        s->draws[s->net->lines[i].node_from] += s->flow[i].from_y;
        s->draws[s->net->lines[i].node_to] -= s->flow[i].to_y;
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

/* What leaves each node, and what seeps back out of chambers. */
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

static double follow(double *slot, double value)
{
    const double change = fabs(value - *slot);
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

static void arrive(fv_at_node *at, const fv_carried *c, double out)
{
    at->in += out;
    at->heat_in += out * c->enthalpy;
    at->water += c->water_out;
    at->water_heat += c->water_heat;
}

/* One line, the nodes it is fed from settled: passes on vapour and water, and returns the change of what it carries,
 * relative to all steam. */
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
    double change = follow(&c->enthalpy, enthalpy) / f->latent;
    change = fmax(change, follow(&c->water_ratio, in.vapour > 0 ? in.water / in.vapour : 0));
    change *= fmax(in.vapour, f->made) / s->steam_made;
    const double out = fv_line_out(f), least = CARRIES * f->made;
    const double taken = down < 0 ? 0 : out < least ? out / least : 1; /* the rest runs back and is drained */
    const double riding = c->rides * f->made;
    c->water_out = taken * (in.water + riding);
    c->quality = out + c->water_out > 0 ? out / (out + c->water_out) : 1;
    s->drained += f->made - riding + (1 - taken) * (in.water + riding);
    s->drained_enthalpy += (f->made - riding) * f->h_f + (1 - taken) * (in.water_heat + riding * f->h_f);
    const double water_heat = taken * (in.water_heat + riding * f->h_f);
    change = fmax(change, follow(&c->water_heat, water_heat) / (f->latent * s->steam_made));
    c->passed = true;
    if (down >= 0 && !s->at[down].settled)
        arrive(&s->at[down], c, out);
    return change;
}

/* Where steam runs in a circle, which tees can bring about, a line of it arrives as it did in the last round. */
static void settle_node(fv_solver *s, int node, const double *x)
{
    const fv_network *net = s->net;
    fv_at_node *at = &s->at[node];
    int down;
    for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
        const int line = net->touch_line[j];
        if (s->form[line] != FORM_SHUT && !s->carried[line].passed && upstream(s, line, &down) >= 0 && down == node)
            arrive(at, &s->carried[line], fv_line_out(&s->flow[line]));
    }
    at->settled = true;
    if (at->in > 0) {
        at->enthalpy = at->heat_in / at->in;
    } else {
        fv_sat_point sat;
        fv_sat_at(net->sat, net->site_pressure + x[node], &sat);
        at->enthalpy = sat.h_g;
    }
    if (net->drip[node] || at->out <= 0) {
        s->drained += at->water;
        s->drained_enthalpy += at->water_heat;
        at->water = at->water_heat = 0;
    }
    at->quality = at->in + at->water > 0 ? at->in / (at->in + at->water) : 1;
}

double fv_carry(fv_solver *s, const double *x)
{
    const fv_network *net = s->net;
    const size_t n = net->plant->node_count;
    double change = 0;
    int down;
    memset(s->at, 0, n * sizeof *s->at);
    s->steam_made = 0;
    for (size_t i = 0; i < net->boiler_group_count; i++)
        s->steam_made += x[net->boilers[i].unknown];
    s->steam_made = fmax(s->steam_made, LITTLE * s->steam_scale);
    for (size_t i = 0; i < net->line_count; i++)
        s->carried[i].passed = false;
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
