/* SPDX-License-Identifier: MIT */
/* Convection of enthalpy along the flow, J/kg, nodes in the order of the flow:
 *
 *   h_node = sum of m_in h_in / sum of m_in,    condensate of a line: m_c = q / (h_v - h_f(p_mean))
 *
 * Throttling is isenthalpic: vapour keeps the enthalpy it left the boiler with, mixed by mass at nodes (first law,
 * steady flow). Condensate leaves at the enthalpy of boiling water at the line's mean pressure. Enthalpy, heat losses
 * and the heat of the water hardly move the flows, so they are no unknowns: they are brought up to date before each
 * residual (fixed-point iteration), which is exact when they have settled. */
#include "steady/assembly.h"

#include <math.h>
#include <string.h>

/* Of what the boilers could give: the least that relative figures refer to. */
static const double LITTLE = 1e-6;
/* Flow below this share of what the boilers could give is rounding, and carries nothing. */
static const double NOTHING = 1e-12;

/* Whether it could be told within the correlations. */
static bool loss_of(const fv_solver *s, const steady_net_line *l, double t, steady_loss *out)
{
    *out = (steady_loss){.t = t, .q = l->heat_loss, .q_t = 0, .t_surface = NAN};
    if (!isnan(l->heat_loss))
        return true;
    const fv_heat_outside outside = {.t_air = isnan(l->air) ? s->given.t_air : l->air,
                                     .p_air = s->net->site_pressure,
                                     .wind = isnan(l->wind) ? s->given.wind : l->wind,
                                     .emissivity = l->emissivity,
                                     .h_fixed = l->h_outside};
    return fv_heat_pipe_loss(&l->pipe, t, &outside, &out->q, &out->q_t, &out->t_surface) == FV_OK;
}

/* On either side of t, at fixed places: so loss does not depend on how the solver came to t. */
static void find_losses(fv_solver *s, int line, double t)
{
    const steady_net_line *l = &s->net->lines[line];
    steady_convected *c = &s->state.convected[line];
    const double below = STEADY_LOSS_SPAN * floor(t / STEADY_LOSS_SPAN);
    const bool known = loss_of(s, l, below, &c->below);
    c->doubtful = !loss_of(s, l, below + STEADY_LOSS_SPAN, &c->above) || !known;
}

void steady_find_flows(fv_solver *s, const double *x)
{
    for (int i = 0; i < (int)s->net->line_count; i++) {
        if (s->layout.form[i] == FORM_SHUT)
            continue;
        steady_line_flow_of(s, i, x, &s->state.flow[i]);
        const double t = s->state.flow[i].t;
        if (t >= s->state.convected[i].below.t && t <= s->state.convected[i].above.t)
            continue;
        find_losses(s, i, t);
        steady_line_flow_of(s, i, x, &s->state.flow[i]);
    }
}

static void find_condensate_demand(fv_solver *s)
{
    memset(s->state.condensate_demand, 0, (size_t)s->net->node_count * sizeof(double));
    for (size_t i = 0; i < s->net->line_count; i++) {
        if (s->layout.form[i] == FORM_SHUT)
            continue;
        s->state.condensate_demand[s->net->lines[i].node_from] += s->state.flow[i].from_y;
        s->state.condensate_demand[s->net->lines[i].node_to] -= s->state.flow[i].to_y;
    }
}

/* Plant node that the line's steam runs from, and the one it runs to; both -1 where steam enters at both ends or
 * nothing moves. */
static int upstream(const fv_solver *s, int line, int *downstream)
{
    const fv_network *net = s->net;
    const double nothing = NOTHING * s->given.steam_scale;
    const int from = net->plant_node[net->lines[line].node_from], to = net->plant_node[net->lines[line].node_to];
    const bool forward = s->state.flow[line].to > nothing, backward = s->state.flow[line].from < -nothing;
    *downstream = forward ? to : backward ? from : -1;
    return forward ? from : backward ? to : -1;
}

