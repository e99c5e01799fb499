/* SPDX-License-Identifier: MIT */
/* A deep copy of a plant, so that a study can change one without touching the other. */
#include "model/parts.h"

#include <string.h>

typedef struct {
    const fv_plant *from;
    fv_plant *to;
    bool failed; /* out of memory */
} copier;

static const char *copy_text(copier *c, const char *text)
{
    if (!text)
        return NULL;
    if (text == c->from->file)
        return c->to->file; /* nearly every location names it: once is enough */
    char *copy = fv_arena_copy(c->to->arena, text);
    c->failed = c->failed || !copy;
    return copy;
}

/* Texts in the schema, the head and its location; numbers have come over with the struct. */
static void copy_texts(copier *c, const fv_element *element, void *part)
{
    fv_part *head = part;
    head->loc.file = copy_text(c, head->loc.file);
    if (!fv_attr_find(element, "id"))
        head->id = copy_text(c, head->id);
    if (!fv_attr_find(element, "like"))
        head->like = copy_text(c, head->like);
    for (size_t i = 0; i < element->attr_count; i++)
        if (model_is_text(&element->attrs[i])) {
            const char **text = fv_attr_text(part, &element->attrs[i]);
            *text = copy_text(c, *text);
        }
}

static void *copy_part(copier *c, const fv_element *element, const void *part)
{
    void *copy = c->failed ? NULL : fv_arena_alloc(c->to->arena, 1, element->size);
    if (!copy) {
        c->failed = true;
        return NULL;
    }
    memcpy(copy, part, element->size);
    copy_texts(c, element, copy);
    return copy;
}

/* An empty list for `count` parts, with the room that model_room expects. */
static void *new_list(copier *c, size_t count)
{
    size_t room = 4;
    while (room < count)
        room *= 2;
    void *list = count ? fv_arena_alloc(c->to->arena, room, sizeof(void *)) : NULL;
    c->failed = c->failed || (count && !list);
    return list;
}

static fv_line *copy_line(copier *c, const fv_line *line)
{
    fv_line *copy = copy_part(c, model_line_element(line->kind), line);
    if (!copy)
        return NULL;
    copy->fittings = new_list(c, line->fitting_count);
    for (size_t i = 0; i < line->fitting_count && !c->failed; i++)
        copy->fittings[i] = copy_part(c, model_fitting_element(line->fittings[i]->kind), line->fittings[i]);
    return copy;
}

static fv_wall *copy_wall(copier *c, const fv_wall *wall)
{
    fv_wall *copy = copy_part(c, model_element(EL_WALL), wall);
    if (!copy)
        return NULL;
    copy->layers = new_list(c, wall->layer_count);
    for (size_t i = 0; i < wall->layer_count && !c->failed; i++)
        copy->layers[i] = copy_part(c, model_element(EL_LAYER), wall->layers[i]);
    return copy;
}

static fv_vessel *copy_vessel(copier *c, const fv_vessel *vessel)
{
    fv_vessel *copy = copy_part(c, model_element(EL_VESSEL), vessel);
    if (!copy)
        return NULL;
    copy_texts(c, model_element(EL_COIL), &copy->coil);
    copy_texts(c, model_element(EL_LOAD), &copy->load);
    copy_texts(c, model_element(EL_SHELL), &copy->shell);
    copy->coil.hole = new_list(c, vessel->coil.hole_count);
    copy->walls = new_list(c, vessel->wall_count);
    copy->openings = new_list(c, vessel->opening_count);
    for (size_t i = 0; i < vessel->coil.hole_count && !c->failed; i++)
        copy->coil.hole[i] = copy_part(c, model_element(EL_HOLE), vessel->coil.hole[i]);
    for (size_t i = 0; i < vessel->wall_count && !c->failed; i++)
        copy->walls[i] = copy_wall(c, vessel->walls[i]);
    for (size_t i = 0; i < vessel->opening_count && !c->failed; i++)
        copy->openings[i] = copy_part(c, model_opening_element(vessel->openings[i]->kind), vessel->openings[i]);
    return copy;
}

