/* SPDX-License-Identifier: MIT */
/* The table of containment, and reading what stands where by it. */
#include "model/contains.h"

#include <string.h>

#define ONE(type, member) offsetof(type, member), MODEL_ONCE, MODEL_ONCE, 0, NULL
#define LIST(type, list, count) offsetof(type, list), offsetof(type, count)
#define LINES EL_HEADER, EL_HOSE
#define VESSELS EL_KIND, EL_VESSEL
#define ONLY(place) place, place

/* In the order in which a plant is written and walked. */
static const model_slot slots[] = {
    {ONLY(EL_NETWORK), ONLY(EL_SITE), ONE(fv_plant, site)},
    {ONLY(EL_NETWORK), ONLY(EL_STOCK), 0, MODEL_ONCE, MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_BOILER), LIST(fv_plant, boilers, boiler_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), LINES, LIST(fv_plant, lines, line_count), offsetof(fv_line, kind), 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_TEE), LIST(fv_plant, tees, tee_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_DRIP), LIST(fv_plant, drips, drip_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_KIND), LIST(fv_plant, kinds, kind_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_VESSEL), LIST(fv_plant, vessels, vessel_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_ACTION), LIST(fv_plant, actions, action_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_THERMOSTAT), LIST(fv_plant, thermostats, thermostat_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_PROBE), LIST(fv_plant, probes, probe_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_GAUGE), LIST(fv_plant, gauges, gauge_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_METER), LIST(fv_plant, meters, meter_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_NETWORK), ONLY(EL_WORK), ONE(fv_plant, work)},
    {ONLY(EL_WORK), ONLY(EL_CREW), LIST(fv_work, crews, crew_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_WORK), ONLY(EL_TASK), LIST(fv_work, tasks, task_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_WORK), ONLY(EL_MORE), LIST(fv_work, more, more_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_WORK), ONLY(EL_PRICE), LIST(fv_work, prices, price_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_SITE), ONLY(EL_WEATHER), LIST(fv_site, weather, weather_count), MODEL_ONCE, 0, NULL},
    {ONLY(EL_BOILER), ONLY(EL_REFILL), LIST(fv_boiler, refills, refill_count), MODEL_ONCE, MODEL_FIRST_LIST, NULL},
    {ONLY(EL_STOCK), EL_STOCK_HOSE, EL_STOCK_BOILER, LIST(fv_plant, stock, stock_count), offsetof(fv_stock_item, kind),
     0, NULL},
    {LINES, EL_FITTING, EL_LOSS, LIST(fv_line, fittings, fitting_count), offsetof(fv_fitting, kind), MODEL_FIRST_LIST,
     "fitting"},
    {VESSELS, ONLY(EL_COIL), ONE(fv_vessel, coil)},
    {VESSELS, ONLY(EL_LOAD), ONE(fv_vessel, load)},
    {VESSELS, ONLY(EL_SHELL), ONE(fv_vessel, shell)},
    {VESSELS, ONLY(EL_WALL), LIST(fv_vessel, walls, wall_count), MODEL_ONCE, MODEL_FIRST_LIST, NULL},
    {VESSELS, EL_VENT, EL_GAP, LIST(fv_vessel, openings, opening_count), offsetof(fv_opening, kind), MODEL_SECOND_LIST,
     "opening"},
    {ONLY(EL_COIL), ONLY(EL_HOLE), LIST(fv_coil, hole, hole_count), MODEL_ONCE, MODEL_FIRST_LIST, NULL},
    {ONLY(EL_WALL), ONLY(EL_LAYER), LIST(fv_wall, layers, layer_count), MODEL_ONCE, MODEL_FIRST_LIST, NULL},
};

static bool is_between(const fv_element *element, model_place first, model_place last)
{
    return element >= model_element(first) && element <= model_element(last);
}

const model_slot *model_slot_next(const fv_element *owner, const model_slot *previous)
{
    for (const model_slot *s = previous ? previous + 1 : slots; s < slots + sizeof slots / sizeof *slots; s++)
        if (is_between(owner, s->owner_first, s->owner_last))
            return s;
    return NULL;
}

const char *model_tag(const fv_element *element)
{
    const char *slash = strchr(element->name, '/');
    return slash ? slash + 1 : element->name;
}

const model_slot *model_slot_find(const fv_element *owner, const char *tag, const fv_element **element)
{
    for (const model_slot *s = model_slot_next(owner, NULL); s; s = model_slot_next(owner, s))
        for (*element = model_element(s->first); *element <= model_element(s->last); ++*element)
            if (strcmp(model_tag(*element), tag) == 0)
                return s;
    return NULL;
}

size_t model_slot_count(const model_slot *slot, const void *owner)
{
    return slot->count == MODEL_ONCE ? 1 : *(const size_t *)(const void *)((const char *)owner + slot->count);
}

void *model_slot_part(const model_slot *slot, const void *owner, size_t index)
{
    union {
        const char *given;
        char *place;
    } writable = {.given = (const char *)owner + slot->at};
    if (slot->count == MODEL_ONCE)
        return writable.place;
    const char *list;
    void *part;
    memcpy(&list, writable.place, sizeof list);
    memcpy(&part, list + index * sizeof part, sizeof part);
    return part;
}

const fv_element *model_slot_element(const model_slot *slot, const void *part)
{
    return slot->first == slot->last ? model_element(slot->first) : ((const fv_part *)part)->element;
}
