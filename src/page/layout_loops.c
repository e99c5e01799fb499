/* SPDX-License-Identifier: MIT */
/* Plants with loops are laid out by Graphviz's dot; this is the only file that knows it. Lines run with the steam, so
 * that boilers come first; every line is a small node of its own between its joints, which keeps room for its words.
 * No text is handed over: sizes are ours, and no font of the machine can change the drawing. Graphviz 2.42 keeps about
 * a kilobyte of each layout and has no way to give it back. */
#include "page/layout.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <graphviz/gvc.h>

typedef struct {
    const fv_plant *plant;
    const fv_steady_result *state;
    Agraph_t *graph;
    Agnode_t **joints, **lines, **vessels, **boilers;
    Agedge_t **edges; /* two for each line, in the direction of the steam; then one for each vessel and boiler */
} picture;

/* A warning of Graphviz is no concern of the reader. */
static int keep_silent(char *text)
{
    (void)text;
    return 0;
}

static Agnode_t *add_node(picture *p, char sort, size_t number, double width, double height)
{
    char name[32], size[32];
    snprintf(name, sizeof name, "%c%zu", sort, number);
    Agnode_t *node = agnode(p->graph, name, 1);
    if (!node)
        return NULL;
    snprintf(size, sizeof size, "%.4f", width / POINTS_PER_INCH);
    agsafeset(node, "width", size, "");
    snprintf(size, sizeof size, "%.4f", height / POINTS_PER_INCH);
    agsafeset(node, "height", size, "");
    return node;
}

static bool runs_backwards(const picture *p, size_t line)
{
    return p->state->lines[line].flow_from < 0.0;
}

static bool connect(picture *p, size_t edge, Agnode_t *from, Agnode_t *to)
{
    p->edges[edge] = from && to ? agedge(p->graph, from, to, NULL, 1) : NULL;
    return p->edges[edge] != NULL;
}

static bool fill(picture *p)
{
    const fv_plant *plant = p->plant;
    bool good = true;
    for (size_t i = 0; i < plant->boiler_count; i++)
        p->boilers[i] = add_node(p, 'b', i, LAYOUT_BOILER_WIDTH, LAYOUT_BOILER_HEIGHT);
    for (size_t i = 0; i < plant->node_count; i++)
        p->joints[i] = add_node(p, 'j', i, 12.0, 12.0);
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        bool back = runs_backwards(p, i);
        p->lines[i] = add_node(p, 'l', i, LAYOUT_TAG_WIDTH, LAYOUT_TAG_HEIGHT);
        good = good && connect(p, 2 * i, p->joints[back ? line->node_to : line->node_from], p->lines[i]) &&
               connect(p, 2 * i + 1, p->lines[i], p->joints[back ? line->node_from : line->node_to]);
    }
    for (size_t i = 0; i < plant->vessel_count; i++) {
        p->vessels[i] = add_node(p, 'v', i, LAYOUT_VESSEL_WIDTH, LAYOUT_VESSEL_HEIGHT);
        good = good && connect(p, 2 * plant->line_count + i, p->joints[plant->vessels[i]->node], p->vessels[i]);
    }
    for (size_t i = 0; i < plant->boiler_count; i++)
        good = good && connect(p, 2 * plant->line_count + plant->vessel_count + i, p->boilers[i],
                               p->joints[plant->boilers[i]->node]);
    return good;
}

/* ---- what Graphviz found ---- */

/* Its y runs upwards. */
static page_svg_point flip(const picture *p, pointf at)
{
    return (page_svg_point){at.x + LAYOUT_MARGIN, GD_bb(p->graph).UR.y - at.y + 8.0};
}

static page_svg_point centre(const picture *p, Agnode_t *node)
{
    return flip(p, ND_coord(node));
}

static void take_edge(const picture *p, page_layout *l, size_t edge, int line, int node, bool backwards)
{
    const splines *curve = p->edges[edge] ? ED_spl(p->edges[edge]) : NULL;
    if (!curve || curve->size < 1) {
        l->failed = true;
        return;
    }
    const bezier *piece = &curve->list[0];
    size_t count = (size_t)piece->size;
    page_layout_wire *wire = page_layout_add_wire(l, line, node, count);
    if (!wire)
        return;
    for (size_t i = 0; i < count; i++)
        wire->points[i] = flip(p, piece->list[i]);
    wire->curved = true;
    wire->backwards = backwards;
}

