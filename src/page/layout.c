/* SPDX-License-Identifier: MIT */
/* From the order of the joints to places: one joint after the other, one row below the other. */
#include "page/layout.h"
#include "page/layout_order.h"

#include <math.h>
#include <stdlib.h>

enum {
    MARGIN = 18,
    LANE = 20,
    RIGHT_LANE = 15,
    STUB = 76,         /* from the rightmost lane to the symbols */
    LEAST_WORDS = 132, /* beside a symbol */
    LABEL_GAP = 9,     /* from a line to words right of it */
    ROW_GAP = 8,
    WORDS_GAP = 5,  /* below the words of a line that runs down */
    BAR = 14,       /* a row that only turns lines into other lanes */
    BOILER_TOP = 16 /* from the top of the drawing to the boiler's symbol, and again to where it stands free */
};

typedef struct {
    const page_layout_order *o;
    const page_layout_words *words;
    page_layout *l;
    double y;              /* top of the next row */
    double *top, *bottom;  /* by place: of the joint */
    double *turn;          /* by place: y where its lines leave into deeper lanes; NaN: straight down */
    double *arc_y;         /* by arc on the right: where it begins */
    double symbols, right; /* x of the symbols' left, and where words end */
} rows;

/* ---- lists ---- */

static void place(rows *r, page_layout_kind kind, int index, page_svg_point at, page_layout_box words)
{
    page_layout *l = r->l;
    void *list = l->places;
    l->failed = l->failed || !fv_grow(&list, &l->place_capacity, l->place_count + 1, sizeof *l->places);
    if (l->failed)
        return;
    l->places = list;
    l->places[l->place_count++] = (page_layout_place){kind, index, at, words};
}

static void wire(rows *r, page_layout_wire w)
{
    page_layout *l = r->l;
    void *list = l->wires;
    l->failed = l->failed || !fv_grow(&list, &l->wire_capacity, l->wire_count + 1, sizeof *l->wires);
    if (l->failed)
        return;
    l->wires = list;
    l->wires[l->wire_count++] = w;
}

/* A piece of the joint itself. */
static void piece(rows *r, int p, page_svg_point a, page_svg_point b)
{
    if (hypot(a.x - b.x, a.y - b.y) > 0.5)
        wire(r, (page_layout_wire){.line = -1, .node = r->o->order[p], .points = {a, b}, .count = 2});
}

/* Whether a line runs towards its `from` where it leaves the joint at place p. */
static bool is_backwards(const rows *r, int line, int p)
{
    return r->o->plant->lines[line]->node_from != r->o->order[p];
}

static void may_cut(rows *r, int depth)
{
    page_layout *l = r->l;
    void *list = l->rows;
    l->failed = l->failed || !fv_grow(&list, &l->row_capacity, l->row_count + 1, sizeof *l->rows);
    if (l->failed)
        return;
    l->rows = list;
    l->rows[l->row_count++] = (page_layout_row){r->y, depth};
}

/* ---- where things stand across ---- */

static double lane_x(int lane)
{
    return MARGIN + (double)LANE * lane;
}

static double joint_x(const rows *r, int p)
{
    return lane_x(r->o->lane[p]);
}

static double right_x(const rows *r, int lane)
{
    return r->right + 10.0 + (double)RIGHT_LANE * lane;
}

static void set_widths(rows *r)
{
    const page_layout_order *o = r->o;
    r->symbols = lane_x(o->left_lanes - 1) + STUB;
    double rail = o->right_lanes > 0 ? 4.0 + (double)RIGHT_LANE * o->right_lanes : 2.0;
    r->l->width = fmax(LAYOUT_WIDTH, r->symbols + LAYOUT_SYMBOL + LEAST_WORDS + rail);
    r->right = r->l->width - rail;
}

/* ---- rows ---- */

/* Words in a row of their own right of `x`; returns their box and goes on below. */
static page_layout_box line_words(rows *r, int line, double x)
{
    page_layout_box box = {x, r->y, r->right - x, 0.0};
    box.height = r->words->line(r->words->context, line, box.width);
    r->y += box.height;
    return box;
}

