/* SPDX-License-Identifier: MIT */
/* Which lines are shut, and which are fed from one end only. A line is a bridge when cutting it parts the network; a
 * bridge with no boiler beyond it is fed from this side only, and if no open vessel lies beyond it either, it is a dead
 * leg. Found by one depth-first walk (Tarjan 1974, bridges by low links), without recursion: plants may have a hundred
 * thousand nodes. */
#include "steady/assembly.h"

#include <math.h>
#include <string.h>

typedef struct {
    fv_solver *s;
    const fv_network *net;
    int *seen, *low, *parent_line, *next, *boilers, *consumers, *stack, *part;
    int clock, depth, root;
} walk;

static int lit_boilers(const fv_solver *s, const steady_net_boilers *b)
{
    int lit = 0;
    for (int k = 0; k < b->count; k++) {
        const int boiler = s->net->boiler_order[b->first + k];
        lit += s->given.fire[boiler] > 0 || s->given.stored[boiler].rate > 0;
    }
    return lit;
}

static void count_ends(walk *w)
{
    const fv_network *net = w->net;
    for (size_t i = 0; i < net->boiler_group_count; i++)
        w->boilers[net->plant_node[net->boilers[i].node]] += lit_boilers(w->s, &net->boilers[i]);
    for (size_t i = 0; i < net->vessel_count; i++)
        w->consumers[net->plant_node[net->vessels[i].node]] += w->s->given.chambers[i].kind != FV_CHAMBER_SHUT;
}

static void visit(walk *w, int node, int through)
{
    w->seen[node] = w->low[node] = ++w->clock;
    w->parent_line[node] = through;
    w->part[node] = w->root;
    w->next[node] = w->net->touch_start[node];
    w->stack[w->depth++] = node;
}

int steady_other_end(const fv_network *net, int line, int node)
{
    const int a = net->plant_node[net->lines[line].node_from], b = net->plant_node[net->lines[line].node_to];
    return a == node ? b : a;
}

/* Walks one connected part from its root; leaves in boilers[] and consumers[] the sums over each subtree. */
static void walk_part(walk *w, int root)
{
    w->root = root;
    visit(w, root, -1);
    while (w->depth > 0) {
        const int node = w->stack[w->depth - 1];
        if (w->next[node] < w->net->touch_start[node + 1]) {
            const int line = w->net->touch_line[w->next[node]++];
            if (w->s->layout.form[line] == FORM_SHUT || line == w->parent_line[node])
                continue;
            const int beyond = steady_other_end(w->net, line, node);
            if (!w->seen[beyond])
                visit(w, beyond, line);
            else if (w->seen[beyond] < w->low[node])
                w->low[node] = w->seen[beyond];
            continue;
        }
        w->depth--;
        if (w->depth > 0) {
            const int above = w->stack[w->depth - 1];
            if (w->low[node] < w->low[above])
                w->low[above] = w->low[node];
            w->boilers[above] += w->boilers[node];
            w->consumers[above] += w->consumers[node];
        }
    }
}

static steady_line_form form_of(const walk *w, int line, int root)
{
    const fv_network *net = w->net;
    const int a = net->plant_node[net->lines[line].node_from], b = net->plant_node[net->lines[line].node_to];
    const int below = w->parent_line[a] == line ? a : w->parent_line[b] == line ? b : -1;
    if (w->boilers[root] == 0)
        return FORM_SHUT; /* no fire on this part: nothing moves */
    if (below < 0 || w->low[below] < w->seen[below])
        return FORM_THROUGH; /* on a loop */
    const int boilers_below = w->boilers[below], boilers_above = w->boilers[root] - boilers_below;
    const int consumers_below = w->consumers[below], consumers_above = w->consumers[root] - consumers_below;
    if (boilers_below > 0 && boilers_above > 0)
        return FORM_THROUGH; /* between boilers */
    const bool down = boilers_below == 0;
    w->s->layout.fed_from[line] = down == (below == b);
    return (down ? consumers_below : consumers_above) > 0 ? FORM_ONE_WAY : FORM_DEAD_LEG;
}