static void copy_site(copier *c, fv_site *site)
{
    fv_weather **from = site->weather;
    copy_texts(c, model_element(EL_SITE), site);
    site->weather = new_list(c, site->weather_count);
    for (size_t i = 0; i < site->weather_count && !c->failed; i++)
        site->weather[i] = copy_part(c, model_element(EL_WEATHER), from[i]);
}

static void copy_lists(copier *c)
{
    const fv_plant *from = c->from;
    fv_plant *to = c->to;
    to->boilers = new_list(c, from->boiler_count);
    to->lines = new_list(c, from->line_count);
    to->tees = new_list(c, from->tee_count);
    to->drips = new_list(c, from->drip_count);
    to->vessels = new_list(c, from->vessel_count);
    to->kinds = new_list(c, from->kind_count);
    to->actions = new_list(c, from->action_count);
    to->stock = new_list(c, from->stock_count);
    to->probes = new_list(c, from->probe_count);
    to->gauges = new_list(c, from->gauge_count);
    to->meters = new_list(c, from->meter_count);
    for (size_t i = 0; i < from->boiler_count && !c->failed; i++)
        to->boilers[i] = copy_part(c, model_element(EL_BOILER), from->boilers[i]);
    for (size_t i = 0; i < from->line_count && !c->failed; i++)
        to->lines[i] = copy_line(c, from->lines[i]);
    for (size_t i = 0; i < from->tee_count && !c->failed; i++)
        to->tees[i] = copy_part(c, model_element(EL_TEE), from->tees[i]);
    for (size_t i = 0; i < from->drip_count && !c->failed; i++)
        to->drips[i] = copy_part(c, model_element(EL_DRIP), from->drips[i]);
    for (size_t i = 0; i < from->vessel_count && !c->failed; i++)
        to->vessels[i] = copy_vessel(c, from->vessels[i]);
    for (size_t i = 0; i < from->kind_count && !c->failed; i++)
        to->kinds[i] = copy_vessel(c, from->kinds[i]);
    for (size_t i = 0; i < from->action_count && !c->failed; i++)
        to->actions[i] = copy_part(c, model_element(EL_ACTION), from->actions[i]);
    for (size_t i = 0; i < from->stock_count && !c->failed; i++)
        to->stock[i] = copy_part(c, model_stock_element(from->stock[i]->kind), from->stock[i]);
    for (size_t i = 0; i < from->probe_count && !c->failed; i++)
        to->probes[i] = copy_part(c, model_element(EL_PROBE), from->probes[i]);
    for (size_t i = 0; i < from->gauge_count && !c->failed; i++)
        to->gauges[i] = copy_part(c, model_element(EL_GAUGE), from->gauges[i]);
    for (size_t i = 0; i < from->meter_count && !c->failed; i++)
        to->meters[i] = copy_part(c, model_element(EL_METER), from->meters[i]);
}

fv_plant *fv_plant_copy(const fv_plant *plant)
{
    fv_plant *copy = fv_plant_new(plant->file);
    if (!copy)
        return NULL;
    fv_arena *arena = copy->arena;
    const char *file = copy->file;
    *copy = *plant;
    copy->arena = arena;
    copy->file = file;
    copier c = {.from = plant, .to = copy};
    copy->title = copy_text(&c, plant->title);
    copy->currency = copy_text(&c, plant->currency);
    copy->loc.file = copy_text(&c, plant->loc.file);
    copy_site(&c, &copy->site);
    copy_lists(&c);
    copy->nodes = c.failed ? NULL : new_list(&c, plant->node_count);
    for (size_t i = 0; i < plant->node_count && !c.failed; i++)
        copy->nodes[i] = copy_text(&c, plant->nodes[i]);
    if (c.failed) {
        fv_plant_free(copy);
        return NULL;
    }
    return copy;
}