/* Plant nodes, upstream before downstream; what stands in a circle, if ever, or beyond one comes last in the order of
 * the file. Returns how many stand before. */
static int sort_by_flow(fv_solver *s)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    int *waiting = s->work.scratch, down;
    memset(waiting, 0, (size_t)n * sizeof(int));
    for (int i = 0; i < (int)net->line_count; i++)
        if (s->layout.form[i] != FORM_SHUT && upstream(s, i, &down) >= 0)
            waiting[down]++;
    int count = 0;
    for (int i = 0; i < n; i++)
        if (waiting[i] == 0)
            s->state.order[count++] = i;
    for (int head = 0; head < count; head++) {
        const int node = s->state.order[head];
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
            const int line = net->touch_line[j];
            if (s->layout.form[line] != FORM_SHUT && upstream(s, line, &down) == node && --waiting[down] == 0)
                s->state.order[count++] = down;
        }
    }
    const int sorted = count;
    for (int i = 0; i < n && count < n; i++)
        if (waiting[i] > 0)
            s->state.order[count++] = i;
    return sorted;
}

static double mixed(double heat, double mass, double otherwise)
{
    return mass > 0 ? heat / mass : otherwise;
}

static void add_boilers(fv_solver *s, const double *x)
{
    const fv_network *net = s->net;
    double made = 0, heat = 0;
    for (size_t g = 0; g < net->boiler_group_count; g++) {
        const steady_net_boilers *b = &net->boilers[g];
        steady_at_node *at = &s->state.at[net->plant_node[b->node]];
        fv_sat_point sat;
        fv_sat_at(net->sat, net->site_pressure + x[b->node], &sat);
        double slope;
        const double m = x[b->unknown], water = fmax(m, 0) * steady_boilers_wetness(s, (int)g, x[b->node], &slope);
        at->in += fmax(m, 0); /* smoothed limits let a boiler take a little back, of the node's steam */
        at->heat_in += fmax(m, 0) * sat.h_g;
        made += m;
        heat += m * sat.h_g;
        at->water_in += water;
        at->water_heat_in += water * sat.h_f;
    }
    fv_sat_point site;
    fv_sat_at(net->sat, net->site_pressure, &site);
    s->state.enthalpy_made = mixed(heat, made, site.h_g);
}

/* Vapour that leaves each node. */
static void add_outflows(fv_solver *s, const double *x)
{
    const fv_network *net = s->net;
    for (size_t i = 0; i < net->line_count; i++) {
        if (s->layout.form[i] == FORM_SHUT)
            continue;
        s->state.at[net->plant_node[net->lines[i].node_from]].out += fmax(s->state.flow[i].from, 0);
        s->state.at[net->plant_node[net->lines[i].node_to]].out += fmax(-s->state.flow[i].to, 0);
    }
    for (size_t i = 0; i < net->vessel_count; i++)
        s->state.at[net->plant_node[net->vessels[i].node]].out += fmax(steady_coil_inflow(&net->vessels[i], x), 0);
}

static double follow(double *slot, double value)
{
    const double change = fabs(value - *slot);
    *slot = value;
    return change;
}

static void arrive(steady_at_node *at, const steady_convected *c, double out)
{
    at->in += out;
    at->heat_in += out * c->enthalpy;
    at->water_in += c->water_out;
    at->water_heat_in += c->water_out * c->water_enthalpy;
}

/* One line, the nodes it is fed from settled: passes on vapour and water, and returns the change of what it carries,
 * relative to all steam. */
