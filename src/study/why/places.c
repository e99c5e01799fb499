/* SPDX-License-Identifier: MIT */
#include "study/why/places.h"

#include <math.h>

static const double NOTHING = 1e-6; /* Pa: a smaller drop has no row of its own */

typedef struct {
    const fv_plant *plant;
    const fv_steady_result *state;
    fv_arena *arena;
    fv_why_place *list;
    size_t count, capacity;
    int vessel;
    size_t first; /* place of this vessel */
    int *lines;   /* of the way, from the vessel back */
    bool *passed; /* by line */
    int *towards; /* by node: the line that leads to it from the nearest boiler; -1 */
    bool failed;
} collecting;

static void add(collecting *c, fv_why_place place)
{
    if (c->count == c->capacity) {
        const size_t capacity = c->capacity ? 2 * c->capacity : 32;
        fv_why_place *bigger = fv_arena_alloc(c->arena, capacity, sizeof *bigger);
        c->failed = c->failed || !bigger;
        if (!bigger)
            return;
        for (size_t i = 0; i < c->count; i++)
            bigger[i] = c->list[i];
        c->list = bigger;
        c->capacity = capacity;
    }
    place.vessel = c->vessel;
    place.drop = place.before - place.after;
    c->list[c->count++] = place;
}

/* ---- the way back from a vessel ---- */

static bool gives(const collecting *c, int node)
{
    for (size_t i = 0; i < c->plant->boiler_count; i++)
        if (c->plant->boilers[i]->node == node && c->state->boilers[i].state != FV_BOILER_BLOCKED &&
            c->state->boilers[i].state != FV_BOILER_OFF)
            return true;
    return false;
}

static int other_end(const fv_line *line, int node)
{
    return line->node_from == node ? line->node_to : line->node_from;
}

/* Vapour that comes out of a line into a node it ends at, kg/s. */
static double flow_into(const collecting *c, size_t line, int node)
{
    const fv_line_result *r = &c->state->lines[line];
    return c->plant->lines[line]->node_to == node ? r->flow_to : -r->flow_from;
}

/* Breadth first from the boilers: where nothing flows, the shortest way stands for it. */
static void find_shortest(collecting *c, int *queue)
{
    size_t head = 0, tail = 0;
    const fv_plant *plant = c->plant;
    for (size_t i = 0; i < plant->node_count; i++)
        c->towards[i] = -2;
    for (size_t i = 0; i < plant->node_count; i++)
        if (gives(c, (int)i)) {
            c->towards[i] = -1;
            queue[tail++] = (int)i;
        }
    while (head < tail) {
        const int node = queue[head++];
        for (size_t i = 0; i < plant->line_count; i++) {
            const fv_line *l = plant->lines[i];
            if (l->node_from != node && l->node_to != node)
                continue;
            const int beyond = other_end(l, node);
            if (c->towards[beyond] == -2) {
                c->towards[beyond] = (int)i;
                queue[tail++] = beyond;
            }
        }
    }
}

/* Lines from the vessel back to a boiler: where most steam comes from. */
static size_t follow_back(collecting *c)
{
    const fv_plant *plant = c->plant;
    int node = plant->vessels[c->vessel]->node;
    size_t count = 0;
    for (size_t i = 0; i < plant->line_count; i++)
        c->passed[i] = false;
    while (!gives(c, node)) {
        int best = -1;
        double most = 0;
        for (size_t i = 0; i < plant->line_count; i++) {
            const fv_line *l = plant->lines[i];
            const bool ends = l->node_from == node || l->node_to == node;
            if (ends && !c->passed[i] && flow_into(c, i, node) > most) {
                most = flow_into(c, i, node);
                best = (int)i;
            }
        }
        if (best < 0)
            best = c->towards[node];
        if (best < 0 || c->passed[best])
            break;
        c->passed[best] = true;
        c->lines[count++] = best;
        node = other_end(plant->lines[best], node);
    }
    return count;
}

/* ---- the rows ---- */

