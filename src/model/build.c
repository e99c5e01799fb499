/* SPDX-License-Identifier: MIT */
/* Making a plant part by part. Everything lies in the plant's arena. */
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
static void unset(fv_value *values[], size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (values[i]->origin == FV_UNSET)
            values[i]->v = NAN;
}

static void *make(fv_plant *plant, const fv_element *element, const char *id, fv_loc loc)
{
    fv_part *part = fv_arena_alloc(plant->arena, 1, element->size);
    if (!part)
        return NULL;
    fv_element_defaults(element, part);
    part->loc = loc;
    if (id && !(part->id = fv_arena_copy(plant->arena, id)))
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
    fv_element_defaults(model_element(EL_SITE), &plant->site);
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
    fv_boiler **list = model_room(plant->arena, plant->boilers, plant->boiler_count);
    fv_boiler *boiler = make(plant, model_element(EL_BOILER), id, loc);
    if (!boiler || !list)
        return NULL;
    plant->boilers = list;
    return list[plant->boiler_count++] = boiler;
}

fv_line *fv_plant_add_line(fv_plant *plant, fv_line_kind kind, const char *id, fv_loc loc)
{
    fv_line **list = model_room(plant->arena, plant->lines, plant->line_count);
    fv_line *line = make(plant, model_line_element(kind), id, loc);
    if (!line || !list)
        return NULL;
    line->kind = kind;
    plant->lines = list;
    return list[plant->line_count++] = line;
}

fv_fitting *fv_line_add_fitting(fv_plant *plant, fv_line *line, fv_fitting_kind kind, fv_loc loc)
{
    fv_fitting **list = model_room(plant->arena, line->fittings, line->fitting_count);
    fv_fitting *fitting = make(plant, model_fitting_element(kind), NULL, loc);
    if (!fitting || !list)
        return NULL;
    fitting->kind = kind;
    unset((fv_value *[]){&fitting->count, &fitting->bore, &fitting->length, &fitting->k, &fitting->kv, &fitting->open},
          6);
    line->fittings = list;
    return list[line->fitting_count++] = fitting;
}

fv_tee *fv_plant_add_tee(fv_plant *plant, fv_loc loc)
{
    fv_tee **list = model_room(plant->arena, plant->tees, plant->tee_count);
    fv_tee *tee = make(plant, model_element(EL_TEE), NULL, loc);
    if (!tee || !list)
        return NULL;
    plant->tees = list;
    return list[plant->tee_count++] = tee;
}

fv_drip *fv_plant_add_drip(fv_plant *plant, fv_loc loc)
{
    fv_drip **list = model_room(plant->arena, plant->drips, plant->drip_count);
    fv_drip *drip = make(plant, model_element(EL_DRIP), NULL, loc);
    if (!drip || !list)
        return NULL;
    plant->drips = list;
    return list[plant->drip_count++] = drip;
}

fv_vessel *fv_plant_add_vessel(fv_plant *plant, const char *id, bool is_kind, fv_loc loc)
{
    fv_vessel *vessel = make(plant, model_element(EL_VESSEL), id, loc);
    if (!vessel)
        return NULL;
    vessel->is_kind = is_kind;
    fv_element_defaults(model_element(EL_COIL), &vessel->coil);
    fv_element_defaults(model_element(EL_LOAD), &vessel->load);
    fv_element_defaults(model_element(EL_SHELL), &vessel->shell);
    vessel->coil.part.loc = vessel->load.part.loc = vessel->shell.part.loc = loc;
    fv_vessel ***place = is_kind ? &plant->kinds : &plant->vessels;
    size_t *count = is_kind ? &plant->kind_count : &plant->vessel_count;
    fv_vessel **list = model_room(plant->arena, *place, *count);
    if (!list)
        return NULL;
    *place = list;
    return list[(*count)++] = vessel;
}

fv_hole *fv_vessel_add_hole(fv_plant *plant, fv_vessel *vessel, fv_loc loc)
{
    fv_hole **list = model_room(plant->arena, vessel->coil.hole, vessel->coil.hole_count);
    fv_hole *hole = make(plant, model_element(EL_HOLE), NULL, loc);
    if (!hole || !list)
        return NULL;
    vessel->coil.hole = list;
    return list[vessel->coil.hole_count++] = hole;
}

