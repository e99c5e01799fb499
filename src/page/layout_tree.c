/* SPDX-License-Identifier: MIT */
/* Rows. From the largest boiler a trunk runs down; at each joint it follows the branch with the most ends, and the
 * other branches run to the right: straight to their vessel where that is all there is, else into a trunk of their own
 * one lane further right. A line that closes a loop ends at a sign that names the joint it leads to.
 *
 * Lanes nest at most as deep as the logarithm of the number of ends, since a branch that turns off has at most half. */
#include "page/layout.h"

#include <stdlib.h>

enum {
    TRUNK_ROW = 24,  /* a line that runs down */
    BRANCH_ROW = 46, /* a line that runs to a vessel */
    TURN_ROW = 34,   /* a line that turns off into a lane of its own */
    LANE = 46,
    BOILER_HALF = 20,
    TAKE_OFF = 14,
    REACH = 160 /* from the rightmost lane to the vessels */
};

typedef struct {
    const fv_plant *plant;
    page_layout *l;
    int *first, *next_end; /* line ends at each joint as chains; end 2i is `from` of line i, 2i + 1 `to` */
    int *parent;           /* line by which a joint was reached; -1: root, -2: not yet */
    size_t *ends;          /* vessels, boilers and links behind a joint, at least 1 */
    int *order;            /* joints as reached */
    size_t reached;
    bool *drawn; /* lines */
    int *lane;   /* of joints */
    int lanes;
    double y; /* top of the next row */
} tree;

static int other_end(const tree *t, int line, int node)
{
    const fv_line *l = t->plant->lines[line];
    return l->node_from == node ? l->node_to : l->node_from;
}

static void chain_ends(tree *t)
{
    for (size_t i = 0; i < t->plant->node_count; i++)
        t->first[i] = -1;
    for (int end = 2 * (int)t->plant->line_count - 1; end >= 0; end--) { /* backwards, so that chains follow the file */
        const fv_line *line = t->plant->lines[end / 2];
        int node = end % 2 ? line->node_to : line->node_from;
        t->next_end[end] = t->first[node];
        t->first[node] = end;
    }
}

/* Breadth first from `root`; loops are cut where they meet. */
static void reach(tree *t, int root)
{
    size_t at = t->reached;
    t->parent[root] = -1;
    t->order[t->reached++] = root;
    for (; at < t->reached; at++) {
        int node = t->order[at];
        for (int end = t->first[node]; end >= 0; end = t->next_end[end]) {
            int far = other_end(t, end / 2, node);
            if (t->parent[far] != -2)
                continue;
            t->parent[far] = end / 2;
            t->order[t->reached++] = far;
        }
    }
}

static void count_ends(tree *t)
{
    for (size_t i = 0; i < t->plant->vessel_count; i++)
        t->ends[t->plant->vessels[i]->node]++;
    for (size_t at = t->reached; at-- > 0;) {
        int node = t->order[at], line = t->parent[node];
        if (t->ends[node] == 0)
            t->ends[node] = 1;
        if (line >= 0)
            t->ends[other_end(t, line, node)] += t->ends[node];
    }
}

/* ---- what hangs at a joint ---- */

static bool leads_down(const tree *t, int line, int node)
{
    int far = other_end(t, line, node);
    return t->parent[far] == line && far != node;
}

static size_t parts_at(const tree *t, int node)
{
    size_t parts = 0;
    for (size_t i = 0; i < t->plant->vessel_count; i++)
        parts += t->plant->vessels[i]->node == node;
    for (size_t i = 0; i < t->plant->boiler_count; i++)
        parts += t->plant->boilers[i]->node == node;
    return parts;
}

/* Nothing but at most one part is at the far end. */
static bool is_end(const tree *t, int node)
{
    return t->next_end[t->first[node]] < 0 && parts_at(t, node) <= 1;
}

static int heaviest(const tree *t, int node)
{
    int best = -1;
    size_t most = 0;
    for (int end = t->first[node]; end >= 0; end = t->next_end[end]) {
        int far = other_end(t, end / 2, node);
        if (!leads_down(t, end / 2, node) || is_end(t, far) || t->ends[far] <= most)
            continue;
        most = t->ends[far];
        best = end / 2;
    }
    return best;
}

/* ---- drawing rows ---- */

static double lane_x(int lane)
{
    return LAYOUT_MARGIN + (double)LANE * lane;
}
static double vessel_x(const tree *t)
{
    return lane_x(t->lanes) + REACH;
}

static double row(tree *t, double height)
{
    double top = t->y;
    page_layout_add_row(t->l, top);
    t->y += height;
    return top;
}

