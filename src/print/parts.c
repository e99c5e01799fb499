/* SPDX-License-Identifier: MIT */
/* The walk over the parts of a plant. */
#include "print/parts.h"

#include <stdio.h>

typedef struct {
    print_part_visit visit;
    void *context;
} walk;

enum { PATH_SIZE = 256 };

static const char *or_empty(const char *text)
{
    return text ? text : "";
}

static bool see(const walk *w, const char *element, const void *part, const char *owner, const char *path)
{
    const print_part_seen seen = {fv_element_find(element), part, or_empty(owner), path};
    return !seen.element || w->visit(w->context, &seen);
}

/* A part inside another one: "bin1.wall2". */
static bool see_inside(const walk *w, const char *element, const void *part, const char *owner, size_t number)
{
    char path[PATH_SIZE];
    if (number)
        snprintf(path, sizeof path, "%s.%s%zu", owner, element, number);
    else
        snprintf(path, sizeof path, "%s.%s", owner, element);
    return see(w, element, part, owner, path);
}

static bool walk_line(const walk *w, const fv_line *line)
{
    static const char *const kinds[] = {"header", "pipe", "hose"};
    static const char *const fittings[] = {"fitting", "barb", "union", "valve", "loss"};
    const char *id = or_empty(line->part.id);
    bool on = see(w, kinds[line->kind], line, id, id);
    for (size_t i = 0; on && i < line->fitting_count; i++)
        on = see_inside(w, fittings[line->fittings[i]->kind], line->fittings[i], id, i + 1);
    return on;
}

static bool walk_wall(const walk *w, const fv_wall *wall, const char *id, size_t number)
{
    char path[PATH_SIZE];
    bool on = see_inside(w, "wall", wall, id, number);
    for (size_t i = 0; on && i < wall->layer_count; i++) {
        snprintf(path, sizeof path, "%s.wall%zu.layer%zu", id, number, i + 1);
        on = see(w, "layer", wall->layers[i], id, path);
    }
    return on;
}

static bool has_load(const fv_load *load)
{
    return fv_is_set(load->mass) || fv_is_set(load->count) || fv_is_set(load->depth);
}

static bool walk_vessel(const walk *w, const fv_vessel *vessel)
{
    static const char *const openings[] = {"vent", "drain", "gap"};
    const char *id = or_empty(vessel->part.id);
    bool on = see(w, "vessel", vessel, id, id) && see_inside(w, "coil", &vessel->coil, id, 0);
    for (size_t i = 0; on && i < vessel->coil.hole_count; i++)
        on = see_inside(w, "hole", vessel->coil.hole[i], id, i + 1);
    if (on && has_load(&vessel->load))
        on = see_inside(w, "load", &vessel->load, id, 0);
    if (on && fv_is_set(vessel->shell.mass))
        on = see_inside(w, "shell", &vessel->shell, id, 0);
    for (size_t i = 0; on && i < vessel->wall_count; i++)
        on = walk_wall(w, vessel->walls[i], id, i + 1);
    for (size_t i = 0; on && i < vessel->opening_count; i++)
        on = see_inside(w, openings[vessel->openings[i]->kind], vessel->openings[i], id, i + 1);
    return on;
}

bool print_parts_walk(const fv_plant *plant, print_part_visit visit, void *context)
{
    const walk w = {visit, context};
    bool on = see(&w, "site", &plant->site, "site", "site");
    for (size_t i = 0; on && i < plant->boiler_count; i++)
        on = see(&w, "boiler", plant->boilers[i], plant->boilers[i]->part.id, or_empty(plant->boilers[i]->part.id));
    for (size_t i = 0; on && i < plant->line_count; i++)
        on = walk_line(&w, plant->lines[i]);
    for (size_t i = 0; on && i < plant->tee_count; i++)
        on = see(&w, "tee", plant->tees[i], plant->tees[i]->at, or_empty(plant->tees[i]->part.id));
    for (size_t i = 0; on && i < plant->vessel_count; i++)
        on = walk_vessel(&w, plant->vessels[i]);
    return on;
}
