/* SPDX-License-Identifier: MIT */
/* In which order the joints stand below each other, and past which of them each line runs in which lane. */
#ifndef PAGE_LAYOUT_ORDER_H
#define PAGE_LAYOUT_ORDER_H

#include "farvessel/model.h"

/* A line that does not join neighbours: it passes the joints between `from` and `to`. */
typedef struct {
    int line, from, to; /* places in the order, from < to */
    bool closes;        /* a loop, as found depth first */
    bool right;         /* passes on the far right, else on the left */
    int lane;           /* on the left from the edge inwards, on the right outwards */
} page_layout_arc;

/* Arrays belong to the arena. */
typedef struct {
    const fv_plant *plant;
    fv_arena *arena;
    int *first, *ends; /* lines at node n: ends[first[n]] .. ends[first[n + 1]]; file order, but for the search */
    int *root;         /* by node: index of the boiler that begins a part of the drawing here, -1: none */
    bool *hangs;       /* by line: it leads to an end with no more than one part, and takes a row */
    int *order;        /* nodes */
    int *place;        /* by node: where in the order; -1: the end of a line that hangs */
    size_t count;
    int *spine; /* by place: the line to the next place, -1: none */
    int *lane;  /* by place: of the joint */
    page_layout_arc *arcs;
    size_t arc_count;
    int left_lanes, right_lanes;
    size_t crossings; /* of arcs */
} page_layout_order;

/* False: out of memory. */
bool page_layout_order_make(const fv_plant *plant, fv_arena *arena, page_layout_order *o);
/* Sides and lanes of the arcs, lanes of the joints, crossings (layout_lanes.c). */
void page_layout_lanes(page_layout_order *o);

#endif
