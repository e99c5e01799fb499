/* SPDX-License-Identifier: MIT */
/* Upstream from a vessel's coil, at each joint by the line that brings most steam, to where none brings any. */
#include "page/way.h"

#include <math.h>
#include <stdlib.h>

/* Steam that a line brings to a joint, kg/s; negative where it takes some away. */
static double brings(const fv_plant *plant, const fv_steady_result *state, size_t line, int node)
{
    return plant->lines[line]->node_to == node ? state->lines[line].flow_to : -state->lines[line].flow_from;
}

/* The line that brings most steam to a joint; where none does, because a sag or a valve stops it, the one with the most
 * pressure behind it. -1: the way begins here. */
static int upstream(const fv_plant *plant, const fv_steady_result *state, int node, const bool *walked)
{
    int by_flow = -1, by_pressure = -1;
    double most = 0.0, highest = state->nodes[node].pressure;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        if ((line->node_from != node && line->node_to != node) || walked[i])
            continue;
        double flow = brings(plant, state, i, node);
        double behind = state->nodes[line->node_from == node ? line->node_to : line->node_from].pressure;
        if (flow > most) {
            most = flow;
            by_flow = (int)i;
        }
        if (behind > highest && flow >= 0.0) {
            highest = behind;
            by_pressure = (int)i;
        }
    }
    return by_flow >= 0 ? by_flow : by_pressure;
}

static void walk(const page_view *v, size_t vessel, bool *walked, page_way *w)
{
    const fv_plant *plant = v->plant;
    const fv_steady_result *state = v->flow->state;
    const fv_vessel_result *end = &state->vessels[vessel];
    int node = plant->vessels[vessel]->node, line;
    w->steps[w->count++] = (page_way_step){WAY_HOLES, -1, end->coil_pressure, end->chamber_pressure, 0.0};
    while ((line = upstream(plant, state, node, walked)) >= 0) {
        const fv_line_result *r = &state->lines[line];
        bool forward = plant->lines[line]->node_to == node;
        double arrives = forward ? r->pressure_to : r->pressure_from, held = fabs(r->drop_sag);
        walked[line] = true;
        if (held > 0.0)
            w->steps[w->count++] = (page_way_step){WAY_SAG, line, arrives + held, arrives, w->length};
        w->length += plant->lines[line]->length.v;
        node = forward ? plant->lines[line]->node_from : plant->lines[line]->node_to;
        w->steps[w->count++] = (page_way_step){WAY_LINE, line, state->nodes[node].pressure, arrives + held, w->length};
    }
}

bool page_way_make(const page_view *v, size_t vessel, page_way *w)
{
    bool *walked = calloc(v->plant->line_count + 1, sizeof *walked);
    *w = (page_way){.steps = malloc((2 * v->plant->line_count + 2) * sizeof(page_way_step))};
    bool good = walked && w->steps;
    if (good)
        walk(v, vessel, walked, w);
    free(walked);
    return good;
}

void page_way_free(page_way *w)
{
    free(w->steps);
    *w = (page_way){0};
}
