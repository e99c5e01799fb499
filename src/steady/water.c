/* SPDX-License-Identifier: MIT */
/* Water beside the steam: kg of it for each kg of vapour, an unknown at each plant node. What arrives is mixed and
 * divides like the vapour, which is as much as a one-dimensional model knows:
 *
 *   w (vapour that leaves) = sum of the water that arrives, boilers' carried water included.
 *
 * A drip leg takes all water out at its node: w = 0. */
#include "steady/equations.h"

#include <math.h>

/* Steam that leaves a line with less than this share of its condensate carries only a part of the water along; common
 * practice, no source. */
static const double CARRIES = 0.1;
/* Of what the boilers could give: vapour that counts beside what leaves a node or a line, so that there is a ratio
 * where none does. The water beside it is drained. */
static const double NOTHING = 1e-9;
static const double ALL = 1e6; /* times the steam that carries most: all water goes along, to the last digit */

enum { FROM, TO };

void steady_water_into(const fv_solver *s, int line, const steady_line_flow *f, const double *x, steady_line_water *out)
{
    const steady_net_line *l = &s->net->lines[line];
    const double *water = x + s->net->water_first;
    const double at_from = water[s->net->plant_node[l->node_from]], at_to = water[s->net->plant_node[l->node_to]];
    const double from = fmax(f->from, 0), to = fmax(-f->to, 0);
    *out = (steady_line_water){.in = at_from * from + at_to * to,
                               .by_from = from > 0 ? at_from : 0,
                               .by_to = to > 0 ? -at_to : 0,
                               .by_water = {from, to}};
}

/* What leaves a line with its steam, with slopes by what enters, by what leaves and by what condenses. */
typedef struct {
    double value, by_in, by_out, by_made;
} leaving;

/* Steam that leaves a line, over what carries most of its water. */
typedef struct {
    double least, ratio;
} passing;

static passing passes(const fv_solver *s, const steady_line_flow *f)
{
    const double least = CARRIES * fmax(f->made, 0) + NOTHING * s->given.steam_scale;
    return (passing){least, steady_line_out(f) / least};
}

/* Share of the water that leaves with the steam, r^2/(1 + r^4)^(1/2), and its slope: nothing turns round at once where
 * the line's flow does. */
static double taken(double ratio, double *slope)
{
    const double r = fmin(ratio, ALL), r2 = r * r, whole = 1 + r2 * r2, root = sqrt(whole);
    *slope = 2 * r / (root * whole);
    return r2 / root;
}

static leaving leaves(const fv_solver *s, int line, const steady_line_flow *f, double water_in)
{
    const double entrained = s->state.convected[line].entrained, load = water_in + entrained * f->made;
    const passing p = passes(s, f);
    double slope;
    const double share = taken(p.ratio, &slope);
    return (leaving){.value = share * load,
                     .by_in = share,
                     .by_out = slope * load / p.least,
                     .by_made = share * entrained - (f->made > 0 ? slope * load * p.ratio / p.least * CARRIES : 0)};
}

double steady_water_taken(const fv_solver *s, const steady_line_flow *f)
{
    double slope;
    return taken(passes(s, f).ratio, &slope);
}

/* A quantity by all that a line's water depends on: flow parameter, condensate, shares given and water at its ends. */
typedef struct {
    double t, c, shares[2], water[2];
} slopes;

/* by: of the flow at `from` and at `to`, and of what condenses. */
static slopes chain(const steady_line_flow *f, double by_from, double by_to, double by_made)
{
    return (slopes){.t = by_from * f->from_t + by_to * f->to_t + by_made * f->made_t,
                    .c = by_from * f->from_c + by_to * f->to_c + by_made * f->made_c,
                    .shares = {(by_from + by_made) * f->from_y, (by_to - by_made) * f->to_y}};
}

