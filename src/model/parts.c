/* SPDX-License-Identifier: MIT */
/* Walking over a plant and naming what is met. */
#include "model/parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    model_visit *visit;
    void *context;
} walker;

static bool stop_at(const walker *w, const fv_element *element, void *part, size_t index)
{
    return w->visit(w->context, &(model_stop){.element = element, .part = part, .index = (int)index});
}

/* Where the walk is inside of. */
typedef struct {
    const fv_element *element;
    const void *part;
    bool taken;
} inside;

static bool stop_inside(const walker *w, inside owner, const fv_element *element, void *part, size_t number)
{
    return w->visit(w->context, &(model_stop){.element = element,
                                              .part = part,
                                              .owner = owner.part,
                                              .owner_element = owner.element,
                                              .number = number,
                                              .taken = owner.taken});
}

static bool walk_line(const walker *w, fv_line *line, size_t index)
{
    const inside here = {model_line_element(line->kind), line, (line->part.lists_from_kind & MODEL_FIRST_LIST) != 0};
    bool go = stop_at(w, here.element, line, index);
    for (size_t i = 0; go && i < line->fitting_count; i++)
        go = stop_inside(w, here, model_fitting_element(line->fittings[i]->kind), line->fittings[i], i + 1);
    return go;
}

static bool walk_walls(const walker *w, inside here, fv_vessel *vessel)
{
    bool go = true;
    here.taken = (vessel->part.lists_from_kind & MODEL_FIRST_LIST) != 0;
    for (size_t i = 0; go && i < vessel->wall_count; i++) {
        fv_wall *wall = vessel->walls[i];
        go = stop_inside(w, here, model_element(EL_WALL), wall, i + 1);
        for (size_t j = 0; go && j < wall->layer_count; j++)
            go = stop_inside(w, here, model_element(EL_LAYER), wall->layers[j], j + 1);
    }
    return go;
}

static bool walk_vessel(const walker *w, fv_vessel *vessel, size_t index)
{
    inside here = {model_vessel_element(vessel), vessel, false};
    bool go = stop_at(w, here.element, vessel, index) &&
              stop_inside(w, here, model_element(EL_COIL), &vessel->coil, 0) &&
              stop_inside(w, here, model_element(EL_LOAD), &vessel->load, 0) &&
              stop_inside(w, here, model_element(EL_SHELL), &vessel->shell, 0);
    here.taken = (vessel->coil.part.lists_from_kind & MODEL_FIRST_LIST) != 0;
    for (size_t i = 0; go && i < vessel->coil.hole_count; i++)
        go = stop_inside(w, here, model_element(EL_HOLE), vessel->coil.hole[i], i + 1);
    here.taken = (vessel->part.lists_from_kind & MODEL_SECOND_LIST) != 0;
    for (size_t i = 0; go && i < vessel->opening_count; i++) {
        fv_opening *opening = vessel->openings[i];
        go = stop_inside(w, here, model_opening_element(opening->kind), opening, i + 1);
    }
    return go && walk_walls(w, here, vessel);
}

static bool walk_site(const walker *w, const fv_site *site)
{
    union {
        const fv_site *given;
        fv_site *part;
    } writable = {.given = site};
    bool go = stop_at(w, model_element(EL_SITE), writable.part, 0);
    for (size_t i = 0; go && i < site->weather_count; i++)
        go = stop_inside(w, (inside){model_element(EL_SITE), site, false}, model_element(EL_WEATHER), site->weather[i],
                         i + 1);
    return go;
}

bool model_walk(const fv_plant *plant, model_visit *visit, void *context)
{
    const walker w = {visit, context};
    bool go = walk_site(&w, &plant->site);
    for (size_t i = 0; go && i < plant->stock_count; i++)
        go = stop_at(&w, model_stock_element(plant->stock[i]->kind), plant->stock[i], i);
    for (size_t i = 0; go && i < plant->boiler_count; i++)
        go = stop_at(&w, model_element(EL_BOILER), plant->boilers[i], i);
    for (size_t i = 0; go && i < plant->line_count; i++)
        go = walk_line(&w, plant->lines[i], i);
    for (size_t i = 0; go && i < plant->tee_count; i++)
        go = stop_at(&w, model_element(EL_TEE), plant->tees[i], i);
    for (size_t i = 0; go && i < plant->drip_count; i++)
        go = stop_at(&w, model_element(EL_DRIP), plant->drips[i], i);
    for (size_t i = 0; go && i < plant->kind_count; i++)
        go = walk_vessel(&w, plant->kinds[i], i);
    for (size_t i = 0; go && i < plant->vessel_count; i++)
        go = walk_vessel(&w, plant->vessels[i], i);
    for (size_t i = 0; go && i < plant->action_count; i++)
        go = stop_at(&w, model_element(EL_ACTION), plant->actions[i], i);
    for (size_t i = 0; go && i < plant->probe_count; i++)
        go = stop_at(&w, model_element(EL_PROBE), plant->probes[i], i);
    for (size_t i = 0; go && i < plant->gauge_count; i++)
        go = stop_at(&w, model_element(EL_GAUGE), plant->gauges[i], i);
    for (size_t i = 0; go && i < plant->meter_count; i++)
        go = stop_at(&w, model_element(EL_METER), plant->meters[i], i);
    return go;
}

const char *model_name(const model_stop *stop, char *buffer, size_t size)
{
    const char *what = stop->element->name;
    if (stop->part->id)
        snprintf(buffer, size, "%s '%s'", what, stop->part->id);
    else if (!stop->owner)
        snprintf(buffer, size, "%s", what);
    else if (!stop->owner->id)
        snprintf(buffer, size, "%s %zu", what, stop->number);
    else if (stop->number)
        snprintf(buffer, size, "%s %zu of %s '%s'", what, stop->number, stop->owner_element->name, stop->owner->id);
    else
        snprintf(buffer, size, "%s of %s '%s'", what, stop->owner_element->name, stop->owner->id);
    return buffer;
}

typedef struct {
    model_names *names;
    size_t capacity;
} collector;

static bool collect(void *context, const model_stop *stop)
{
    collector *c = context;
    if (!stop->part->id)
        return true;
    void *list = c->names->list;
    if (!fv_grow(&list, &c->capacity, c->names->count + 1, sizeof(model_named)))
        return false;
    c->names->list = list;
    c->names->list[c->names->count] = (model_named){.id = stop->part->id,
                                                    .element = stop->element,
                                                    .part = stop->part,
                                                    .order = c->names->count,
                                                    .index = stop->index};
    c->names->count++;
    return true;
}

static int by_name(const void *a, const void *b)
{
    const model_named *x = a, *y = b;
    int order = strcmp(x->id, y->id);
    return order ? order : (x->order > y->order) - (x->order < y->order);
}

bool model_names_make(const fv_plant *plant, model_names *names)
{
    *names = (model_names){0};
    collector c = {.names = names};
    if (!model_walk(plant, collect, &c)) {
        model_names_free(names);
        return false;
    }
    if (names->count)
        qsort(names->list, names->count, sizeof *names->list, by_name);
    return true;
}

void model_names_free(model_names *names)
{
    free(names->list);
    *names = (model_names){0};
}

const model_named *model_names_find(const model_names *names, const char *id)
{
    size_t low = 0, high = names->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(names->list[middle].id, id) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < names->count && strcmp(names->list[low].id, id) == 0 ? &names->list[low] : NULL;
}
