/* SPDX-License-Identifier: MIT */
/* Where each part of the plant stands in the drawing. Lengths are the drawing's units. */
#ifndef PAGE_LAYOUT_H
#define PAGE_LAYOUT_H

#include "farvessel/steady.h"
#include "page/svg.h"

/* Room that the symbols with their words take. */
enum {
    LAYOUT_MARGIN = 22,
    LAYOUT_VESSEL_WIDTH = 198,
    LAYOUT_VESSEL_HEIGHT = 44,
    LAYOUT_BOILER_WIDTH = 160,
    LAYOUT_BOILER_HEIGHT = 54,
    LAYOUT_TAG_WIDTH = 112, /* words at a line: two rows */
    LAYOUT_TAG_HEIGHT = 30
};

typedef enum {
    LAYOUT_BOILER, /* index: of the boiler; `at` is the middle of its symbol, words stand right of it */
    LAYOUT_VESSEL, /* index: of the vessel; `at` is where the line arrives */
    LAYOUT_JOINT,  /* index: of the node */
    LAYOUT_LINK    /* index: of a node that is drawn elsewhere, too */
} page_layout_kind;

typedef struct {
    page_layout_kind kind;
    int index;
    page_svg_point at;
} page_layout_place;

typedef enum {
    LAYOUT_WORDS_NONE,
    LAYOUT_WORDS_AROUND, /* `words` lies on the line: id and flow stand above, pressures below it, from there to the
                            right */
    LAYOUT_WORDS_BEHIND, /* all in one row from `words` to the right */
    LAYOUT_WORDS_TAG     /* two rows centred at `words`, on a tag that covers the line */
} page_layout_words;

typedef struct {
    int line;               /* -1: between parts that stand at one joint */
    int node;               /* where line is -1: that joint */
    bool backwards;         /* points run from the line's `to` to its `from` */
    bool curved;            /* points are those of Bezier curves: 1 + 3 n */
    page_svg_point *points; /* in the arena */
    size_t count;
    page_layout_words how;
    page_svg_point words;
} page_layout_wire;

typedef struct {
    fv_arena *arena;
    page_layout_place *places;
    page_layout_wire *wires;
    size_t place_count, place_capacity, wire_count, wire_capacity;
    double width, height;
    bool in_rows; /* all lines run across or down, so that the drawing can be cut between rows */
    double *rows; /* in_rows: where each row begins */
    size_t row_count, row_capacity;
    bool failed; /* out of memory */
} page_layout;

/* For plants without loops, and for all where no other layout serves: the trunk runs down, branches run to the right,
 * one row each. */
void page_layout_tree(const fv_plant *plant, page_layout *l);
/* For plants with loops. False: Graphviz gave no layout; `l` is then empty. */
bool page_layout_loops(const fv_plant *plant, const fv_steady_result *state, page_layout *l);
bool page_layout_has_loops(const fv_plant *plant);
void page_layout_free(page_layout *l);

/* For the two above. */
void page_layout_add_place(page_layout *l, page_layout_kind kind, int index, page_svg_point at);
page_layout_wire *page_layout_add_wire(page_layout *l, int line, int node, size_t points); /* NULL: failed */
void page_layout_add_row(page_layout *l, double y);

#endif
