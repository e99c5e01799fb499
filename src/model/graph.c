/* SPDX-License-Identifier: MIT */
/* What hangs together: every part must be reached from a boiler, no line may lead nowhere, rises must close around a
 * loop, and the legs of a tee must meet. */
#include "model/link.h"
#include "model/near.h"

#include <stdlib.h>

#define LEVEL_SLACK 0.001 /* m: what rises around a loop may be off, a tape measure's millimetre */

typedef struct {
    int *root;      /* union-find over joints */
    double *height; /* of a joint above its root's, while trees grow */
    int *ends;      /* line ends at a joint */
    bool *used;     /* by a boiler, vessel or drip leg */
    bool *fed;      /* at a root: a boiler is in it */
    bool *feeds;    /* at a root: a vessel is in it */
    bool *tee;      /* a tee is declared here */
} graph;

static int root_of(graph *g, int node, double *height)
{
    int at = node;
    double sum = 0.0;
    while (g->root[at] != at) {
        sum += g->height[at];
        at = g->root[at];
    }
    *height = sum;
    double rest = sum;
    while (g->root[node] != node) { /* shorten the path for the next search */
        int up = g->root[node];
        double own = g->height[node];
        g->root[node] = at;
        g->height[node] = rest;
        rest -= own;
        node = up;
    }
    return at;
}

static int root(graph *g, int node)
{
    double height;
    return root_of(g, node, &height);
}

static void join(const model_link *link, graph *g, const fv_line *line)
{
    if (line->node_from < 0 || line->node_to < 0)
        return;
    g->ends[line->node_from]++;
    g->ends[line->node_to]++;
    double from, to;
    int a = root_of(g, line->node_from, &from), b = root_of(g, line->node_to, &to);
    double rise = fv_or(line->rise, 0.0);
    if (a != b) {
        g->root[b] = a;
        g->height[b] = from + rise - to;
        return;
    }
    double left = from + rise - to;
    char who[MODEL_SAY], x[MODEL_SAY];
    if (fabs(left) > LEVEL_SLACK && line->node_from != line->node_to)
        fv_error(link->faults, FV_ERR_INPUT, line->part.loc,
                 "%s closes a loop, but the rises around it leave %s over; they must add up to nothing",
                 model_name_of(model_line_element(line->kind), line, who, sizeof who),
                 model_quantity(FV_DIM_LENGTH, left, x, sizeof x));
}

static void mark(const fv_plant *plant, graph *g)
{
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (plant->boilers[i]->node >= 0) {
            g->used[plant->boilers[i]->node] = true;
            g->fed[root(g, plant->boilers[i]->node)] = true;
        }
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (plant->vessels[i]->node >= 0) {
            g->used[plant->vessels[i]->node] = true;
            g->feeds[root(g, plant->vessels[i]->node)] = true;
        }
    for (size_t i = 0; i < plant->drip_count; i++)
        if (plant->drips[i]->node >= 0)
            g->used[plant->drips[i]->node] = true;
}

/* The name of a joint that lines end at and that looks like this one. */
static const char *near_joint(const model_link *link, const graph *g, int node, char *buffer, size_t size)
{
    model_near near = model_near_start(link->plant->nodes[node]);
    for (size_t i = 0; i < link->plant->node_count && model_may_hint(link); i++)
        if ((int)i != node && g->ends[i] > 0)
            model_near_try(&near, link->plant->nodes[i]);
    return model_near_hint(&near, buffer, size);
}

static void check_reached(const model_link *link, graph *g)
{
    const fv_plant *plant = link->plant;
    char who[MODEL_SAY], hint[MODEL_SAY];
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_vessel *vessel = plant->vessels[i];
        if (vessel->node < 0 || g->fed[root(g, vessel->node)])
            continue;
        model_name_of(model_element(EL_VESSEL), vessel, who, sizeof who);
        if (g->ends[vessel->node] == 0)
            fv_error(link->faults, FV_ERR_INPUT, vessel->part.loc, "%s: no line ends at its joint '%s'%s", who,
                     vessel->at, near_joint(link, g, vessel->node, hint, sizeof hint));
        else
            fv_error(link->faults, FV_ERR_INPUT, vessel->part.loc, "%s: no way leads from a boiler to its joint '%s'",
                     who, vessel->at);
    }
    for (size_t i = 0; i < plant->boiler_count; i++) {
        const fv_boiler *boiler = plant->boilers[i];
        if (boiler->node >= 0 && !g->feeds[root(g, boiler->node)])
            fv_error(link->faults, FV_ERR_INPUT, boiler->part.loc, "%s: no way leads from its joint '%s' to a vessel%s",
                     model_name_of(model_element(EL_BOILER), boiler, who, sizeof who), boiler->at,
                     g->ends[boiler->node] ? "" : near_joint(link, g, boiler->node, hint, sizeof hint));
    }
}

static void say_dead_end(const model_link *link, const graph *g, const fv_line *line, int node)
{
    char who[MODEL_SAY], hint[MODEL_SAY];
    fv_error(
        link->faults, FV_ERR_INPUT, line->part.loc,
        "%s leads nowhere: nothing else is at joint '%s'; put a vessel or a drip leg there, or take the line away%s",
        model_name_of(model_line_element(line->kind), line, who, sizeof who), link->plant->nodes[node],
        near_joint(link, g, node, hint, sizeof hint));
}

