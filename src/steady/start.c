/* SPDX-License-Identifier: MIT */
/* A first guess of flows, kg/s, and pressures, Pa gauge: what the boilers can make, less what the lines condense when
 * filled, shared evenly among the open vessels and led along a tree of the lines; then pressures from the holes back up
 * that tree, with rough friction. Where that asks for more than the boilers hold, flows shrink. */
#include "steady/assembly.h"

#include <math.h>
#include <string.h>

static const double ROUGH_FRICTION = 0.03;
static const double WATER_WEIGHT = 9500; /* N/m3, hot */
/* Of what the boilers could give: that lines condense in this guess. */
static const double CONDENSES_MOST = 0.9;

/* Nodes breadth first from the boilers; parent[] is the line each was reached by, -1 for roots and the unreached. */
static int spread(fv_solver *s, int *order, int *parent)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    int count = 0;
    int *reached = s->work.scratch + 2 * n;
    memset(reached, 0, (size_t)n * sizeof(int));
    for (int i = 0; i < n; i++)
        parent[i] = -1;
    for (size_t g = 0; g < net->boiler_group_count; g++) {
        const int node = net->plant_node[net->boilers[g].node];
        if (!reached[node]) {
            reached[node] = 1;
            order[count++] = node;
        }
    }
    for (int head = 0; head < count; head++) {
        const int node = order[head];
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
            const int line = net->touch_line[j];
            const int a = net->plant_node[net->lines[line].node_from], b = net->plant_node[net->lines[line].node_to];
            const int beyond = a == node ? b : a;
            if (s->layout.form[line] == FORM_SHUT || reached[beyond])
                continue;
            reached[beyond] = 1;
            parent[beyond] = line;
            order[count++] = beyond;
        }
    }
    return count;
}

static double coil_back_pressure(const fv_solver *s, const steady_net_vessel *v, double m)
{
    const fv_chamber *c = &s->given.chambers[v - s->net->vessels];
    double area = 0;
    for (int k = 0; k < v->hole_count; k++)
        area += 0.6 * s->net->holes[v->first_hole + k].area;
    const double flux = area > 0 ? m / area : 0;
    return (c->kind == FV_CHAMBER_COLD ? c->pressure : 0) + WATER_WEIGHT * c->water + flux * flux / 1.2;
}

static void guess_coil(fv_solver *s, const steady_net_vessel *v, double m)
{
    const bool ring = v->segment_count > v->hole_count,
               shut = s->given.chambers[v - s->net->vessels].kind == FV_CHAMBER_SHUT;
    const double p = shut ? 0 : coil_back_pressure(s, v, m);
    for (int k = 0; k < v->segment_count; k++) {
        const double here = (double)k / v->hole_count;
        s->state.x[v->flow_unknown + 2 * k] = m * (ring ? 0.5 - here : 1 - here);
        if (k < v->hole_count)
            s->state.x[v->flow_unknown + 2 * k + 1] = p;
    }
}

void steady_guess_what_was_shut(fv_solver *s)
{
    for (size_t i = 0; i < s->net->vessel_count; i++)
        if (s->given.chambers[i].kind == FV_CHAMBER_SHUT)
            guess_coil(s, &s->net->vessels[i], 0);
    for (int k = 0; k < s->layout.one_way_count; k++) {
        const int i = s->layout.one_way[k];
        const steady_net_line *l = &s->net->lines[i];
        const bool forth = s->layout.fed_from[i];
        if (s->layout.form[i] != FORM_DEAD_LEG || s->layout.form_before[i] == FORM_DEAD_LEG)
            continue;
        s->state.x[l->unknown] = (forth ? 0.5 : -0.5) * s->state.flow[i].condensate;
        s->state.x[forth ? l->node_to : l->node_from] = s->state.x[forth ? l->node_from : l->node_to];
    }
}

static double line_drop(const fv_solver *s, int line, double m)
{
    const steady_net_line *l = &s->net->lines[line];
    const double g = m / l->duct.area;
    return g * g / 1.2 * (ROUGH_FRICTION * l->duct.length / l->duct.bore + s->given.line_k[line]) +
           WATER_WEIGHT * l->sag;
}

