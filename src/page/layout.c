/* SPDX-License-Identifier: MIT */
/* What all layouts are made of: places, wires and rows. */
#include "page/layout.h"

#include <stdlib.h>

static bool grow(page_layout *l, void **list, size_t *capacity, size_t count, size_t size)
{
    if (!l->arena)
        l->arena = fv_arena_new();
    l->failed = l->failed || !l->arena || !fv_grow(list, capacity, count + 1, size);
    return !l->failed;
}

void page_layout_free(page_layout *l)
{
    fv_arena_free(l->arena);
    free(l->places);
    free(l->wires);
    free(l->rows);
    *l = (page_layout){0};
}

void page_layout_add_place(page_layout *l, page_layout_kind kind, int index, page_svg_point at)
{
    void *list = l->places;
    if (!grow(l, &list, &l->place_capacity, l->place_count, sizeof *l->places))
        return;
    l->places = list;
    l->places[l->place_count++] = (page_layout_place){kind, index, at};
}

page_layout_wire *page_layout_add_wire(page_layout *l, int line, int node, size_t points)
{
    void *list = l->wires;
    if (!grow(l, &list, &l->wire_capacity, l->wire_count, sizeof *l->wires))
        return NULL;
    l->wires = list;
    page_svg_point *room = fv_arena_alloc(l->arena, points, sizeof *room);
    if (!room) {
        l->failed = true;
        return NULL;
    }
    page_layout_wire *wire = &l->wires[l->wire_count++];
    *wire = (page_layout_wire){.line = line, .node = node, .points = room, .count = points};
    return wire;
}

void page_layout_add_row(page_layout *l, double y)
{
    void *list = l->rows;
    if (!grow(l, &list, &l->row_capacity, l->row_count, sizeof *l->rows))
        return;
    l->rows = list;
    l->rows[l->row_count++] = y;
}

/* Union-find over the joints: a line whose ends hang together already closes a loop. */
static int root_of(int *up, int node)
{
    while (up[node] != node)
        node = up[node] = up[up[node]];
    return node;
}

bool page_layout_has_loops(const fv_plant *plant)
{
    int *up = malloc((plant->node_count + 1) * sizeof *up);
    bool loops = false;
    for (size_t i = 0; up && i < plant->node_count; i++)
        up[i] = (int)i;
    for (size_t i = 0; up && !loops && i < plant->line_count; i++) {
        int a = root_of(up, plant->lines[i]->node_from), b = root_of(up, plant->lines[i]->node_to);
        loops = a == b;
        up[b] = a;
    }
    free(up);
    return loops;
}