static void check_dead_ends(const model_link *link, graph *g)
{
    const fv_plant *plant = link->plant;
    char who[MODEL_SAY];
    for (size_t i = 0; i < plant->line_count && !model_is_enough(link); i++) {
        const fv_line *line = plant->lines[i];
        if (line->node_from < 0 || line->node_to < 0 || line->node_from == line->node_to)
            continue;
        int at = root(g, line->node_from);
        bool from = g->ends[line->node_from] == 1 && !g->used[line->node_from];
        bool to = g->ends[line->node_to] == 1 && !g->used[line->node_to];
        if (from || to)
            say_dead_end(link, g, line, to ? line->node_to : line->node_from);
        else if (!g->fed[at] && !g->feeds[at])
            fv_error(link->faults, FV_ERR_INPUT, line->part.loc, "%s: no boiler and no vessel is connected with it",
                     model_name_of(model_line_element(line->kind), line, who, sizeof who));
    }
    for (size_t i = 0; i < plant->drip_count; i++)
        if (plant->drips[i]->node >= 0 && g->ends[plant->drips[i]->node] == 0)
            fv_error(link->faults, FV_ERR_INPUT, plant->drips[i]->part.loc, "drip: no line ends at its joint '%s'",
                     plant->drips[i]->at);
}

static bool touches(const fv_line *line, int node)
{
    return line->node_from == node || line->node_to == node;
}

static void check_tee(const model_link *link, const graph *g, const fv_tee *tee)
{
    static const char *const roles[] = {"main", "run", "branch"};
    const fv_plant *plant = link->plant;
    fv_loc loc = tee->part.loc;
    if (tee->node < 0 || tee->line[0] < 0 || tee->line[1] < 0 || tee->line[2] < 0)
        return;
    for (int i = 0; i < 3; i++)
        if (!touches(plant->lines[tee->line[i]], tee->node)) {
            fv_error(link->faults, FV_ERR_INPUT, loc,
                     "tee at '%s': %s=\"%s\" does not end at that joint, but runs from '%s' "
                     "to '%s'",
                     tee->at, roles[i], plant->lines[tee->line[i]]->part.id, plant->lines[tee->line[i]]->from,
                     plant->lines[tee->line[i]]->to);
            return;
        }
    if (tee->line[0] == tee->line[1] || tee->line[0] == tee->line[2] || tee->line[1] == tee->line[2])
        fv_error(link->faults, FV_ERR_INPUT, loc,
                 "tee at '%s': names a line twice; main, run and branch are three lines", tee->at);
    else if (g->ends[tee->node] != 3 || g->used[tee->node])
        fv_error(link->faults, FV_ERR_INPUT, loc,
                 "tee at '%s': joins %d line ends%s; a tee joins its three lines and nothing else", tee->at,
                 g->ends[tee->node], g->used[tee->node] ? " and a boiler, vessel or drip leg" : "");
}

static void check_tees(const model_link *link, const graph *g)
{
    const fv_plant *plant = link->plant;
    for (size_t i = 0; i < plant->tee_count; i++) {
        const fv_tee *tee = plant->tees[i];
        if (tee->node >= 0 && g->tee[tee->node])
            fv_error(link->faults, FV_ERR_INPUT, tee->part.loc, "tee at '%s': there is a tee already", tee->at);
        else
            check_tee(link, g, tee);
        if (tee->node >= 0)
            g->tee[tee->node] = true;
    }
}

/* A header that is narrow beside its branches shares badly: common practice is 1.4 times the widest. */
static void check_header(const model_link *link, const double *widest, const fv_line *line)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    if (line->kind != FV_LINE_HEADER || line->node_from < 0 || line->node_to < 0)
        return;
    double branch = fmax(widest[line->node_from], widest[line->node_to]);
    if (line->bore.v < 1.4 * branch)
        fv_caution(link->faults, FV_ERR_INPUT, line->part.loc,
                   "header '%s': bore is %s, %s a branch of %s; usual is at least 1.4 times the widest branch",
                   line->part.id ? line->part.id : "?", model_quantity(FV_DIM_LENGTH, line->bore.v, x, sizeof x),
                   line->bore.v < branch ? "narrower than" : "little more than",
                   model_quantity(FV_DIM_LENGTH, branch, y, sizeof y));
}

static void check_headers(const model_link *link, double *widest)
{
    const fv_plant *plant = link->plant;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line *line = plant->lines[i];
        if (line->kind == FV_LINE_HEADER || line->node_from < 0 || line->node_to < 0)
            continue;
        widest[line->node_from] = fmax(widest[line->node_from], line->bore.v);
        widest[line->node_to] = fmax(widest[line->node_to], line->bore.v);
    }
    for (size_t i = 0; i < plant->line_count; i++)
        check_header(link, widest, plant->lines[i]);
}

bool model_check_graph(model_link *link)
{
    const fv_plant *plant = link->plant;
    size_t n = plant->node_count + 1;
    graph g = {.root = calloc(n, sizeof(int)),
               .height = calloc(n, sizeof(double)),
               .ends = calloc(n, sizeof(int)),
               .used = calloc(n, sizeof(bool)),
               .fed = calloc(n, sizeof(bool)),
               .feeds = calloc(n, sizeof(bool)),
               .tee = calloc(n, sizeof(bool))};
    double *widest = calloc(n, sizeof(double));
    bool good = g.root && g.height && g.ends && g.used && g.fed && g.feeds && g.tee && widest;
    if (good) {
        for (size_t i = 0; i < n; i++)
            g.root[i] = (int)i;
        for (size_t i = 0; i < plant->line_count; i++)
            join(link, &g, plant->lines[i]);
        mark(plant, &g);
        if (plant->boiler_count) /* without any boiler everything is unreached, which is said once */
            check_reached(link, &g);
        check_dead_ends(link, &g);
        check_tees(link, &g);
        check_headers(link, widest);
    }
    free(g.root);
    free(g.height);
    free(g.ends);
    free(g.used);
    free(g.fed);
    free(g.feeds);
    free(g.tee);
    free(widest);
    return good;
}
