/* SPDX-License-Identifier: MIT */
/* Where steam is short. Lines that lose heat draw condensate from the nodes at their ends, and a boiler may make less
 * than they could condense. The pressure then falls until some nodes run dry: dry means that the pressure is that of
 * the chambers beyond, with standing steam between, and that the node gives its lines only a share of their condensate,
 *
 *   0 <= share missing <= 1   perpendicular to   pressure - dry pressure >= 0,
 *
 * so that a line that condenses everything has a wet length and delivers nothing, in loops as in trees. Held by an
 * active set: at a dry node the row of its balance says the pressure, and the balance says what is missing. Where a
 * line is the only way for steam to come, all beyond it is dry once it delivers nothing. */
#include "steady/network.h"

#include <math.h>

/* Share by which more than all may be missing before a dry node counts as drawn on. */
static const double TOUCH = 1e-9;
/* Pa of missing pressure that weigh as much as all that the boilers could give. */
static const double SPAN = 1000;

/* Pressure at which the chamber of an open vessel stands when nothing comes in. */
static double idle_pressure(const fv_solver *s, int vessel)
{
    const fv_chamber *c = &s->chambers[vessel];
    double slope;
    return c->kind == FV_CHAMBER_COLD ? c->pressure : fv_venting_pressure(s, vessel, 0, 0, &slope);
}

/* Blocks: nodes that lines with steam at both ends connect. */
static void find_blocks(fv_solver *s, int *block, int *queue)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    for (int i = 0; i < n; i++)
        block[i] = -1;
    for (int root = 0; root < n; root++) {
        int count = 0;
        if (block[root] < 0)
            queue[count++] = root;
        for (int head = 0; head < count; head++) {
            block[queue[head]] = root;
            for (int j = net->touch_start[queue[head]]; j < net->touch_start[queue[head] + 1]; j++) {
                const int line = net->touch_line[j], beyond = fv_other_end(net, line, queue[head]);
                const bool both = s->form[line] == FORM_THROUGH || s->form[line] == FORM_DEAD_LEG;
                if (!both || block[beyond] >= 0)
                    continue;
                block[beyond] = root;
                queue[count++] = beyond;
            }
        }
    }
}

/* The lowest chamber, brought to height 0, that steam from a node's block can reach, and the column up to the node. */
void fv_find_dry_pressures(fv_solver *s)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    const double column =
        (fv_air_density(net->site_pressure, s->t_air) - fv_sat_rho_g(net->sat, net->site_pressure, NULL)) * FV_GRAVITY;
    double *lowest = s->trial; /* by block */
    int *block = s->scratch;
    find_blocks(s, block, s->scratch + n);
    for (int i = 0; i < n; i++)
        lowest[i] = INFINITY;
    for (size_t i = 0; i < net->vessel_count; i++) {
        const int node = net->plant_node[net->vessels[i].node];
        if (s->chambers[i].kind != FV_CHAMBER_SHUT)
            lowest[block[node]] = fmin(lowest[block[node]], idle_pressure(s, (int)i) - column * net->height[node]);
    }
    for (int k = s->one_way_count - 1; k >= 0; k--) {
        const fv_net_line *l = &net->lines[s->one_way[k]];
        const int from = block[net->plant_node[l->node_from]], to = block[net->plant_node[l->node_to]];
        lowest[s->fed_from[s->one_way[k]] ? from : to] = fmin(lowest[from], lowest[to]);
    }
    for (int i = 0; i < net->node_count; i++) {
        const int node = net->plant_node[i];
        s->dry_pressure[i] = isinf(lowest[block[node]]) ? 0 : lowest[block[node]] + column * net->height[node];
    }
}

bool fv_runs_short(const fv_solver *s, const double *x)
{
    for (int i = 0; i < s->net->node_count; i++)
        if (x[i] < s->dry_pressure[i] - 1e-9 * (1 + fabs(x[i])))
            return true;
    return false;
}

double fv_dry_slope(const fv_solver *s)
{
    return s->steam_scale / SPAN;
}

double fv_fading(const fv_solver *s, int node, const double *x, double *by_p)
{
    const double u = (x[node] - s->dry_pressure[node]) / s->ramp;
    *by_p = u > 0 && u < 1 ? -6 * u * (1 - u) / s->ramp : 0;
    return u <= 0 ? 1 : u >= 1 ? 0 : 1 - u * u * (3 - 2 * u);
}

static double push_of(const fv_solver *s, int node, const double *x)
{
    return fv_dry_slope(s) * (s->dry_pressure[node] - x[node]);
}

static void decide(fv_solver *s, int node, double missing, double push)
{
    const double draw = s->draw[node];
    s->held[node] = s->drawn_on[node] = false;
    s->dry_now[node] = 0;
    if (missing + push <= 0 || draw <= 0 || s->node_pinned[node] > 0)
        return;
    s->dry_now[node] = fmax(0, fmin(1, missing / draw));
    s->drawn_on[node] = missing + push > draw * (1 + TOUCH) + TOUCH * s->steam_scale;
    s->held[node] = !s->drawn_on[node];
}

static void put_to_sleep(fv_solver *s, int node)
{
    s->held[node] = true;
    s->drawn_on[node] = false;
    s->dry_now[node] = s->draw[node] > 0 ? 1 : 0;
}

/* Beyond a line that delivers nothing all is dry, unless it is drawn at from beyond. */
static void sleep_beyond(fv_solver *s, const double *x)
{
    for (int k = 0; k < s->one_way_count; k++) {
        const int line = s->one_way[k];
        const fv_net_line *l = &s->net->lines[line];
        const int up = s->fed_from[line] ? l->node_from : l->node_to,
                  down = s->fed_from[line] ? l->node_to : l->node_from;
        double in = 0;
        const bool lacks = s->form[line] == FORM_ONE_WAY && fv_line_lacks(s, line, x, &in) + push_of(s, down, x) > 0;
        s->asleep[line] = lacks || s->held[up] || in < 0;
        if (!s->asleep[line] || (in < 0 && !s->held[up]))
            continue;
        const int node = s->net->plant_node[down], tee = s->net->tee_at[node];
        put_to_sleep(s, node);
        for (int i = 0; i < 2 && tee >= 0; i++)
            put_to_sleep(s, s->net->tees[tee].port[i]);
    }
}

void fv_decide_dryness(fv_solver *s, const double *x, const double *residual)
{
    for (int i = 0; i < s->net->node_count; i++)
        decide(s, i, -residual[i], push_of(s, i, x));
    sleep_beyond(s, x);
}

void fv_apply_dryness(const fv_solver *s, const double *x, double *residual)
{
    for (int i = 0; i < s->net->node_count; i++) {
        if (s->held[i])
            residual[i] = push_of(s, i, x);
        else if (s->drawn_on[i])
            residual[i] += s->draw[i];
    }
}