static double pass_on(fv_solver *s, int line, int down, const double *x)
{
    const fv_network *net = s->net;
    const steady_net_line *l = &net->lines[line];
    const steady_at_node *a = &s->state.at[net->plant_node[l->node_from]],
                         *b = &s->state.at[net->plant_node[l->node_to]];
    const steady_line_flow *f = &s->state.flow[line];
    steady_convected *c = &s->state.convected[line];
    const double from = fmax(f->from, 0), to = fmax(-f->to, 0), out = steady_line_out(f);
    const double enthalpy = mixed(from * a->enthalpy + to * b->enthalpy, from + to, s->state.enthalpy_made);
    steady_line_water water;
    steady_water_into(s, line, f, x, &water);
    const double riding = c->entrained * f->made, load = water.in + riding, taken = steady_water_taken(s, f);
    const double heat =
        water.by_from * from * a->water_enthalpy - water.by_to * to * b->water_enthalpy + riding * f->h_f;
    const double rewetted = follow(&c->water_out, taken * load); /* on a tree it is what it is after one round */
    c->quality = mixed(out, out + c->water_out, 1);
    s->state.drained += f->made - riding + load - c->water_out;
    s->state.drained_enthalpy += (f->made - riding) * f->h_f + (1 - taken) * heat;
    double change = fmax(from + to, f->made) * follow(&c->enthalpy, enthalpy);
    change = fmax(change, load * follow(&c->water_enthalpy, mixed(heat, load, f->h_f)));
    change = fmax(change, s->state.circles ? rewetted * f->latent : 0);
    c->passed = true;
    if (down >= 0 && !s->state.at[down].settled)
        arrive(&s->state.at[down], c, out);
    return change / (f->latent * s->state.steam_made);
}

/* Where steam runs in a circle, which tees can bring about, a line of it arrives as it did in the last round, and the
 * water stays as Newton's method has it. */
static void settle_node(fv_solver *s, int node, bool circle, double *x)
{
    const fv_network *net = s->net;
    steady_at_node *at = &s->state.at[node];
    int down;
    for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
        const int line = net->touch_line[j];
        if (s->layout.form[line] != FORM_SHUT && !s->state.convected[line].passed && upstream(s, line, &down) >= 0 &&
            down == node)
            arrive(at, &s->state.convected[line], steady_line_out(&s->state.flow[line]));
    }
    at->settled = true;
    fv_sat_point sat;
    fv_sat_at(net->sat, net->site_pressure + x[node], &sat);
    at->enthalpy = mixed(at->heat_in, at->in, s->state.enthalpy_made);
    at->water_enthalpy = mixed(at->water_heat_in, at->water_in, sat.h_f);
    double *w = &x[net->water_first + node];
    if (!circle)
        *w = net->drip[node] ? 0 : steady_water_beside(s, at->water_in, at->out);
    const double left = at->water_in - *w * at->out;
    s->state.drained += left;
    s->state.drained_enthalpy += left * at->water_enthalpy;
}

double steady_convect(fv_solver *s, double *x)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    double change = 0;
    int down;
    memset(s->state.at, 0, (size_t)n * sizeof *s->state.at);
    s->state.steam_made = 0;
    for (size_t i = 0; i < net->boiler_group_count; i++)
        s->state.steam_made += x[net->boilers[i].unknown];
    s->state.steam_made = fmax(s->state.steam_made, LITTLE * s->given.steam_scale);
    for (size_t i = 0; i < net->line_count; i++)
        s->state.convected[i].passed = false;
    s->state.drained = s->state.drained_enthalpy = 0;
    steady_find_flows(s, x);
    find_condensate_demand(s);
    const int sorted = sort_by_flow(s);
    s->state.circles = sorted < n;
    add_boilers(s, x);
    add_outflows(s, x);
    for (int i = 0; i < n; i++) {
        const int node = s->state.order[i];
        settle_node(s, node, i >= sorted, x);
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
            const int line = net->touch_line[j];
            if (s->layout.form[line] != FORM_SHUT && upstream(s, line, &down) == node)
                change = fmax(change, pass_on(s, line, down, x));
        }
    }
    /* Lines that steam enters at both ends feed no node: they come when all nodes are settled. */
    for (int i = 0; i < (int)net->line_count; i++)
        if (s->layout.form[i] != FORM_SHUT && upstream(s, i, &down) < 0)
            change = fmax(change, pass_on(s, i, -1, x));
    return change;
}