fv_wall *fv_vessel_add_wall(fv_plant *plant, fv_vessel *vessel, fv_loc loc)
{
    fv_wall **list = model_room(plant->arena, vessel->walls, vessel->wall_count);
    fv_wall *wall = make(plant, model_element(EL_WALL), NULL, loc);
    if (!wall || !list)
        return NULL;
    vessel->walls = list;
    return list[vessel->wall_count++] = wall;
}

fv_wall_layer *fv_wall_add_layer(fv_plant *plant, fv_wall *wall, fv_loc loc)
{
    fv_wall_layer **list = model_room(plant->arena, wall->layers, wall->layer_count);
    fv_wall_layer *layer = make(plant, model_element(EL_LAYER), NULL, loc);
    if (!layer || !list)
        return NULL;
    wall->layers = list;
    return list[wall->layer_count++] = layer;
}

fv_opening *fv_vessel_add_opening(fv_plant *plant, fv_vessel *vessel, fv_opening_kind kind, fv_loc loc)
{
    fv_opening **list = model_room(plant->arena, vessel->openings, vessel->opening_count);
    fv_opening *opening = make(plant, model_opening_element(kind), NULL, loc);
    if (!opening || !list)
        return NULL;
    opening->kind = kind;
    vessel->openings = list;
    return list[vessel->opening_count++] = opening;
}

fv_action *fv_plant_add_action(fv_plant *plant, fv_loc loc)
{
    fv_action **list = model_room(plant->arena, plant->actions, plant->action_count);
    fv_action *action = make(plant, model_element(EL_ACTION), NULL, loc);
    if (!action || !list)
        return NULL;
    plant->actions = list;
    return list[plant->action_count++] = action;
}

fv_probe *fv_plant_add_probe(fv_plant *plant, const char *id, fv_loc loc)
{
    fv_probe **list = model_room(plant->arena, plant->probes, plant->probe_count);
    fv_probe *probe = make(plant, model_element(EL_PROBE), id, loc);
    if (!probe || !list)
        return NULL;
    probe->vessel_index = -1;
    plant->probes = list;
    return list[plant->probe_count++] = probe;
}

fv_gauge *fv_plant_add_gauge(fv_plant *plant, const char *id, fv_loc loc)
{
    fv_gauge **list = model_room(plant->arena, plant->gauges, plant->gauge_count);
    fv_gauge *gauge = make(plant, model_element(EL_GAUGE), id, loc);
    if (!gauge || !list)
        return NULL;
    plant->gauges = list;
    return list[plant->gauge_count++] = gauge;
}

fv_meter *fv_plant_add_meter(fv_plant *plant, fv_loc loc)
{
    fv_meter **list = model_room(plant->arena, plant->meters, plant->meter_count);
    fv_meter *meter = make(plant, model_element(EL_METER), NULL, loc);
    if (!meter || !list)
        return NULL;
    plant->meters = list;
    return list[plant->meter_count++] = meter;
}

fv_stock_item *fv_plant_add_stock(fv_plant *plant, fv_stock_kind kind, fv_loc loc)
{
    fv_stock_item **list = model_room(plant->arena, plant->stock, plant->stock_count);
    fv_stock_item *item = make(plant, model_stock_element(kind), NULL, loc);
    if (!item || !list)
        return NULL;
    item->kind = kind;
    unset((fv_value *[]){&item->size, &item->output, &item->price}, 3);
    plant->stock = list;
    return list[plant->stock_count++] = item;
}

fv_weather *fv_plant_add_weather(fv_plant *plant, fv_loc loc)
{
    fv_weather **list = model_room(plant->arena, plant->site.weather, plant->site.weather_count);
    fv_weather *weather = make(plant, model_element(EL_WEATHER), NULL, loc);
    if (!weather || !list)
        return NULL;
    plant->site.weather = list;
    return list[plant->site.weather_count++] = weather;
}