/* A symbol with its words, its middle at the y returned; `above` has been taken by the words of its line. */
static double symbol_row(rows *r, page_layout_kind kind, int index, page_layout_box *words)
{
    *words = (page_layout_box){r->symbols + LAYOUT_SYMBOL, 0.0, r->right - r->symbols - LAYOUT_SYMBOL, 0.0};
    words->height = r->words->part(r->words->context, kind, index, words->width);
    double half = fmax(LAYOUT_HALF_SYMBOL + 2.0, 0.5 * words->height), middle = r->y + half;
    words->y = middle - 0.5 * words->height;
    r->y = middle + half + ROW_GAP;
    return middle;
}

static void part_row(rows *r, int p, page_layout_kind kind, int index, int line, double *first)
{
    double x = joint_x(r, p);
    page_layout_box label = {0}, words;
    may_cut(r, r->o->lane[p] + 1);
    if (line >= 0)
        label = line_words(r, line, x + LABEL_GAP);
    double y = symbol_row(r, kind, index, &words);
    wire(r, (page_layout_wire){.line = line,
                               .node = r->o->order[p],
                               .backwards = line >= 0 && is_backwards(r, line, p),
                               .ends = line >= 0,
                               .points = {{x, y}, {r->symbols, y}},
                               .count = 2,
                               .words = label});
    place(r, kind, index, (page_svg_point){r->symbols, y}, words);
    *first = isnan(*first) ? y : *first;
    r->bottom[p] = y;
}

/* Vessels, and boilers but the one that the drawing begins with, at the joint itself. */
static void own_parts(rows *r, int p, double *first)
{
    const fv_plant *plant = r->o->plant;
    int node = r->o->order[p];
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (plant->vessels[i]->node == node)
            part_row(r, p, LAYOUT_VESSEL, (int)i, -1, first);
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (plant->boilers[i]->node == node && r->o->root[node] != (int)i)
            part_row(r, p, LAYOUT_BOILER, (int)i, -1, first);
}

static void hanging_line(rows *r, int p, int line, double *first)
{
    const fv_plant *plant = r->o->plant;
    int node = r->o->order[p];
    int far = is_backwards(r, line, p) ? plant->lines[line]->node_from : plant->lines[line]->node_to;
    page_layout_kind kind = LAYOUT_JOINT;
    int index = far;
    for (size_t i = 0; i < plant->vessel_count && far != node; i++)
        if (plant->vessels[i]->node == far) {
            kind = LAYOUT_VESSEL;
            index = (int)i;
        }
    for (size_t i = 0; i < plant->boiler_count && far != node; i++)
        if (plant->boilers[i]->node == far) {
            kind = LAYOUT_BOILER;
            index = (int)i;
        }
    part_row(r, p, kind, index, line, first);
}

static void hanging_lines(rows *r, int p, double *first)
{
    const page_layout_order *o = r->o;
    int node = o->order[p];
    for (int e = o->first[node]; e < o->first[node + 1]; e++)
        if (o->hangs[o->ends[e]])
            hanging_line(r, p, o->ends[e], first);
}

/* ---- lines on the right ---- */

static void right_end(rows *r, int p, size_t i)
{
    const page_layout_arc *arc = &r->o->arcs[i];
    double start = r->arc_y[i], y = r->y + 0.5 * BAR, x = right_x(r, arc->lane), from = joint_x(r, arc->from);
    page_layout_box words = {from + LABEL_GAP, 0.0, r->right - from - LABEL_GAP, 0.0};
    words.height = r->words->line(r->words->context, arc->line, words.width);
    words.y = start - 0.5 * BAR - words.height;
    wire(r, (page_layout_wire){.line = arc->line,
                               .node = -1,
                               .backwards = is_backwards(r, arc->line, arc->from),
                               .points = {{from, start}, {x, start}, {x, y}, {joint_x(r, p), y}},
                               .count = 4,
                               .words = words});
    r->bottom[p] = y;
    r->y += BAR + ROW_GAP;
}

/* Inner lanes first, so that none is crossed where it turns in. */
static void right_ends(rows *r, int p, double *first)
{
    const page_layout_order *o = r->o;
    for (int lane = 0; lane < o->right_lanes; lane++)
        for (size_t i = 0; i < o->arc_count; i++) {
            if (!o->arcs[i].right || o->arcs[i].to != p || o->arcs[i].lane != lane)
                continue;
            right_end(r, p, i);
            *first = isnan(*first) ? r->bottom[p] : *first;
        }
}

