/* SPDX-License-Identifier: MIT */
/* A vessel's way is what is left of the plant when all ends are cut back that hold neither a boiler nor this vessel. */
#include "study/ways.h"

typedef struct {
    const fv_plant *plant;
    int *degree; /* by node: lines left */
    bool *keeps; /* by node: a boiler or the vessel */
    bool *left;  /* by line */
} pruning;

static void cut(pruning *p, size_t line, bool *again)
{
    const fv_line *l = p->plant->lines[line];
    const int ends[2] = {l->node_from, l->node_to};
    p->left[line] = false;
    for (int k = 0; k < 2; k++) {
        p->degree[ends[k]]--;
        *again = *again || (p->degree[ends[k]] == 1 && !p->keeps[ends[k]]);
    }
}

static void prune(pruning *p)
{
    for (bool again = true; again;) {
        again = false;
        for (size_t i = 0; i < p->plant->line_count; i++) {
            const fv_line *l = p->plant->lines[i];
            const bool loose_from = p->degree[l->node_from] == 1 && !p->keeps[l->node_from];
            const bool loose_to = p->degree[l->node_to] == 1 && !p->keeps[l->node_to];
            if (p->left[i] && (loose_from || loose_to))
                cut(p, i, &again);
        }
    }
}

static void find_way(pruning *p, size_t vessel)
{
    const fv_plant *plant = p->plant;
    for (size_t i = 0; i < plant->node_count; i++) {
        p->degree[i] = 0;
        p->keeps[i] = false;
    }
    for (size_t i = 0; i < plant->boiler_count; i++)
        p->keeps[plant->boilers[i]->node] = true;
    p->keeps[plant->vessels[vessel]->node] = true;
    for (size_t i = 0; i < plant->line_count; i++) {
        p->left[i] = true;
        p->degree[plant->lines[i]->node_from]++;
        p->degree[plant->lines[i]->node_to]++;
    }
    prune(p);
}

bool study_ways_find(const fv_plant *plant, fv_arena *arena, study_ways *ways)
{
    const size_t lines = plant->line_count;
    ways->line_count = lines;
    ways->on = fv_arena_alloc(arena, plant->vessel_count * lines + 1, sizeof(bool));
    ways->kind = fv_arena_alloc(arena, lines + 1, sizeof *ways->kind);
    pruning p = {.plant = plant,
                 .degree = fv_arena_alloc(arena, plant->node_count + 1, sizeof(int)),
                 .keeps = fv_arena_alloc(arena, plant->node_count + 1, sizeof(bool))};
    if (!ways->on || !ways->kind || !p.degree || !p.keeps)
        return false;
    for (size_t v = 0; v < plant->vessel_count; v++) {
        p.left = ways->on + v * lines;
        find_way(&p, v);
        for (size_t i = 0; i < lines; i++)
            if (p.left[i])
                ways->kind[i] =
                    ways->kind[i] == WAY_NONE && plant->lines[i]->kind != FV_LINE_HEADER ? WAY_OWN : WAY_SHARED;
    }
    return true;
}

bool study_own_valve(const fv_plant *plant, const study_ways *ways, size_t vessel, size_t *line, size_t *place)
{
    for (*line = 0; *line < plant->line_count; ++*line)
        for (*place = 0; *place < plant->lines[*line]->fitting_count; ++*place)
            if (ways->kind[*line] == WAY_OWN && study_on_way(ways, vessel, *line) &&
                plant->lines[*line]->fittings[*place]->kind == FV_FITTING_VALVE)
                return true;
    return false;
}
