/* SPDX-License-Identifier: MIT */
/* State and scratch as one block of memory each. An array has its place in one function, which first counts, then sets
 * the pointers; a copy is one memcpy and the pointers anew, so that no array can be left out. */
#include "heatup/state.h"

#include <stdalign.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    char *block; /* NULL: only counts */
    size_t used;
} layout;

static void *place(layout *l, size_t count, size_t size)
{
    const size_t step = alignof(max_align_t), bytes = (count * size + step - 1) / step * step;
    void *at = l->block ? l->block + l->used : NULL;
    l->used += bytes;
    return at;
}

static size_t place_state(heatup_state *s, const heatup_sizes *n, char *block)
{
    layout l = {.block = block};
    s->vessels = place(&l, n->vessels, sizeof *s->vessels);
    s->boilers = place(&l, n->boilers, sizeof *s->boilers);
    s->actions = place(&l, n->actions, sizeof *s->actions);
    s->thermostats = place(&l, n->thermostats, sizeof *s->thermostats);
    s->line_warm = place(&l, n->lines, sizeof *s->line_warm);
    s->valve_open = place(&l, n->valves, sizeof *s->valve_open);
    s->valve_set = place(&l, n->valves, sizeof *s->valve_set);
    s->fire = place(&l, n->boilers, sizeof *s->fire);
    s->solved_fire = place(&l, n->boilers, sizeof *s->solved_fire);
    s->stored = place(&l, n->boilers, sizeof *s->stored);
    s->solved_stored = place(&l, n->boilers, sizeof *s->solved_stored);
    s->back = place(&l, n->vessels, sizeof *s->back);
    s->solved_back = place(&l, n->vessels, sizeof *s->solved_back);
    s->missed = place(&l, n->vessels + n->boilers, sizeof *s->missed);
    return l.used;
}

static size_t place_scratch(heatup_scratch *s, const heatup_sizes *n, char *block)
{
    layout l = {.block = block};
    s->order = place(&l, n->lines, sizeof *s->order);
    s->leaving = place(&l, n->nodes, sizeof *s->leaving);
    s->queue = place(&l, n->nodes, sizeof *s->queue);
    s->at_node = place(&l, n->nodes, sizeof *s->at_node);
    s->sum = place(&l, n->lines, sizeof *s->sum);
    s->more = place(&l, n->vessels, sizeof *s->more);
    s->predicted = place(&l, n->vessels, sizeof *s->predicted);
    s->missing = place(&l, n->vessels + n->boilers, sizeof *s->missing);
    return l.used;
}

bool heatup_state_init(heatup_state *state, const heatup_sizes *sizes, const fv_network *net)
{
    state->block_size = place_state(state, sizes, NULL);
    state->block = calloc(1, state->block_size + 1);
    place_state(state, sizes, state->block);
    state->network = fv_steady_result_new(net);
    return state->block && state->network;
}

bool heatup_state_copy(const heatup_state *from, const heatup_sizes *sizes, const fv_network *net, heatup_state *to)
{
    *to = *from;
    to->block = malloc(from->block_size + 1);
    if (to->block)
        memcpy(to->block, from->block, from->block_size);
    place_state(to, sizes, to->block);
    to->network = heatup_network_copy(from->network, net);
    return to->block && to->network;
}

void heatup_state_free(heatup_state *state)
{
    fv_steady_result_free(state->network);
    free(state->block);
}

bool heatup_scratch_init(heatup_scratch *scratch, const heatup_sizes *sizes, fv_network *net)
{
    scratch->block = calloc(1, place_scratch(scratch, sizes, NULL) + 1);
    place_scratch(scratch, sizes, scratch->block);
    scratch->solver = fv_solver_new(net);
    return scratch->block && scratch->solver;
}

void heatup_scratch_free(heatup_scratch *scratch)
{
    fv_solver_free(scratch->solver);
    free(scratch->block);
}

fv_steady_result *heatup_network_copy(const fv_steady_result *from, const fv_network *net)
{
    fv_steady_result *copy = fv_steady_result_new(net);
    if (!copy)
        return NULL;
    const fv_steady_result kept = *copy;
    *copy = *from;
    copy->boilers = memcpy(kept.boilers, from->boilers, from->boiler_count * sizeof *from->boilers);
    copy->nodes = memcpy(kept.nodes, from->nodes, from->node_count * sizeof *from->nodes);
    copy->lines = memcpy(kept.lines, from->lines, from->line_count * sizeof *from->lines);
    copy->vessels = memcpy(kept.vessels, from->vessels, from->vessel_count * sizeof *from->vessels);
    copy->holes = memcpy(kept.holes, from->holes, from->hole_count * sizeof *from->holes);
    return copy;
}
