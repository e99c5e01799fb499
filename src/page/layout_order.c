/* SPDX-License-Identifier: MIT */
/* Joints in depth-first order from each boiler: light branches first, so that the heaviest goes straight on. Where the
 * plant has loops, many orders of the branches are tried, the same each time, and the one whose lines cross least, then
 * whose lines are shortest, is kept. In a depth-first order each line that closes a loop leads back to a joint on the
 * way. */
#include "page/layout_order.h"

#include <stdlib.h>
#include <string.h>

/* Vessels and boilers that stand at a node. */
static size_t parts_at(const fv_plant *plant, int node)
{
    size_t parts = 0;
    for (size_t i = 0; i < plant->vessel_count; i++)
        parts += plant->vessels[i]->node == node;
    for (size_t i = 0; i < plant->boiler_count; i++)
        parts += plant->boilers[i]->node == node;
    return parts;
}

static int other_end(const page_layout_order *o, int line, int node)
{
    const fv_line *l = o->plant->lines[line];
    return l->node_from == node ? l->node_to : l->node_from;
}

static int degree(const page_layout_order *o, int node)
{
    return o->first[node + 1] - o->first[node];
}

static void list_ends(page_layout_order *o)
{
    const fv_plant *plant = o->plant;
    size_t nodes = plant->node_count;
    for (size_t i = 0; i < plant->line_count; i++) {
        o->first[plant->lines[i]->node_from + 1]++;
        o->first[plant->lines[i]->node_to + 1]++;
    }
    for (size_t n = 0; n < nodes; n++)
        o->first[n + 1] += o->first[n];
    for (size_t i = 0; i < plant->line_count; i++) { /* `place` counts for now */
        int from = plant->lines[i]->node_from, to = plant->lines[i]->node_to;
        o->ends[o->first[from] + o->place[from]++] = (int)i;
        o->ends[o->first[to] + o->place[to]++] = (int)i;
    }
}

/* ---- where drawings begin ---- */

static void mark_reached(const page_layout_order *o, int root, bool *reached, int *queue)
{
    size_t head = 0, tail = 0;
    queue[tail++] = root;
    reached[root] = true;
    while (head < tail) {
        int node = queue[head++];
        for (int e = o->first[node]; e < o->first[node + 1]; e++) {
            int far = other_end(o, o->ends[e], node);
            if (!reached[far])
                queue[tail++] = far;
            reached[far] = true;
        }
    }
}

/* The largest boiler of each connected part; a part without any begins at its first node. */
static void find_roots(page_layout_order *o, bool *reached, int *queue, int *roots, size_t *root_count)
{
    const fv_plant *plant = o->plant;
    for (size_t n = 0; n < plant->node_count; n++)
        o->root[n] = -1;
    for (;;) {
        int largest = -1;
        for (size_t i = 0; i < plant->boiler_count; i++)
            if (!reached[plant->boilers[i]->node] &&
                (largest < 0 || plant->boilers[i]->output.v > plant->boilers[largest]->output.v))
                largest = (int)i;
        if (largest < 0)
            break;
        roots[(*root_count)++] = plant->boilers[largest]->node;
        o->root[plant->boilers[largest]->node] = largest;
        mark_reached(o, plant->boilers[largest]->node, reached, queue);
    }
    for (size_t n = 0; n < plant->node_count; n++)
        if (!reached[n]) {
            roots[(*root_count)++] = (int)n;
            mark_reached(o, (int)n, reached, queue);
        }
}

static void find_hanging(page_layout_order *o, const int *roots, size_t root_count)
{
    for (size_t i = 0; i < o->plant->line_count; i++) {
        const int ends[] = {o->plant->lines[i]->node_from, o->plant->lines[i]->node_to};
        for (int k = 0; k < 2 && !o->hangs[i]; k++) {
            bool is_root = false;
            for (size_t r = 0; r < root_count; r++)
                is_root = is_root || roots[r] == ends[k];
            o->hangs[i] = !is_root && degree(o, ends[k]) == 1 && parts_at(o->plant, ends[k]) <= 1;
        }
        o->hangs[i] = o->hangs[i] || ends[0] == ends[1];
    }
}

