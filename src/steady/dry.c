/* SPDX-License-Identifier: MIT */
/* Where steam is short. Lines that lose heat draw condensate from the nodes at their ends, and a boiler may make less
 * than they could condense. The pressure then falls until some nodes run dry: dry means that the pressure is that of
 * the chambers beyond, with standing steam between, and that the node gives its lines only a share of their condensate,
 *
 *   0 <= share missing <= 1   perpendicular to   pressure - dry pressure >= 0,
 *
 * so that a line that condenses everything has a wet length and delivers nothing, in loops as in trees. Held by an
 * active set: at a dry node the row of its balance says the pressure, and the balance says what is missing. */
#include "steady/network.h"

#include <math.h>

/* Pa by which standing steam may differ from the plain column, of the column: its density follows the pressure. */
static const double COLUMN_SLACK = 2e-3;
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
                if (s->form[line] != FORM_THROUGH || block[beyond] >= 0)
                    continue;
                block[beyond] = root;
                queue[count++] = beyond;
            }
        }
    }
}

/* Lowest chambers, brought to height 0: of a node's whole part, from which it could be drawn empty, and of its block
 * and what lies beyond, which it rests at when nothing comes. Both with the column up to the node. */
void fv_find_dry_pressures(fv_solver *s)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    const double column =
        (fv_air_density(net->site_pressure, s->t_air) - fv_sat_rho_g(net->sat, net->site_pressure, NULL)) * FV_GRAVITY;
    double *of_block = s->trial, *of_part = s->dx;
    int *block = s->scratch;
    find_blocks(s, block, s->scratch + n);
    for (int i = 0; i < n; i++)
        of_block[i] = of_part[i] = INFINITY;
    for (size_t i = 0; i < net->vessel_count; i++) {
        const int node = net->plant_node[net->vessels[i].node];
        if (s->chambers[i].kind == FV_CHAMBER_SHUT)
            continue;
        const double p = idle_pressure(s, (int)i) - column * net->height[node];
        of_block[block[node]] = fmin(of_block[block[node]], p);
        of_part[s->part[node]] = fmin(of_part[s->part[node]], p);
    }
    for (int k = s->one_way_count - 1; k >= 0; k--) {
        const fv_net_line *l = &net->lines[s->one_way[k]];
        const int from = block[net->plant_node[l->node_from]], to = block[net->plant_node[l->node_to]];
        of_block[s->fed_from[s->one_way[k]] ? from : to] = fmin(of_block[from], of_block[to]);
    }
    for (int i = 0; i < net->node_count; i++) {
        const int node = net->plant_node[i];
        const double part = of_part[s->part[node]],
                     level = column * (net->height[node] - COLUMN_SLACK * net->height_range);
        s->dry_pressure[i] = isinf(part) ? 0 : part + level;
        s->rest_pressure[i] = isinf(part) ? 0 : of_block[block[node]] + column * net->height[node];
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

static void decide(const fv_solver *s, int node, double missing, double push, double *row)
{
    const double draw = s->draw[node];
    s->held[node] = false;
    s->dry_now[node] = 0;
    if (missing + push <= 0 || draw <= 0 || s->node_pinned[node] > 0)
        return;
    s->dry_now[node] = fmax(0, fmin(1, missing / draw));
    *row = push;
    s->held[node] = true;
}

static void put_to_sleep(const fv_solver *s, int node, const double *x, double *residual)
{
    s->held[node] = true;
    s->dry_now[node] = s->draw[node] > 0 ? 1 : 0;
    residual[node] = fv_dry_slope(s) * (s->rest_pressure[node] - x[node]);
}

/* Beyond a line that delivers nothing all is dry. */
static void sleep_beyond(const fv_solver *s, const double *x, double *residual)
{
    for (int k = 0; k < s->one_way_count; k++) {
        const int line = s->one_way[k];
        const fv_net_line *l = &s->net->lines[line];
        const int up = s->fed_from[line] ? l->node_from : l->node_to,
                  down = s->fed_from[line] ? l->node_to : l->node_from;
        const double push = fv_dry_slope(s) * (s->rest_pressure[down] - x[down]);
        if (!s->held[up] && fv_line_lacks(s, line, x) + push <= 0)
            continue;
        const int node = s->net->plant_node[down], tee = s->net->tee_at[node];
        put_to_sleep(s, node, x, residual);
        for (int i = 0; i < 2 && tee >= 0; i++)
            put_to_sleep(s, s->net->tees[tee].port[i], x, residual);
    }
}

void fv_apply_dryness(const fv_solver *s, const double *x, double *residual)
{
    for (int i = 0; i < s->net->node_count; i++)
        decide(s, i, -residual[i], fv_dry_slope(s) * (s->dry_pressure[i] - x[i]), &residual[i]);
    sleep_beyond(s, x, residual);
}
