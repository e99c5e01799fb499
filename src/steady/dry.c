/* SPDX-License-Identifier: MIT */
/* Where steam is short. Lines that lose heat draw condensate from the nodes at their ends, and boilers may make less
 * than they could condense. A line that steam can reach from one end alone then has its wet length (line.c). Elsewhere,
 * in loops and between boilers, the pressure falls until a node runs dry: its pressure is that of the chambers beyond,
 * with standing steam between, and it gives its lines only a share y of the half that they could condense there,
 *
 *   y = 1 where the pressure is above the dry one, 0 where below, between 0 and 1 where equal. */
#include "steady/assembly.h"
#include "steady/smooth.h"

#include <math.h>

/* Of what the boilers could give: a node that its lines draw less from has no share to find. */
static const double DRAWS_LEAST = 1e-9;

/* Pressure at which the chamber of an open vessel stands when nothing comes in. */
static double idle_pressure(const fv_solver *s, int vessel)
{
    const fv_chamber *c = &s->given.chambers[vessel];
    double slope;
    return c->kind == FV_CHAMBER_COLD ? c->pressure : steady_venting_pressure(s, vessel, 0, 0, &slope);
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
                const int line = net->touch_line[j], beyond = steady_other_end(net, line, queue[head]);
                const bool both = s->layout.form[line] == FORM_THROUGH || s->layout.form[line] == FORM_DEAD_LEG;
                if (!both || block[beyond] >= 0)
                    continue;
                block[beyond] = root;
                queue[count++] = beyond;
            }
        }
    }
}

/* The lowest chamber, brought to height 0, that steam from a node's block can reach, and the column up to the node. */
void steady_find_dry_pressures(fv_solver *s)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    const double column =
        (fv_air_density(net->site_pressure, s->given.t_air) - fv_sat_rho_g(net->sat, net->site_pressure, NULL)) *
        FV_GRAVITY;
    double *lowest = s->work.trial; /* by block */
    int *block = s->work.scratch;
    find_blocks(s, block, s->work.scratch + n);
    for (int i = 0; i < n; i++)
        lowest[i] = INFINITY;
    for (size_t i = 0; i < net->vessel_count; i++) {
        const int node = net->plant_node[net->vessels[i].node];
        if (s->given.chambers[i].kind != FV_CHAMBER_SHUT)
            lowest[block[node]] = fmin(lowest[block[node]], idle_pressure(s, (int)i) - column * net->height[node]);
    }
    for (int k = s->layout.one_way_count - 1; k >= 0; k--) {
        const steady_net_line *l = &net->lines[s->layout.one_way[k]];
        const int from = block[net->plant_node[l->node_from]], to = block[net->plant_node[l->node_to]];
        lowest[s->layout.fed_from[s->layout.one_way[k]] ? from : to] = fmin(lowest[from], lowest[to]);
    }
    for (int i = 0; i < net->node_count; i++) {
        const int node = net->plant_node[i];
        s->layout.dry_pressure[i] = isinf(lowest[block[node]]) ? 0 : lowest[block[node]] + column * net->height[node];
    }
}

void steady_dryness_equations(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps)
{
    for (int i = 0; i < s->net->node_count; i++) {
        const int row = s->net->share_first + i;
        double slope = 0, relaxation = 0;
        residual[row] = x[row] - 1;
        if (s->state.condensate_demand[i] > DRAWS_LEAST * s->given.steam_scale) {
            const double over = (x[i] - s->layout.dry_pressure[i]) / STEADY_SHARE_SPAN;
            relaxation = STEADY_RELAXATION * s->state.smoothing;
            residual[row] = x[row] - steady_smooth_clamp(x[row] + over, s->state.smoothing, &slope) - relaxation * over;
        }
        if (!stamps)
            continue;
        steady_stamp(stamps, row, row, 1 - slope);
        steady_stamp(stamps, row, i, -(slope + relaxation) / STEADY_SHARE_SPAN);
    }
}