static bool begins_right(const page_layout_order *o, int p)
{
    for (size_t i = 0; i < o->arc_count; i++)
        if (o->arcs[i].right && o->arcs[i].from == p)
            return true;
    return false;
}

/* Outer lanes first, so that none is crossed where it turns down. */
static void right_begins(rows *r, int p, double *first)
{
    const page_layout_order *o = r->o;
    for (int lane = o->right_lanes; lane-- > 0;)
        for (size_t i = 0; i < o->arc_count; i++) {
            const page_layout_arc *arc = &o->arcs[i];
            if (!arc->right || arc->from != p || arc->lane != lane)
                continue;
            line_words(r, arc->line, joint_x(r, p) + LABEL_GAP);
            r->arc_y[i] = r->bottom[p] = r->y + 0.5 * BAR;
            *first = isnan(*first) ? r->arc_y[i] : *first;
            r->y += BAR + ROW_GAP;
        }
}

/* ---- lines on the left, and to the next joint ---- */

/* In which lane the line from place p - 1 to p runs. */
static int spine_lane(const page_layout_order *o, int p)
{
    return o->lane[p - 1] > o->lane[p] ? o->lane[p - 1] : o->lane[p];
}

static bool comes_straight(const page_layout_order *o, int p)
{
    return p > 0 && o->spine[p - 1] >= 0;
}

/* The rightmost lane in use between the places p - 1 and p. */
static int deepest(const page_layout_order *o, int p)
{
    int lane = comes_straight(o, p) ? spine_lane(o, p) : 0;
    for (size_t i = 0; i < o->arc_count; i++)
        if (!o->arcs[i].right && o->arcs[i].from < p && o->arcs[i].to >= p && o->arcs[i].lane > lane)
            lane = o->arcs[i].lane;
    return lane;
}

static void arrive(rows *r, int line, int from, int lane, double label_x)
{
    double start = isnan(r->turn[from]) ? r->bottom[from] : r->turn[from], x = lane_x(lane);
    page_layout_box words = line_words(r, line, label_x);
    r->y += WORDS_GAP;
    wire(r, (page_layout_wire){.line = line,
                               .node = -1,
                               .backwards = is_backwards(r, line, from),
                               .points = {{x, start}, {x, NAN}}, /* its end is known later */
                               .count = 2,
                               .words = words});
}

/* Words of all lines that arrive from above. Returns how far their lanes reach beside the joint's own. */
static void arrivals(rows *r, int p, int *least, int *most)
{
    const page_layout_order *o = r->o;
    double label_x = lane_x(p > 0 ? deepest(o, p) : 0) + LABEL_GAP;
    *least = *most = o->lane[p];
    if (comes_straight(o, p)) {
        arrive(r, o->spine[p - 1], p - 1, spine_lane(o, p), label_x);
        *most = spine_lane(o, p);
    }
    for (size_t i = 0; i < o->arc_count; i++) {
        const page_layout_arc *arc = &o->arcs[i];
        if (arc->right || arc->to != p)
            continue;
        arrive(r, arc->line, arc->from, arc->lane, label_x);
        *most = arc->lane > *most ? arc->lane : *most;
        *least = arc->lane < *least ? arc->lane : *least;
    }
}

static void end_arrivals(rows *r, size_t first_wire, double y)
{
    for (size_t i = first_wire; i < r->l->wire_count; i++)
        if (isnan(r->l->wires[i].points[1].y))
            r->l->wires[i].points[1].y = y;
}

/* Lines that leave into other lanes than the joint's turn off one bar. */
static void departures(rows *r, int p)
{
    const page_layout_order *o = r->o;
    int least = o->lane[p], most = o->lane[p];
    r->turn[p] = NAN;
    if (o->spine[p] >= 0 && spine_lane(o, p + 1) > most)
        most = spine_lane(o, p + 1);
    for (size_t i = 0; i < o->arc_count; i++) {
        const page_layout_arc *arc = &o->arcs[i];
        if (arc->right || arc->from != p)
            continue;
        most = arc->lane > most ? arc->lane : most;
        least = arc->lane < least ? arc->lane : least;
    }
    if (least == most)
        return;
    r->turn[p] = r->y + 0.25 * BAR;
    r->y += BAR;
    piece(r, p, (page_svg_point){joint_x(r, p), r->bottom[p]}, (page_svg_point){joint_x(r, p), r->turn[p]});
    piece(r, p, (page_svg_point){lane_x(least), r->turn[p]}, (page_svg_point){lane_x(most), r->turn[p]});
}