/* Lines fed from one end, upstream first: breadth first from all nodes that no such line leads to. */
static void order_one_way(fv_solver *s)
{
    const fv_network *net = s->net;
    const int n = (int)net->plant->node_count;
    int *fed_by = s->work.scratch, *queue = s->work.scratch + n, count = 0;
    for (int i = 0; i < n; i++)
        fed_by[i] = -1;
    for (int i = 0; i < (int)net->line_count; i++)
        if (s->layout.form[i] == FORM_ONE_WAY || s->layout.form[i] == FORM_DEAD_LEG)
            fed_by[net->plant_node[s->layout.fed_from[i] ? net->lines[i].node_to : net->lines[i].node_from]] = i;
    for (int i = 0; i < n; i++)
        if (fed_by[i] < 0)
            queue[count++] = i;
    s->layout.one_way_count = 0;
    for (int head = 0; head < count; head++)
        for (int j = net->touch_start[queue[head]]; j < net->touch_start[queue[head] + 1]; j++) {
            const int line = net->touch_line[j], beyond = steady_other_end(net, line, queue[head]);
            if (fed_by[beyond] != line)
                continue;
            s->layout.one_way[s->layout.one_way_count++] = line;
            queue[count++] = beyond;
        }
}

/* A node whose lines are all shut and that feeds no coil has nothing to hold its pressure, but a lit boiler there. */
static void pin_idle_nodes(walk *w)
{
    fv_solver *s = w->s;
    const fv_network *net = w->net;
    for (int i = 0; i < net->node_count; i++) {
        const int node = net->plant_node[i];
        bool idle = i == node;
        for (int j = net->touch_start[node]; idle && j < net->touch_start[node + 1]; j++)
            idle = s->layout.form[net->touch_line[j]] == FORM_SHUT;
        s->layout.node_pinned[i] = idle ? 1 : 0;
    }
    for (size_t i = 0; i < net->vessel_count; i++)
        if (s->given.chambers[i].kind != FV_CHAMBER_SHUT)
            s->layout.node_pinned[net->vessels[i].node] = 0;
    for (size_t i = 0; i < net->boiler_group_count; i++)
        if (lit_boilers(s, &net->boilers[i]) > 0)
            s->layout.node_pinned[net->boilers[i].node] = 0;
}

/* Of the lit boilers of a part those with the highest control pressure, the first of them. */
static void find_leaders(fv_solver *s)
{
    const fv_network *net = s->net;
    for (size_t i = 0; i < net->boiler_group_count; i++) {
        const steady_net_boilers *a = &net->boilers[i];
        bool leads = lit_boilers(s, a) > 0;
        for (size_t j = 0; j < net->boiler_group_count && leads; j++) {
            const steady_net_boilers *b = &net->boilers[j];
            const bool together = s->layout.part[net->plant_node[a->node]] == s->layout.part[net->plant_node[b->node]];
            if (j != i && together && lit_boilers(s, b) > 0)
                leads = a->holds > b->holds || (a->holds == b->holds && i < j);
        }
        s->layout.leads[i] = leads;
    }
}

/* Coils that no fire feeds take nothing: shut, they leave no equation of rounding to solve. */
static void shut_unfed(walk *w)
{
    const fv_network *net = w->net;
    for (size_t i = 0; i < net->vessel_count; i++)
        if (w->boilers[w->part[net->plant_node[net->vessels[i].node]]] == 0)
            w->s->given.chambers[i].kind = FV_CHAMBER_SHUT;
}

void steady_choose_forms(fv_solver *s)
{
    const fv_network *net = s->net;
    const size_t n = net->plant->node_count;
    memset(s->work.scratch, 0, 8 * n * sizeof(int));
    walk w = {.s = s,
              .net = net,
              .seen = s->work.scratch,
              .low = s->work.scratch + n,
              .parent_line = s->work.scratch + 2 * n,
              .next = s->work.scratch + 3 * n,
              .boilers = s->work.scratch + 4 * n,
              .consumers = s->work.scratch + 5 * n,
              .stack = s->work.scratch + 6 * n,
              .part = s->layout.part};
    for (size_t i = 0; i < net->line_count; i++)
        s->layout.form[i] = isinf(s->given.line_k[i]) ? FORM_SHUT : FORM_THROUGH;
    count_ends(&w);
    for (int i = 0; i < (int)n; i++)
        if (!w.seen[i])
            walk_part(&w, i);
    for (size_t i = 0; i < net->line_count; i++)
        if (s->layout.form[i] != FORM_SHUT)
            s->layout.form[i] = form_of(&w, (int)i, s->layout.part[net->plant_node[net->lines[i].node_from]]);
    shut_unfed(&w);
    order_one_way(s);
    pin_idle_nodes(&w);
    find_leaders(s);
}