/* ---- depth first ---- */

static void add_arc(page_layout_order *o, int line, int a, int b, bool closes)
{
    o->arcs[o->arc_count++] =
        (page_layout_arc){.line = line, .from = a < b ? a : b, .to = a < b ? b : a, .closes = closes};
}

static void visit(page_layout_order *o, int node, int *next)
{
    next[node] = o->first[node];
    o->place[node] = (int)o->count;
    o->spine[o->count] = -1;
    o->order[o->count++] = node;
}

/* `stack`, `next` and `used` are room of the caller's. */
static void walk(page_layout_order *o, int root, int *stack, int *next, bool *used)
{
    size_t depth = 0;
    stack[depth++] = root;
    visit(o, root, next);
    while (depth > 0) {
        int node = stack[depth - 1];
        if (next[node] == o->first[node + 1]) {
            depth--;
            continue;
        }
        int line = o->ends[next[node]++], far = other_end(o, line, node);
        if (used[line] || o->hangs[line])
            continue;
        used[line] = true;
        if (o->place[far] >= 0) {
            add_arc(o, line, o->place[node], o->place[far], true);
            continue;
        }
        visit(o, far, next);
        stack[depth++] = far;
        if (o->place[far] == o->place[node] + 1)
            o->spine[o->place[node]] = line;
        else
            add_arc(o, line, o->place[node], o->place[far], false);
    }
}

typedef struct {
    const int *roots;
    size_t root_count;
    int *stack, *next;
    bool *used;
} walker;

static void walk_all(page_layout_order *o, const walker *w)
{
    memset(w->used, 0, o->plant->line_count * sizeof *w->used);
    for (size_t n = 0; n < o->plant->node_count; n++)
        o->place[n] = -1;
    o->count = o->arc_count = 0;
    for (size_t r = 0; r < w->root_count; r++)
        walk(o, w->roots[r], w->stack, w->next, w->used);
    page_layout_lanes(o);
}

/* ---- which branch first ---- */

typedef struct {
    int line, weight;
    size_t at;
} branch;

static int by_weight(const void *a, const void *b)
{
    const branch *x = a, *y = b;
    if (x->weight != y->weight)
        return x->weight < y->weight ? -1 : 1;
    return x->at < y->at ? -1 : x->at > y->at;
}

/* Ends behind each joint in the order just walked, then the lines at each joint by how many ends they lead to. */
static void light_first(page_layout_order *o, int *weight, int *parent, branch *branches)
{
    for (size_t n = 0; n < o->plant->node_count; n++) {
        weight[n] = 1;
        parent[n] = -1;
    }
    for (size_t p = 0; p + 1 < o->count; p++)
        if (o->spine[p] >= 0)
            parent[o->order[p + 1]] = o->order[p];
    for (size_t a = 0; a < o->arc_count; a++)
        if (!o->arcs[a].closes)
            parent[o->order[o->arcs[a].to]] = o->order[o->arcs[a].from];
    for (size_t p = o->count; p-- > 0;) {
        int node = o->order[p];
        weight[node] += degree(o, node);
        if (parent[node] >= 0)
            weight[parent[node]] += weight[node];
    }
    for (size_t n = 0; n < o->plant->node_count; n++) {
        const size_t count = (size_t)(o->first[n + 1] - o->first[n]);
        for (size_t e = 0; e < count; e++) {
            const int line = o->ends[o->first[n] + (int)e];
            branches[e] = (branch){line, weight[other_end(o, line, (int)n)], e};
        }
        if (count > 1)
            qsort(branches, count, sizeof *branches, by_weight);
        for (size_t e = 0; e < count; e++)
            o->ends[o->first[n] + (int)e] = branches[e].line;
    }
}

