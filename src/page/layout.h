/* SPDX-License-Identifier: MIT */
/* Where each part of the plant stands in its drawing. Lengths are the drawing's units.
 *
 * Joints stand below each other, from the boiler down, in lanes at the left. A line to a joint that does not follow at
 * once passes the joints between on their left, in a lane of its own, or on the far right, behind the vessels: so a
 * ring is drawn as a ring around its vessels. Lines that end at a vessel, a boiler or nothing take a row each, between
 * the two. Words stand in rows of their own; nothing is drawn where words are. */
#ifndef PAGE_LAYOUT_H
#define PAGE_LAYOUT_H

#include "farvessel/model.h"
#include "page/svg.h"

enum {
    LAYOUT_WIDTH = 316,     /* at least: as much as a small phone shows */
    LAYOUT_SYMBOL = 44,     /* from a symbol's left to the words beside it */
    LAYOUT_HALF_SYMBOL = 20 /* of its height */
};

typedef enum { LAYOUT_BOILER, LAYOUT_VESSEL, LAYOUT_JOINT } page_layout_kind;

/* How much room words take, which depends on how wide they may run. */
typedef struct {
    const void *context;
    double (*line)(const void *context, int line, double width);
    double (*part)(const void *context, page_layout_kind kind, int index, double width);
} page_layout_words;

typedef struct {
    double x, y, width, height;
} page_layout_box;

typedef struct {
    page_layout_kind kind;
    int index;             /* of the boiler, the vessel, or the node */
    page_svg_point at;     /* where its line arrives: the left of a symbol, the middle of a joint */
    page_layout_box words; /* height 0: none */
} page_layout_place;

typedef struct {
    int line;       /* -1: a piece of the joint `node` itself */
    int node;       /* where line is -1 */
    bool backwards; /* points run from the line's `to` to its `from` */
    bool ends;      /* it runs straight to the right to a symbol, with room for what is built into it */
    page_svg_point points[4];
    size_t count;
    page_layout_box words;
} page_layout_wire;

typedef struct {
    double y;
    int depth; /* how many branches deep; the drawing is better cut where it is less */
} page_layout_row;

typedef struct {
    page_layout_place *places;
    page_layout_wire *wires;
    size_t place_count, place_capacity, wire_count, wire_capacity;
    double width, height, right; /* right: where words end; behind it lines run */
    size_t crossings;            /* of lines with lines */
    page_layout_row *rows;       /* where the drawing may be cut: no words and no symbols stand across */
    size_t row_count, row_capacity;
    bool failed; /* out of memory */
} page_layout;

void page_layout_make(const fv_plant *plant, const page_layout_words *words, page_layout *l);
void page_layout_free(page_layout *l);

#endif