static void stamp(const fv_solver *s, int line, int node, const steady_line_flow *f, const slopes *by, double scale,
                  steady_stamps *stamps)
{
    const fv_network *net = s->net;
    const steady_net_line *l = &net->lines[line];
    const int row = net->water_first + node;
    steady_stamp(stamps, row, l->unknown, scale * by->t);
    steady_stamp(stamps, row, l->node_from, scale * by->c * f->condensate_p);
    steady_stamp(stamps, row, l->node_to, scale * by->c * f->condensate_p);
    steady_stamp(stamps, row, net->share_first + l->node_from, scale * by->shares[FROM]);
    steady_stamp(stamps, row, net->share_first + l->node_to, scale * by->shares[TO]);
    steady_stamp(stamps, row, net->water_first + net->plant_node[l->node_from], scale * by->water[FROM]);
    steady_stamp(stamps, row, net->water_first + net->plant_node[l->node_to], scale * by->water[TO]);
}

/* One end of a line: w times the vapour that enters there, or less the water that comes out. */
static void end_equation(const fv_solver *s, int line, int end, const steady_line_flow *f, const steady_line_water *in,
                         const leaving *water, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    const steady_net_line *l = &net->lines[line];
    const int node = net->plant_node[end == FROM ? l->node_from : l->node_to], row = net->water_first + node;
    const double sign = end == FROM ? 1 : -1, vapour = sign * (end == FROM ? f->from : f->to);
    const double scale = net->drip[node] ? 0 : 1 / s->given.steam_scale, w = x[row];
    residual[row] += scale * (vapour > 0 ? w * vapour : vapour < 0 ? -water->value : 0);
    if (!stamps)
        return;
    slopes by = {0};
    if (vapour > 0) {
        by = chain(f, end == FROM ? w : 0, end == TO ? -w : 0, 0);
        by.water[end] = vapour;
    } else if (vapour < 0) {
        by = chain(f, (end == FROM ? water->by_out : 0) - water->by_in * in->by_from,
                   (end == TO ? -water->by_out : 0) - water->by_in * in->by_to, -water->by_made);
        by.water[FROM] = -water->by_in * in->by_water[FROM];
        by.water[TO] = -water->by_in * in->by_water[TO];
    }
    stamp(s, line, node, f, &by, scale, stamps);
}

void steady_line_water_equations(const fv_solver *s, int line, const steady_line_flow *f, const steady_line_water *in,
                                 const double *x, double *residual, steady_stamps *stamps)
{
    const leaving water = leaves(s, line, f, in->in);
    end_equation(s, line, FROM, f, in, &water, x, residual, stamps);
    end_equation(s, line, TO, f, in, &water, x, residual, stamps);
}

static void coil_water(const fv_solver *s, int vessel, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    const steady_net_vessel *v = &net->vessels[vessel];
    const int node = net->plant_node[v->node], row = net->water_first + node;
    const double m = steady_coil_inflow(v, x), scale = m > 0 && !net->drip[node] ? 1 / s->given.steam_scale : 0;
    residual[row] += scale * x[row] * m;
    if (!stamps)
        return;
    steady_stamp(stamps, row, row, scale * m);
    steady_stamp(stamps, row, v->flow_unknown, scale * x[row]);
    if (v->segment_count > v->hole_count)
        steady_stamp(stamps, row, v->flow_unknown + 2 * v->hole_count, -scale * x[row]);
}

static void boiler_water(const fv_solver *s, int group, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    const steady_net_boilers *b = &net->boilers[group];
    const int node = net->plant_node[b->node], row = net->water_first + node;
    double by_p;
    const double wetness = steady_boilers_wetness(s, group, x[b->node], &by_p), m = x[b->unknown];
    const double scale = m > 0 && !net->drip[node] ? 1 / s->given.steam_scale : 0;
    residual[row] -= scale * m * wetness;
    if (!stamps)
        return;
    steady_stamp(stamps, row, b->unknown, -scale * wetness);
    steady_stamp(stamps, row, b->node, -scale * m * by_p);
}

double steady_water_beside(const fv_solver *s, double water, double vapour)
{
    return water / (vapour + NOTHING * s->given.steam_scale);
}

void steady_node_water_equations(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    for (int row = net->water_first; row < net->unknown_count; row++) {
        const double one = net->drip[row - net->water_first] ? 1 : NOTHING;
        residual[row] += one * x[row];
        if (stamps)
            steady_stamp(stamps, row, row, one);
    }
    for (int g = 0; g < (int)net->boiler_group_count; g++)
        boiler_water(s, g, x, residual, stamps);
    for (int i = 0; i < (int)net->vessel_count; i++)
        coil_water(s, i, x, residual, stamps);
}