static double cost(const page_layout_order *o)
{
    static const double crossing = 1e6, lane = 100.0;
    double sum = crossing * (double)o->crossings + lane * (o->left_lanes + o->right_lanes);
    for (size_t a = 0; a < o->arc_count; a++)
        sum += (o->arcs[a].closes ? 1.0 : 3.0) * (o->arcs[a].to - o->arcs[a].from);
    return sum;
}

static void shuffle(page_layout_order *o, unsigned *seed)
{
    for (size_t n = 0; n < o->plant->node_count; n++)
        for (int e = o->first[n + 1] - 1; e > o->first[n]; e--) {
            *seed = *seed * 1664525u + 1013904223u; /* Numerical Recipes' generator; any would do */
            int k = o->first[n] + (int)((*seed >> 8) % (unsigned)(e - o->first[n] + 1)), line = o->ends[e];
            o->ends[e] = o->ends[k];
            o->ends[k] = line;
        }
}

static void search(page_layout_order *o, const walker *w, int *best_ends)
{
    enum { TRIES = 400, WORK = 4000000 };
    size_t lines = o->plant->line_count, each = lines + o->arc_count * o->arc_count;
    size_t tries = each * TRIES > WORK ? WORK / each : TRIES, bytes = 2 * lines * sizeof *best_ends;
    double best = cost(o);
    unsigned seed = 1;
    memcpy(best_ends, o->ends, bytes);
    for (size_t i = 0; i < tries; i++) {
        shuffle(o, &seed);
        walk_all(o, w);
        if (cost(o) < best) {
            best = cost(o);
            memcpy(best_ends, o->ends, bytes);
        }
    }
    memcpy(o->ends, best_ends, bytes);
    walk_all(o, w);
}

static bool has_loops(const page_layout_order *o)
{
    for (size_t a = 0; a < o->arc_count; a++)
        if (o->arcs[a].closes)
            return true;
    return false;
}

bool page_layout_order_make(const fv_plant *plant, fv_arena *arena, page_layout_order *o)
{
    size_t nodes = plant->node_count + 2, lines = plant->line_count + 1;
    *o = (page_layout_order){.plant = plant, .arena = arena};
    int **const by_node[] = {&o->first, &o->root, &o->order, &o->place, &o->spine, &o->lane};
    for (size_t i = 0; i < sizeof by_node / sizeof *by_node; i++)
        *by_node[i] = fv_arena_alloc(arena, nodes, sizeof(int));
    o->ends = fv_arena_alloc(arena, 2 * lines, sizeof *o->ends);
    o->hangs = fv_arena_alloc(arena, lines, sizeof *o->hangs);
    o->arcs = fv_arena_alloc(arena, lines, sizeof *o->arcs);
    int *roots = fv_arena_alloc(arena, nodes, sizeof(int)), *ends = fv_arena_alloc(arena, 2 * lines, sizeof(int));
    walker w = {.roots = roots,
                .stack = fv_arena_alloc(arena, nodes, sizeof(int)),
                .next = fv_arena_alloc(arena, nodes, sizeof(int)),
                .used = fv_arena_alloc(arena, nodes + lines, sizeof(bool))};
    branch *branches = fv_arena_alloc(arena, 2 * lines, sizeof *branches);
    if (!branches || !o->first || !o->root || !o->order || !o->place || !o->spine || !o->lane || !o->ends ||
        !o->hangs || !o->arcs || !roots || !ends || !w.stack || !w.next || !w.used)
        return false;
    list_ends(o);
    find_roots(o, w.used, w.stack, roots, &w.root_count);
    find_hanging(o, roots, w.root_count);
    walk_all(o, &w);
    light_first(o, w.stack, w.next, branches);
    walk_all(o, &w);
    if (has_loops(o))
        search(o, &w, ends);
    return true;
}