static void add_line(collecting *c, int index, int node, double *pressure)
{
    const fv_line *line = c->plant->lines[index];
    const fv_line_result *r = &c->state->lines[index];
    const bool forward = line->node_to == node;
    const double sign = forward ? 1 : -1;
    const double before = forward ? r->pressure_from : r->pressure_to;
    const double after = forward ? r->pressure_to : r->pressure_from;
    const double seal = sign * r->drop_sag;
    if (fabs(*pressure - before) > NOTHING && c->count > c->first)
        add(c, (fv_why_place){.kind = FV_PLACE_JOINT,
                              .part = c->plant->nodes[other_end(line, node)],
                              .before = *pressure,
                              .after = before});
    add(c, (fv_why_place){.kind = FV_PLACE_LINE,
                          .part = line->part.id,
                          .before = before,
                          .after = after + seal,
                          .friction = sign * r->drop_friction,
                          .fittings = sign * r->drop_fittings});
    if (fabs(seal) > NOTHING)
        add(c, (fv_why_place){.kind = FV_PLACE_SAG, .part = line->part.id, .before = after + seal, .after = after});
    *pressure = after;
}

static void add_coil(collecting *c, double inlet)
{
    const fv_vessel_result *v = &c->state->vessels[c->vessel];
    const char *id = c->plant->vessels[c->vessel]->part.id;
    const double start = v->coil_pressure;
    double mean = 0;
    if (v->hole_count == 0)
        return;
    for (size_t i = 0; i < v->hole_count; i++)
        mean += c->state->holes[v->first_hole + i].pressure / (double)v->hole_count;
    const double under_water = mean - v->hole_drop;
    if (fabs(inlet - start) > NOTHING && c->count > c->first)
        add(c, (fv_why_place){.kind = FV_PLACE_JOINT,
                              .part = c->plant->nodes[c->plant->vessels[c->vessel]->node],
                              .before = inlet,
                              .after = start});
    add(c, (fv_why_place){.kind = FV_PLACE_COIL, .part = id, .before = start, .after = mean});
    add(c, (fv_why_place){.kind = FV_PLACE_HOLES, .part = id, .before = mean, .after = under_water});
    if (fabs(under_water - v->chamber_pressure) > NOTHING)
        add(c, (fv_why_place){.kind = FV_PLACE_WATER, .part = id, .before = under_water, .after = v->chamber_pressure});
}

static void add_way(collecting *c)
{
    const fv_plant *plant = c->plant;
    c->first = c->count;
    size_t length = follow_back(c);
    int node = plant->vessels[c->vessel]->node;
    double pressure = NAN;
    /* Where the way begins. */
    for (size_t i = 0; i < length; i++)
        node = other_end(plant->lines[c->lines[i]], node);
    for (size_t i = length; i-- > 0 && !c->failed;) {
        node = other_end(plant->lines[c->lines[i]], node);
        add_line(c, c->lines[i], node, &pressure);
    }
    add_coil(c, pressure);
    if (c->count == c->first)
        return;
    const double whole = c->list[c->first].before - c->list[c->count - 1].after;
    for (size_t i = c->first; i < c->count; i++)
        c->list[i].share = whole > 0 ? c->list[i].drop / whole : NAN;
}

bool study_places_find(const fv_plant *plant, const fv_steady_result *state, const bool *asked, fv_arena *arena,
                       fv_why_place **places, size_t *count)
{
    collecting c = {.plant = plant,
                    .state = state,
                    .arena = arena,
                    .lines = fv_arena_alloc(arena, plant->line_count + 1, sizeof(int)),
                    .passed = fv_arena_alloc(arena, plant->line_count + 1, sizeof(bool)),
                    .towards = fv_arena_alloc(arena, plant->node_count + 1, sizeof(int))};
    int *queue = fv_arena_alloc(arena, plant->node_count + 1, sizeof(int));
    if (!c.lines || !c.passed || !c.towards || !queue)
        return false;
    find_shortest(&c, queue);
    for (c.vessel = 0; c.vessel < (int)plant->vessel_count && !c.failed; c.vessel++)
        if (asked[c.vessel] && state->vessels[c.vessel].verdict != FV_SHUT_OFF)
            add_way(&c);
    *places = c.list;
    *count = c.count;
    return !c.failed;
}