static void wire(tree *t, int line, int node, page_svg_point from, page_svg_point to, page_layout_words how,
                 page_svg_point words)
{
    page_layout_wire *w = page_layout_add_wire(t->l, line, node, 2);
    if (!w)
        return;
    w->points[0] = from;
    w->points[1] = to;
    w->backwards = line >= 0 && t->plant->lines[line]->node_from != node;
    w->how = how;
    w->words = words;
}

static void place_parts(tree *t, int node, page_svg_point at)
{
    for (size_t i = 0; i < t->plant->vessel_count; i++)
        if (t->plant->vessels[i]->node == node)
            page_layout_add_place(t->l, LAYOUT_VESSEL, (int)i, at);
    for (size_t i = 0; i < t->plant->boiler_count; i++)
        if (t->plant->boilers[i]->node == node)
            page_layout_add_place(t->l, LAYOUT_BOILER, (int)i, (page_svg_point){at.x + BOILER_HALF, at.y});
}

/* A branch that ends in one row; returns the height of its line. */
static double branch(tree *t, int line, int node, bool link)
{
    double x = lane_x(t->lane[node]), y = row(t, BRANCH_ROW) + 0.5 * BRANCH_ROW;
    page_svg_point end = {vessel_x(t), y};
    int far = other_end(t, line, node);
    t->drawn[line] = true;
    wire(t, line, node, (page_svg_point){x, y}, end, LAYOUT_WORDS_AROUND, (page_svg_point){x + 12.0, y});
    if (link || parts_at(t, far) == 0)
        page_layout_add_place(t->l, link ? LAYOUT_LINK : LAYOUT_JOINT, far, end);
    else
        place_parts(t, far, end);
    return y;
}

/* Vessels, and boilers but the root's own, that stand at the joint itself. */
static double parts(tree *t, int node, int own_boiler, double bottom)
{
    page_svg_point from = {lane_x(t->lane[node]), 0.0};
    for (size_t i = 0; i < t->plant->vessel_count + t->plant->boiler_count; i++) {
        bool vessel = i < t->plant->vessel_count;
        int index = (int)(vessel ? i : i - t->plant->vessel_count);
        int at = vessel ? t->plant->vessels[index]->node : t->plant->boilers[index]->node;
        if (at != node || (!vessel && index == own_boiler))
            continue;
        bottom = from.y = row(t, BRANCH_ROW) + 0.5 * BRANCH_ROW;
        page_svg_point end = {vessel_x(t), from.y};
        wire(t, -1, node, from, end, LAYOUT_WORDS_NONE, from);
        if (!vessel)
            end.x += BOILER_HALF;
        page_layout_add_place(t->l, vessel ? LAYOUT_VESSEL : LAYOUT_BOILER, index, end);
    }
    return bottom;
}

static double straight_branches(tree *t, int node, double bottom)
{
    for (int end = t->first[node]; end >= 0; end = t->next_end[end]) {
        int line = end / 2, far = other_end(t, line, node);
        if (t->drawn[line] || line == t->parent[node])
            continue;
        bool down = leads_down(t, line, node);
        if (!down || is_end(t, far))
            bottom = branch(t, line, node, !down);
    }
    return bottom;
}

static void trunk(tree *t, int node, int own_boiler, double arrival, bool from_above);

static double turned_branches(tree *t, int node, int heavy, double bottom)
{
    for (int end = t->first[node]; end >= 0; end = t->next_end[end]) {
        int line = end / 2, far = other_end(t, line, node);
        if (t->drawn[line] || line == heavy || !leads_down(t, line, node))
            continue;
        double x = lane_x(t->lane[node]);
        bottom = row(t, TURN_ROW) + 0.5 * TURN_ROW;
        t->drawn[line] = true;
        wire(t, line, node, (page_svg_point){x, bottom}, (page_svg_point){x + LANE, bottom}, LAYOUT_WORDS_BEHIND,
             (page_svg_point){x + LANE + 12.0, bottom + 4.0});
        trunk(t, far, -1, bottom, false);
    }
    return bottom;
}

/* Everything below a joint that was reached at `arrival`. A joint that the trunk reaches from above is drawn at its
 * first branch. */
