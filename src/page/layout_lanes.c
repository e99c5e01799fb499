/* SPDX-License-Identifier: MIT */
/* Sides and lanes. Two arcs on one side cross where one begins between the other's ends and ends outside: so arcs are
 * put on the two sides of the joints, as on the two pages of a book, such that few do. */
#include "page/layout_order.h"

#include <stdlib.h>

static bool interleave(const page_layout_arc *a, const page_layout_arc *b)
{
    return (a->from < b->from && b->from < a->to && a->to < b->to) ||
           (b->from < a->from && a->from < b->to && b->to < a->to);
}

static bool overlap(const page_layout_arc *a, const page_layout_arc *b)
{
    return a->from < b->to && b->from < a->to;
}

/* How many arcs on that side cross arc `i`. */
static size_t conflicts(const page_layout_order *o, size_t i, bool right)
{
    size_t n = 0;
    for (size_t k = 0; k < o->arc_count; k++)
        n += k != i && o->arcs[k].right == right && interleave(&o->arcs[i], &o->arcs[k]);
    return n;
}

/* Lines that join neighbours twice would lie on each other on the left. */
static bool must_be_right(const page_layout_arc *arc)
{
    return arc->to == arc->from + 1;
}

/* Loops on the right, branches on the left; then each changes sides where that saves crossings. */
static void choose_sides(page_layout_order *o, bool any_loop)
{
    enum { ROUNDS = 8 };
    bool moved = any_loop;
    for (size_t i = 0; i < o->arc_count; i++)
        o->arcs[i].right = o->arcs[i].closes;
    for (int round = 0; round < ROUNDS && moved; round++) {
        moved = false;
        for (size_t i = 0; i < o->arc_count; i++) {
            page_layout_arc *arc = &o->arcs[i];
            if (must_be_right(arc) || conflicts(o, i, !arc->right) >= conflicts(o, i, arc->right))
                continue;
            arc->right = !arc->right;
            moved = true;
        }
    }
}

static bool lane_is_free(const page_layout_order *o, size_t i, int lane)
{
    for (size_t k = 0; k < i; k++)
        if (!o->arcs[k].right && o->arcs[k].lane == lane && overlap(&o->arcs[i], &o->arcs[k]))
            return false;
    return true;
}

/* The longest outermost: arcs are sorted by where they begin, then the longer first. */
static void left_lanes(page_layout_order *o)
{
    for (size_t i = 0; i < o->arc_count; i++) {
        page_layout_arc *arc = &o->arcs[i];
        if (arc->right)
            continue;
        arc->lane = 0;
        while (!lane_is_free(o, i, arc->lane))
            arc->lane++;
    }
}

/* An arc stands outside of all shorter ones that it passes. */
static void right_lanes(page_layout_order *o)
{
    for (int length = 1; length < (int)o->count; length++)
        for (size_t i = 0; i < o->arc_count; i++) {
            page_layout_arc *arc = &o->arcs[i];
            if (!arc->right || arc->to - arc->from != length)
                continue;
            arc->lane = 0;
            for (size_t k = 0; k < o->arc_count; k++) {
                const page_layout_arc *other = &o->arcs[k];
                int shorter = other->to - other->from;
                bool before = shorter < length || (shorter == length && k < i);
                if (k != i && other->right && before && overlap(arc, other) && other->lane >= arc->lane)
                    arc->lane = other->lane + 1;
            }
            if (arc->lane >= o->right_lanes)
                o->right_lanes = arc->lane + 1;
        }
}

/* Right of every arc that passes it. */
static void joint_lanes(page_layout_order *o)
{
    for (size_t p = 0; p < o->count; p++)
        o->lane[p] = 0;
    for (size_t i = 0; i < o->arc_count; i++)
        for (int p = o->arcs[i].from + 1; !o->arcs[i].right && p < o->arcs[i].to; p++)
            if (o->lane[p] <= o->arcs[i].lane)
                o->lane[p] = o->arcs[i].lane + 1;
    for (size_t p = 0; p < o->count; p++)
        if (o->lane[p] >= o->left_lanes)
            o->left_lanes = o->lane[p] + 1;
    for (size_t i = 0; i < o->arc_count; i++)
        if (!o->arcs[i].right && o->arcs[i].lane >= o->left_lanes)
            o->left_lanes = o->arcs[i].lane + 1;
}

static int by_beginning(const void *a, const void *b)
{
    const page_layout_arc *x = a, *y = b;
    if (x->from != y->from)
        return x->from < y->from ? -1 : 1;
    if (x->to != y->to)
        return x->to > y->to ? -1 : 1;
    return x->line < y->line ? -1 : x->line > y->line;
}

void page_layout_lanes(page_layout_order *o)
{
    bool loop = false;
    o->left_lanes = 1;
    o->right_lanes = 0;
    o->crossings = 0;
    if (o->arc_count > 0)
        qsort(o->arcs, o->arc_count, sizeof *o->arcs, by_beginning);
    for (size_t i = 0; i < o->arc_count; i++)
        loop = loop || o->arcs[i].closes;
    choose_sides(o, loop);
    left_lanes(o);
    if (loop)
        right_lanes(o);
    joint_lanes(o);
    for (size_t i = 0; loop && i < o->arc_count; i++)
        o->crossings += conflicts(o, i, o->arcs[i].right);
    o->crossings /= 2;
}