static double group_could_give(const fv_solver *s, const steady_net_boilers *b)
{
    const fv_stored nothing = {0, 0};
    double sum = 0, slope;
    for (int i = 0; i < b->count; i++) {
        const int k = s->net->boiler_order[b->first + i];
        sum += steady_boiler_most(s->net, s->net->plant->boilers[k], s->given.fire[k], nothing, 0, &slope);
    }
    return sum;
}

static steady_supply *supply_of(const fv_solver *s, int node)
{
    return &s->layout.supply[s->layout.part[s->net->plant_node[node]]];
}

/* What the boilers of each part could give and hold, and how many open vessels share it. */
static void find_supplies(fv_solver *s)
{
    const fv_network *net = s->net;
    memset(s->layout.supply, 0, net->plant->node_count * sizeof *s->layout.supply);
    for (size_t g = 0; g < net->boiler_group_count; g++) {
        const steady_net_boilers *b = &net->boilers[g];
        steady_supply *supply = supply_of(s, b->node);
        const double could = group_could_give(s, b);
        supply->could += could;
        if (could > 0)
            supply->holds = fmax(supply->holds, b->holds);
    }
    for (size_t i = 0; i < net->vessel_count; i++)
        supply_of(s, net->vessels[i].node)->open += s->given.chambers[i].kind != FV_CHAMBER_SHUT;
    for (size_t i = 0; i < net->line_count; i++)
        if (s->layout.form[i] != FORM_SHUT)
            supply_of(s, net->lines[i].node_from)->condenses += s->state.flow[i].condensate;
}

/* Of what all lines condense when filled: as much as leaves the vessels something. */
static double condensing(const steady_supply *supply)
{
    return supply->condenses > 0 ? fmin(1, CONDENSES_MOST * supply->could / supply->condenses) : 0;
}

static double each_of(const steady_supply *supply)
{
    return supply->open > 0 ? (supply->could - condensing(supply) * supply->condenses) / supply->open : 0;
}

/* What a line condenses, in this guess. */
static double condensed(const fv_solver *s, int line)
{
    return s->layout.form[line] == FORM_SHUT
               ? 0
               : condensing(supply_of(s, s->net->lines[line].node_from)) * s->state.flow[line].condensate;
}

/* Flow that passes each node, leaves first; parents[] lead back. flow and pressure: by plant node. */
static void tree_flows(fv_solver *s, const int *order, const int *parent, int count, int *feeds, double *flow,
                       double *pressure)
{
    const fv_network *net = s->net;
    memset(feeds, 0, net->plant->node_count * sizeof(int));
    memset(flow, 0, net->plant->node_count * sizeof(double));
    memset(pressure, 0, net->plant->node_count * sizeof(double));
    for (size_t i = 0; i < net->vessel_count; i++) {
        if (s->given.chambers[i].kind == FV_CHAMBER_SHUT)
            continue;
        const int node = net->plant_node[net->vessels[i].node];
        const double each = each_of(supply_of(s, node));
        feeds[node] = 1;
        flow[node] += each;
        pressure[node] = fmax(pressure[node], coil_back_pressure(s, &net->vessels[i], each));
    }
    for (int i = 0; i < (int)net->line_count; i++) {
        const int a = net->plant_node[net->lines[i].node_from], b = net->plant_node[net->lines[i].node_to];
        const double half = 0.5 * condensed(s, i);
        flow[a] += half;
        flow[b] += half;
    }
    for (int i = count - 1; i >= 0; i--) {
        const int node = order[i], line = parent[node];
        if (line < 0)
            continue;
        const int above = steady_other_end(net, line, node);
        feeds[above] |= feeds[node];
        flow[above] += flow[node];
        pressure[above] = fmax(pressure[above], pressure[node] + line_drop(s, line, flow[node]));
    }
}

/* How far all flows of a part must shrink for its boilers to push them. A part with no open vessel stands at what its
 * boilers hold. */
static void find_shrinkage(fv_solver *s, double *pressure)
{
    const int n = (int)s->net->plant->node_count;
    for (int i = 0; i < n; i++)
        supply_of(s, i)->highest = fmax(supply_of(s, i)->highest, pressure[i]);
    for (int i = 0; i < n; i++) {
        steady_supply *supply = &s->layout.supply[i];
        supply->shrink =
            supply->highest > supply->holds && supply->holds > 0 ? sqrt(supply->holds / supply->highest) : 1;
    }
}

