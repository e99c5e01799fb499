/* SPDX-License-Identifier: MIT */
/* Making a plant part by part. Everything lies in the plant's arena. */
#include "model/contains.h"
#include "model/parts.h"

#include <string.h>

/* Lists grow by doubling, so that a list of n has room for the next power of two from 4 on; no capacity is stored. */
static bool is_full(size_t count)
{
    return count == 0 || (count >= 4 && (count & (count - 1)) == 0);
}

void *model_room(fv_arena *arena, void *list, size_t count)
{
    if (!is_full(count))
        return list;
    void *bigger = fv_arena_alloc(arena, count ? 2 * count : 4, sizeof(void *));
    if (bigger && count)
        memcpy(bigger, list, count * sizeof(void *));
    return bigger;
}

/* An element lists only the attributes that it has; what its struct holds further for its relatives is unset. */
static void unset_relatives(const model_slot *slot, void *part)
{
    for (const fv_element *e = model_element(slot->first); e <= model_element(slot->last); e++)
        for (size_t i = 0; i < e->attr_count; i++)
            if (!model_is_text(&e->attrs[i]) && !fv_is_set(*fv_attr_value(part, &e->attrs[i])))
                *fv_attr_value(part, &e->attrs[i]) = model_fallback(NAN);
}

/* Defaults and place of a part and of those that are always inside it. */
static void begin(const fv_element *element, void *part, fv_loc loc)
{
    fv_element_defaults(element, part);
    ((fv_part *)part)->element = element;
    ((fv_part *)part)->loc = loc;
    for (const model_slot *s = model_slot_next(element, NULL); s; s = model_slot_next(element, s))
        if (s->count == MODEL_ONCE)
            begin(model_element(s->first), model_slot_part(s, part, 0), loc);
}

static void *make(fv_plant *plant, const model_slot *slot, const fv_element *element, fv_loc loc)
{
    void *part = fv_arena_alloc(plant->arena, 1, element->size);
    if (!part)
        return NULL;
    if (element == model_element(EL_KIND)) { /* all of a vessel, but only what a kind can say is ever given */
        fv_element_defaults(model_element(EL_VESSEL), part);
        ((fv_vessel *)part)->is_kind = true;
    }
    begin(element, part, loc);
    if (slot->sort != MODEL_ONCE) {
        const int sort = (int)(element - model_element(slot->first));
        memcpy((char *)part + slot->sort, &sort, sizeof sort);
    }
    unset_relatives(slot, part);
    return part;
}

void *model_add(fv_plant *plant, void *owner, const model_slot *slot, const fv_element *element, fv_loc loc)
{
    if (slot->count == MODEL_ONCE) {
        void *part = model_slot_part(slot, owner, 0);
        if (model_has_head(element))
            ((fv_part *)part)->loc = loc;
        return part;
    }
    size_t count = model_slot_count(slot, owner);
    void *list, *part = make(plant, slot, element, loc);
    memcpy(&list, (char *)owner + slot->at, sizeof list);
    list = model_room(plant->arena, list, count);
    if (!part || !list)
        return NULL;
    memcpy((char *)list + count * sizeof part, &part, sizeof part);
    memcpy((char *)owner + slot->at, &list, sizeof list);
    count++;
    memcpy((char *)owner + slot->count, &count, sizeof count);
    return part;
}

static void *add(fv_plant *plant, model_place owner_place, void *owner, model_place place, const char *id, fv_loc loc)
{
    const fv_element *element;
    if (!plant || !owner)
        return NULL;
    const model_slot *slot = model_slot_find(model_element(owner_place), model_tag(model_element(place)), &element);
    fv_part *part = model_add(plant, owner, slot, element, loc);
    if (slot->bit) /* a list of a kind that gets a part of its own is no longer the kind's */
        ((fv_part *)owner)->lists_from_kind &= ~slot->bit;
    if (part && id && !(part->id = fv_arena_copy(plant->arena, id)))
        return NULL;
    return part;
}

