/* SPDX-License-Identifier: MIT */
/* Cold lines. The first steam through a line warms its wall and lagging. That heat is charged to the vessels that the
 * line leads to, in proportion to the steam that each gets through it, and they get none until it is paid. A line is
 * warmed once: what it loses in a pause is not counted. */
#include "heatup/lines_warm.h"
#include "heatup/supply.h"
#include "steady/line_heat.h"

#include <math.h>

/* Where a line's steam leaves it and how much; -1: nothing passes. */
static int downstream(const heatup_run *run, int i, double *arrives)
{
    const fv_line_result *r = &run->state.network->lines[i];
    *arrives = fmax(r->flow_to, -r->flow_from);
    if (!(*arrives > HEATUP_NO_STEAM))
        return -1;
    return r->flow_to > 0 ? run->context.plant->lines[i]->node_to : run->context.plant->lines[i]->node_from;
}

static int upstream(const heatup_run *run, int i)
{
    return run->state.network->lines[i].flow_to > 0 ? run->context.plant->lines[i]->node_from
                                                    : run->context.plant->lines[i]->node_to;
}

/* Lines that carry steam, downstream first; those on a circle are left out. Returns how many. */
static size_t order_lines(heatup_run *run)
{
    const fv_network *net = run->context.net;
    heatup_scratch *trace = &run->scratch;
    const size_t nodes = run->context.plant->node_count;
    double arrives;
    size_t first = 0, last = 0, count = 0;
    for (size_t n = 0; n < nodes; n++)
        trace->leaving[n] = 0;
    for (size_t i = 0; i < run->context.plant->line_count; i++)
        if (downstream(run, (int)i, &arrives) >= 0)
            trace->leaving[upstream(run, (int)i)]++;
    for (size_t n = 0; n < nodes; n++)
        if (trace->leaving[n] == 0)
            trace->queue[last++] = (int)n;
    while (first < last) {
        const int node = trace->queue[first++];
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
            const int i = net->touch_line[j];
            if (downstream(run, i, &arrives) != node)
                continue;
            trace->order[count++] = i;
            if (--trace->leaving[upstream(run, i)] == 0)
                trace->queue[last++] = upstream(run, i);
        }
    }
    return count;
}

/* Follows a vessel's steam against the flow: to each cold line on the way it adds to the line's sum, or, once the sums
 * are known, takes its share of the line's heat. */
static void follow_back(heatup_run *run, size_t vessel, size_t count, bool charge)
{
    heatup_scratch *trace = &run->scratch;
    const fv_network *net = run->context.net;
    for (size_t n = 0; n < run->context.plant->node_count; n++)
        trace->at_node[n] = 0;
    trace->at_node[run->context.plant->vessels[vessel]->node] = heatup_vessel_steam(run, vessel);
    for (size_t k = 0; k < count; k++) {
        const int i = trace->order[k];
        double arrives, other, total = 0;
        const int node = downstream(run, i, &arrives);
        if (trace->at_node[node] == 0)
            continue;
        for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++)
            if (downstream(run, net->touch_line[j], &other) == node)
                total += other;
        const double carries = trace->at_node[node] * arrives / total;
        trace->at_node[upstream(run, i)] += carries;
        if (run->state.line_warm[i])
            continue;
        if (charge)
            run->state.vessels[vessel].line_heat +=
                steady_line_heat(run->context.plant, (size_t)i, &run->state.network->lines[i], run->context.t_boil) *
                carries / trace->sum[i];
        else
            trace->sum[i] += carries;
    }
}

static bool any_cold(const heatup_run *run)
{
    double arrives;
    for (size_t i = 0; i < run->context.plant->line_count; i++)
        if (!run->state.line_warm[i] && downstream(run, (int)i, &arrives) >= 0)
            return true;
    return false;
}

bool heatup_charge_cold_lines(heatup_run *run)
{
    if (!run->state.network_fresh || !any_cold(run))
        return false;
    const size_t count = order_lines(run), lines = run->context.plant->line_count;
    bool charged = false;
    for (size_t i = 0; i < lines; i++)
        run->scratch.sum[i] = 0;
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < run->context.plant->vessel_count; i++)
            if (heatup_vessel_steam(run, i) > 0)
                follow_back(run, i, count, pass == 1);
    for (size_t i = 0; i < lines; i++)
        if (run->scratch.sum[i] > 0)
            charged = run->state.line_warm[i] = true;
    return charged;
}
