/* SPDX-License-Identifier: MIT */
/* The way of a vessel's steam, read off the state of the network when steam first flowed. */
#include "report/heat/report.h"

#include <string.h>

/* kg/s that a line brings to a node; negative: takes from it. */
static double brings(const fv_heat_result *r, size_t line, int node)
{
    const fv_line_result *state = &r->at_first_steam->lines[line];
    return r->plant->lines[line]->node_to == node ? state->flow_to : -state->flow_from;
}

static bool touches(const fv_line *line, int node)
{
    return line->node_to == node || line->node_from == node;
}

static int other_end(const fv_line *line, int node)
{
    return line->node_to == node ? line->node_from : line->node_to;
}

/* The line that brings most to a node; -1: nothing comes. */
static int main_supply(const fv_heat_result *r, int node)
{
    int best = -1;
    double most = 0.0;
    for (size_t i = 0; i < r->plant->line_count; i++) {
        if (!touches(r->plant->lines[i], node) || !(brings(r, i, node) > most))
            continue;
        most = brings(r, i, node);
        best = (int)i;
    }
    return best;
}

int report_sag_before(const report_heat *heat, size_t vessel)
{
    const fv_heat_result *r = heat->result;
    int node = r->plant->vessels[vessel]->node, deepest = -1;
    double depth = 0.0;
    if (!r->at_first_steam)
        return -1;
    for (size_t steps = 0; steps <= r->plant->line_count; steps++) {
        int line = main_supply(r, node);
        if (line < 0)
            break;
        const fv_line *l = r->plant->lines[line];
        if (fv_or(l->sag, 0.0) > depth) {
            depth = l->sag.v;
            deepest = line;
        }
        node = other_end(l, node);
    }
    return deepest;
}

static bool stops(const fv_line_result *line)
{
    return line->blocked || line->condenses_all || line->shut;
}

/* Goes back from a node through lines without flow to the first that says why. */
static int find_stop(const fv_heat_result *r, int node, bool *seen)
{
    for (size_t i = 0; i < r->plant->line_count; i++) {
        if (seen[i] || !touches(r->plant->lines[i], node))
            continue;
        const fv_line_result *state = &r->at_first_steam->lines[i];
        seen[i] = true;
        if (stops(state))
            return (int)i;
        if (state->flow_to != 0.0 || state->flow_from != 0.0)
            continue;
        int found = find_stop(r, other_end(r->plant->lines[i], node), seen);
        if (found >= 0)
            return found;
    }
    return -1;
}

int report_stop_before(const report_heat *heat, size_t vessel)
{
    const fv_heat_result *r = heat->result;
    if (!r->at_first_steam)
        return -1;
    memset(heat->seen, 0, r->plant->line_count * sizeof(bool));
    return find_stop(r, r->plant->vessels[vessel]->node, heat->seen);
}