static void take(const picture *p, page_layout *l)
{
    const fv_plant *plant = p->plant;
    for (size_t i = 0; i < plant->line_count; i++) {
        bool back = runs_backwards(p, i);
        take_edge(p, l, 2 * i, (int)i, -1, back);
        take_edge(p, l, 2 * i + 1, (int)i, -1, back);
        if (!l->failed) {
            page_layout_wire *wire = &l->wires[l->wire_count - 1];
            wire->how = LAYOUT_WORDS_TAG;
            wire->words = centre(p, p->lines[i]);
        }
    }
    for (size_t i = 0; i < plant->vessel_count; i++)
        take_edge(p, l, 2 * plant->line_count + i, -1, plant->vessels[i]->node, false);
    for (size_t i = 0; i < plant->boiler_count; i++)
        take_edge(p, l, 2 * plant->line_count + plant->vessel_count + i, -1, plant->boilers[i]->node, false);
    for (size_t i = 0; i < plant->node_count; i++)
        page_layout_add_place(l, LAYOUT_JOINT, (int)i, centre(p, p->joints[i]));
    for (size_t i = 0; i < plant->vessel_count; i++) {
        page_svg_point at = centre(p, p->vessels[i]);
        page_layout_add_place(l, LAYOUT_VESSEL, (int)i, (page_svg_point){at.x - 0.5 * LAYOUT_VESSEL_WIDTH, at.y});
    }
    for (size_t i = 0; i < plant->boiler_count; i++) {
        page_svg_point at = centre(p, p->boilers[i]);
        page_layout_add_place(l, LAYOUT_BOILER, (int)i,
                              (page_svg_point){at.x - 0.5 * LAYOUT_BOILER_WIDTH + 22.0, at.y});
    }
    l->width = GD_bb(p->graph).UR.x + 2.0 * LAYOUT_MARGIN;
    l->height = GD_bb(p->graph).UR.y + 16.0;
}

/* Lays the plant out in one direction, "TB" or "LR". */
static bool lay(picture *p, GVC_t *context, char *direction, page_layout *l)
{
    p->graph = agopen("plant", Agdirected, NULL);
    if (!p->graph)
        return false;
    agsafeset(p->graph, "rankdir", direction, "");
    agsafeset(p->graph, "ranksep", "0.22", "");
    agsafeset(p->graph, "nodesep", "0.16", "");
    agattr(p->graph, AGNODE, "shape", "box");
    agattr(p->graph, AGNODE, "fixedsize", "true");
    agattr(p->graph, AGNODE, "label", "");
    agattr(p->graph, AGEDGE, "arrowhead", "none");
    bool good = fill(p) && gvLayout(context, p->graph, "dot") == 0;
    if (good) {
        take(p, l);
        gvFreeLayout(context, p->graph);
    }
    agclose(p->graph);
    return good && !l->failed;
}

static bool lay_both(picture *p, page_layout *l)
{
    page_layout across = {0};
    GVC_t *context = gvContext();
    if (!context)
        return false;
    bool down_good = lay(p, context, "TB", l), across_good = lay(p, context, "LR", &across);
    gvFreeContext(context);
    if (across_good && (!down_good || across.width < l->width)) { /* the narrower fits a phone better */
        page_layout other = *l;
        *l = across;
        across = other;
    }
    page_layout_free(&across);
    return down_good || across_good;
}

bool page_layout_loops(const fv_plant *plant, const fv_steady_result *state, page_layout *l)
{
    picture p = {.plant = plant, .state = state};
    size_t edges = 2 * plant->line_count + plant->vessel_count + plant->boiler_count;
    fv_arena *arena = fv_arena_new();
    *l = (page_layout){0};
    if (arena) {
        p.joints = fv_arena_alloc(arena, plant->node_count + 1, sizeof(Agnode_t *));
        p.lines = fv_arena_alloc(arena, plant->line_count + 1, sizeof(Agnode_t *));
        p.vessels = fv_arena_alloc(arena, plant->vessel_count + 1, sizeof(Agnode_t *));
        p.boilers = fv_arena_alloc(arena, plant->boiler_count + 1, sizeof(Agnode_t *));
        p.edges = fv_arena_alloc(arena, edges + 1, sizeof(Agedge_t *));
    }
    agseterr(AGMAX);
    agseterrf(keep_silent);
    bool good = arena && p.joints && p.lines && p.vessels && p.boilers && p.edges && lay_both(&p, l);
    fv_arena_free(arena);
    if (!good)
        page_layout_free(l);
    return good;
}