/* What no open vessel hangs on stands under the pressure that it is fed with. */
static void stand_by(fv_solver *s, const int *order, const int *parent, int count, const int *feeds, double *pressure)
{
    for (int i = 0; i < count; i++) {
        const int node = order[i], line = parent[node];
        if (!feeds[node])
            pressure[node] = line < 0 ? supply_of(s, node)->highest : pressure[steady_other_end(s->net, line, node)];
    }
}

static void write_guess(fv_solver *s, const int *parent, const double *flow, const double *pressure)
{
    const fv_network *net = s->net;
    for (int i = 0; i < net->node_count; i++) {
        const steady_supply *supply = supply_of(s, i);
        s->state.x[i] =
            supply->open > 0 ? supply->shrink * supply->shrink * pressure[net->plant_node[i]] : supply->holds;
    }
    for (int i = net->share_first; i < net->unknown_count; i++)
        s->state.x[i] = i < net->water_first ? 1 : 0;
    for (size_t i = 0; i < net->line_count; i++) {
        const steady_net_line *l = &net->lines[i];
        const int a = net->plant_node[l->node_from], b = net->plant_node[l->node_to];
        const double shrink = supply_of(s, a)->shrink;
        const bool forth = parent[b] == (int)i, back = parent[a] == (int)i;
        /* in the mean, or where it enters (line.c) */
        const double more = s->layout.form[i] == FORM_ONE_WAY ? 0.5 * condensed(s, (int)i) : 0;
        const double m = shrink * (forth ? flow[b] + more : back ? -flow[a] - more : 0);
        s->state.x[l->unknown] = m;
        if (l->head_unknown >= 0)
            s->state.x[l->head_unknown] = WATER_WEIGHT * l->sag * ((m > 0) - (m < 0));
    }
    for (size_t i = 0; i < net->vessel_count; i++) {
        const steady_net_vessel *v = &net->vessels[i];
        const fv_chamber *c = &s->given.chambers[i];
        const steady_supply *supply = supply_of(s, v->node);
        s->state.x[v->chamber_unknown] = c->kind == FV_CHAMBER_COLD ? c->pressure : 0;
        s->state.x[v->head_unknown] = WATER_WEIGHT * c->water;
        guess_coil(s, v, c->kind == FV_CHAMBER_SHUT ? 0 : supply->shrink * each_of(supply));
    }
    for (size_t i = 0; i < net->tee_count; i++) {
        const steady_net_tee *t = &net->tees[i];
        for (int k = 0; k < 2; k++) {
            const steady_net_line *l = &net->lines[t->leg[k + 1]];
            const double m = s->state.x[l->unknown];
            s->state.x[t->unknown[k]] = l->node_from == t->port[k] ? m : -m;
        }
    }
    for (size_t i = 0; i < net->boiler_group_count; i++) {
        const steady_net_boilers *b = &net->boilers[i];
        s->state.x[b->unknown] =
            fmin(group_could_give(s, b), supply_of(s, b->node)->shrink * flow[net->plant_node[b->node]]);
    }
}

/* As it leaves a boiler that holds next to no pressure. Nothing is kept of what an earlier try left behind. */
static void forget_enthalpies(fv_solver *s)
{
    fv_sat_point at;
    fv_sat_at(s->net->sat, s->net->site_pressure, &at);
    for (size_t i = 0; i < s->net->line_count; i++)
        s->state.convected[i].enthalpy = at.h_g;
}

void steady_start_guess(fv_solver *s)
{
    const int n = (int)s->net->plant->node_count;
    int *order = s->work.scratch, *parent = s->work.scratch + n, *feeds = s->work.scratch + 2 * n;
    double *flow = s->work.dx, *pressure = s->work.trial; /* both at least as long as the nodes are many */
    const int count = spread(s, order, parent);
    memset(s->state.x, 0, (size_t)s->net->unknown_count * sizeof(double));
    forget_enthalpies(s);
    steady_find_flows(s, s->state.x);
    find_supplies(s);
    tree_flows(s, order, parent, count, feeds, flow, pressure);
    find_shrinkage(s, pressure);
    stand_by(s, order, parent, count, feeds, pressure);
    write_guess(s, parent, flow, pressure);
}