/* ---- joints ---- */

/* The boiler that a part of the drawing begins with: steam leaves at its top and turns down beside it. */
static double begin(rows *r, int p)
{
    int node = r->o->order[p], boiler = r->o->root[node];
    double x = joint_x(r, p), top = r->y + 4.0;
    if (boiler < 0)
        return NAN;
    r->y += BOILER_TOP;
    page_svg_point at = {x + 20.0, 0.0};
    page_layout_box words = {at.x + LAYOUT_SYMBOL + 4.0, 0.0, r->right - at.x - LAYOUT_SYMBOL - 4.0, 0.0};
    words.height = r->words->part(r->words->context, LAYOUT_BOILER, boiler, words.width);
    double half = fmax(LAYOUT_HALF_SYMBOL + 4.0, 0.5 * words.height);
    at.y = r->y + half;
    words.y = at.y - 0.5 * words.height;
    r->y += 2.0 * half + ROW_GAP;
    double riser = at.x + LAYOUT_HALF_SYMBOL;
    wire(r, (page_layout_wire){.line = -1,
                               .node = node,
                               .points = {{riser, at.y - 14.0}, {riser, top}, {x, top}, {x, r->y}},
                               .count = 4});
    place(r, LAYOUT_BOILER, boiler, at, words);
    return r->y;
}

static void joint(rows *r, int p)
{
    int least, most, node = r->o->order[p];
    size_t first_wire = r->l->wire_count;
    may_cut(r, r->o->lane[p]);
    double first = begin(r, p);
    r->bottom[p] = first;
    arrivals(r, p, &least, &most);
    if (least < most) { /* lines from other lanes come in on a bar */
        first = r->bottom[p] = r->y + 0.5 * BAR;
        r->y += BAR + 0.5 * ROW_GAP;
        piece(r, p, (page_svg_point){lane_x(least), first}, (page_svg_point){lane_x(most), first});
    }
    bool both = begins_right(r->o, p); /* what ends here must then turn in above what begins */
    if (both)
        right_ends(r, p, &first);
    right_begins(r, p, &first);
    own_parts(r, p, &first);
    hanging_lines(r, p, &first);
    if (!both)
        right_ends(r, p, &first);
    if (isnan(first)) {
        first = r->bottom[p] = r->y + 0.5 * ROW_GAP;
        r->y += ROW_GAP;
    }
    r->top[p] = first;
    end_arrivals(r, first_wire, first);
    piece(r, p, (page_svg_point){joint_x(r, p), first}, (page_svg_point){joint_x(r, p), r->bottom[p]});
    place(r, LAYOUT_JOINT, node, (page_svg_point){joint_x(r, p), first}, (page_layout_box){0});
    departures(r, p);
}

static bool lay_rows(rows *r, fv_arena *arena)
{
    size_t places = r->o->count + 1;
    r->top = fv_arena_alloc(arena, places, sizeof *r->top);
    r->bottom = fv_arena_alloc(arena, places, sizeof *r->bottom);
    r->turn = fv_arena_alloc(arena, places, sizeof *r->turn);
    r->arc_y = fv_arena_alloc(arena, r->o->arc_count + 1, sizeof *r->arc_y);
    if (!r->top || !r->bottom || !r->turn || !r->arc_y)
        return false;
    set_widths(r);
    for (size_t p = 0; p < r->o->count && !r->l->failed; p++)
        joint(r, (int)p);
    r->l->height = r->y + 4.0;
    r->l->right = r->right;
    r->l->crossings = r->o->crossings;
    return true;
}

void page_layout_make(const fv_plant *plant, const page_layout_words *words, page_layout *l)
{
    page_layout_order order;
    fv_arena *arena = fv_arena_new();
    *l = (page_layout){.failed = arena == NULL};
    if (arena) {
        rows r = {.o = &order, .words = words, .l = l, .y = 4.0};
        l->failed = !page_layout_order_make(plant, arena, &order) || !lay_rows(&r, arena) || l->failed;
    }
    fv_arena_free(arena);
}

void page_layout_free(page_layout *l)
{
    free(l->places);
    free(l->wires);
    free(l->rows);
    *l = (page_layout){0};
}