static void trunk(tree *t, int node, int own_boiler, double arrival, bool from_above)
{
    int came_by = -1, came_from = -1;
    double words = 0.0; /* in the row of the line that the trunk came by */
    while (node >= 0 && !t->l->failed) {
        double x = lane_x(t->lane[node]), top = t->y + 0.5 * BRANCH_ROW;
        double bottom = parts(t, node, own_boiler, -1.0);
        int heavy = heaviest(t, node);
        bottom = straight_branches(t, node, bottom);
        if (from_above && bottom < 0.0)
            top = bottom = t->y + 0.25 * TRUNK_ROW;
        if (!from_above)
            top = arrival;
        bottom = turned_branches(t, node, heavy, bottom < top ? top : bottom);
        if (came_by >= 0)
            wire(t, came_by, came_from, (page_svg_point){x, arrival}, (page_svg_point){x, top}, LAYOUT_WORDS_BEHIND,
                 (page_svg_point){x + 12.0, words});
        page_layout_add_place(t->l, LAYOUT_JOINT, node, (page_svg_point){x, top});
        if (bottom > top)
            wire(t, -1, node, (page_svg_point){x, top}, (page_svg_point){x, bottom}, LAYOUT_WORDS_NONE,
                 (page_svg_point){x, top});
        if (heavy >= 0) {
            words = row(t, TRUNK_ROW) + 0.5 * TRUNK_ROW + 4.0;
            t->drawn[heavy] = true;
        }
        arrival = bottom;
        came_by = heavy;
        came_from = node;
        own_boiler = -1;
        from_above = true;
        node = heavy >= 0 ? other_end(t, heavy, node) : -1;
    }
}

/* Lanes first, for the vessels stand right of the last. Parents come before their children in the order. */
static void find_lanes(tree *t)
{
    for (size_t at = 0; at < t->reached; at++) {
        int node = t->order[at], heavy = heaviest(t, node);
        for (int end = t->first[node]; end >= 0; end = t->next_end[end]) {
            int far = other_end(t, end / 2, node);
            if (!leads_down(t, end / 2, node) || is_end(t, far))
                continue;
            t->lane[far] = t->lane[node] + (end / 2 != heavy);
            if (t->lane[far] > t->lanes)
                t->lanes = t->lane[far];
        }
    }
}

/* The steam leaves the boiler at its top, and the trunk runs down beside it. */
static void draw_root(tree *t, int boiler)
{
    int node = t->plant->boilers[boiler]->node;
    double top = row(t, LAYOUT_BOILER_HEIGHT + TAKE_OFF) + 4.0, x = lane_x(0);
    page_svg_point at = {x + 2.0 * BOILER_HALF, top + TAKE_OFF + 0.5 * LAYOUT_BOILER_HEIGHT - 4.0},
                   joint = {x, t->y - 6.0};
    page_layout_wire *wire = page_layout_add_wire(t->l, -1, node, 4);
    if (!wire)
        return;
    wire->points[0] = (page_svg_point){at.x, at.y - 14.0};
    wire->points[1] = (page_svg_point){at.x, top + 4.0};
    wire->points[2] = (page_svg_point){x, top + 4.0};
    wire->points[3] = joint;
    page_layout_add_place(t->l, LAYOUT_BOILER, boiler, at);
    trunk(t, node, boiler, joint.y, false);
}

static void draw_all(tree *t)
{
    const fv_plant *plant = t->plant;
    size_t count = 0;
    int *roots = fv_arena_alloc(t->l->arena, plant->boiler_count + 1, sizeof *roots);
    t->l->failed = t->l->failed || !roots;
    for (;;) {
        int largest = -1;
        for (size_t i = 0; i < plant->boiler_count && roots; i++)
            if (t->parent[plant->boilers[i]->node] == -2 &&
                (largest < 0 || plant->boilers[i]->output.v > plant->boilers[largest]->output.v))
                largest = (int)i;
        if (largest < 0)
            break;
        roots[count++] = largest;
        reach(t, plant->boilers[largest]->node);
    }
    count_ends(t);
    find_lanes(t);
    for (size_t i = 0; i < count && !t->l->failed; i++)
        draw_root(t, roots[i]);
}

void page_layout_tree(const fv_plant *plant, page_layout *l)
{
    size_t nodes = plant->node_count + 1, lines = plant->line_count + 1;
    *l = (page_layout){.arena = fv_arena_new(), .in_rows = true};
    tree t = {.plant = plant, .l = l, .y = 4.0};
    if (l->arena) {
        t.first = fv_arena_alloc(l->arena, nodes, sizeof *t.first);
        t.next_end = fv_arena_alloc(l->arena, 2 * lines, sizeof *t.next_end);
        t.parent = fv_arena_alloc(l->arena, nodes, sizeof *t.parent);
        t.ends = fv_arena_alloc(l->arena, nodes, sizeof *t.ends);
        t.order = fv_arena_alloc(l->arena, nodes, sizeof *t.order);
        t.drawn = fv_arena_alloc(l->arena, lines, sizeof *t.drawn);
        t.lane = fv_arena_alloc(l->arena, nodes, sizeof *t.lane);
    }
    if (!l->arena || !t.first || !t.next_end || !t.parent || !t.ends || !t.order || !t.drawn || !t.lane) {
        l->failed = true;
        return;
    }
    for (size_t i = 0; i < plant->node_count; i++)
        t.parent[i] = -2;
    chain_ends(&t);
    draw_all(&t);
    l->width = vessel_x(&t) + LAYOUT_VESSEL_WIDTH + 4.0;
    l->height = t.y + 6.0;
}