fv_plant *fv_plant_new(const char *file)
{
    fv_arena *arena = fv_arena_new();
    fv_plant *plant = arena ? fv_arena_alloc(arena, 1, sizeof *plant) : NULL;
    if (!plant) {
        fv_arena_free(arena);
        return NULL;
    }
    plant->arena = arena;
    begin(model_element(EL_SITE), &plant->site, plant->loc);
    begin(model_element(EL_WORK), &plant->work, plant->loc);
    plant->file = file ? fv_arena_copy(arena, file) : NULL;
    if (file && !plant->file) {
        fv_arena_free(arena);
        return NULL;
    }
    plant->loc.file = plant->site.part.loc.file = plant->file;
    return plant;
}

void fv_plant_free(fv_plant *plant)
{
    if (plant)
        fv_arena_free(plant->arena);
}

fv_boiler *fv_plant_add_boiler(fv_plant *plant, const char *id, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_BOILER, id, loc);
}

fv_line *fv_plant_add_line(fv_plant *plant, fv_line_kind kind, const char *id, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, (model_place)(EL_HEADER + (int)kind), id, loc);
}

fv_fitting *fv_line_add_fitting(fv_plant *plant, fv_line *line, fv_fitting_kind kind, fv_loc loc)
{
    return add(plant, EL_HOSE, line, (model_place)(EL_FITTING + (int)kind), NULL, loc);
}

fv_tee *fv_plant_add_tee(fv_plant *plant, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_TEE, NULL, loc);
}

fv_drip *fv_plant_add_drip(fv_plant *plant, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_DRIP, NULL, loc);
}

fv_vessel *fv_plant_add_vessel(fv_plant *plant, const char *id, bool is_kind, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, is_kind ? EL_KIND : EL_VESSEL, id, loc);
}

fv_hole *fv_vessel_add_hole(fv_plant *plant, fv_vessel *vessel, fv_loc loc)
{
    if (!plant || !vessel)
        return NULL;
    return add(plant, EL_COIL, &vessel->coil, EL_HOLE, NULL, loc);
}

fv_wall *fv_vessel_add_wall(fv_plant *plant, fv_vessel *vessel, fv_loc loc)
{
    return add(plant, EL_VESSEL, vessel, EL_WALL, NULL, loc);
}

fv_wall_layer *fv_wall_add_layer(fv_plant *plant, fv_wall *wall, fv_loc loc)
{
    return add(plant, EL_WALL, wall, EL_LAYER, NULL, loc);
}

fv_opening *fv_vessel_add_opening(fv_plant *plant, fv_vessel *vessel, fv_opening_kind kind, fv_loc loc)
{
    return add(plant, EL_VESSEL, vessel, (model_place)(EL_VENT + (int)kind), NULL, loc);
}

fv_action *fv_plant_add_action(fv_plant *plant, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_ACTION, NULL, loc);
}

fv_thermostat *fv_plant_add_thermostat(fv_plant *plant, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_THERMOSTAT, NULL, loc);
}

fv_probe *fv_plant_add_probe(fv_plant *plant, const char *id, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_PROBE, id, loc);
}

fv_gauge *fv_plant_add_gauge(fv_plant *plant, const char *id, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_GAUGE, id, loc);
}

fv_meter *fv_plant_add_meter(fv_plant *plant, fv_loc loc)
{
    return add(plant, EL_NETWORK, plant, EL_METER, NULL, loc);
}

fv_stock_item *fv_plant_add_stock(fv_plant *plant, fv_stock_kind kind, fv_loc loc)
{
    return add(plant, EL_STOCK, plant, (model_place)(EL_STOCK_HOSE + (int)kind), NULL, loc);
}

fv_weather *fv_plant_add_weather(fv_plant *plant, fv_loc loc)
{
    return !plant ? NULL : add(plant, EL_SITE, &plant->site, EL_WEATHER, NULL, loc);
}

fv_refill *fv_boiler_add_refill(fv_plant *plant, fv_boiler *boiler, fv_loc loc)
{
    return add(plant, EL_BOILER, boiler, EL_REFILL, NULL, loc);
}
