/* SPDX-License-Identifier: MIT */
/* A vessel before anything happens: its load, walls and gas, and how long the load alone would take. */
#include "heatup/kit.h"
#include "heatup/load.h"
#include "heatup/room.h"
#include "num/root.h"

#include <math.h>
#include <stdlib.h>

static const double FILM = 0.1; /* kg/m2 that clings when the rest has dripped off: common practice, no source */
/* Gas keeps at least this share of a vessel, however full: the gaps that steam needs. Common practice, no source. */
static const double GAS_LEAST = 0.1;
static const double LONGEST = 60 * 86400.0; /* s searched for the time with ample steam */

static bool open_load(heatup_room *room, heatup_room_house *house)
{
    const fv_vessel *v = room->vessel;
    fv_text who = {0};
    heatup_load_spec spec;
    fv_text_add(&who, "vessel '%s'", v->part.id);
    const fv_status status = who.failed ? FV_FAIL
                                        : heatup_load_spec_of(&v->load, who.text, house->plant->site.air.v, v->target.v,
                                                              &spec, house->faults);
    fv_text_free(&who);
    if (status == FV_FAIL)
        return false;
    room->load_mass = spec.mass;
    room->soaks = spec.mass > 0 ? spec.takes_condensate : 0;
    if (spec.mass <= 0)
        return true;
    room->solid = spec.solid;
    if (spec.bed) {
        room->bed = heatup_bed_new(&spec.loose);
        return room->bed != NULL;
    }
    room->pieces = spec.pieces;
    room->body = heatup_kit_body(house->kit, &spec.piece);
    return room->body != NULL;
}

fv_heat_outside heatup_room_outside(const fv_wall *wall, double t_air, double wind, double site_pressure)
{
    return (fv_heat_outside){.t_air = fv_or(wall->air, t_air),
                             .p_air = site_pressure,
                             .wind = fv_or(wall->wind, wind),
                             .emissivity = wall->emissivity.v,
                             .h_fixed = fv_or(wall->outside, 0)};
}

static heatup_wall_heat *open_wall(const fv_plant *plant, const fv_wall *wall, double site_pressure)
{
    fv_heat_layer *layers = calloc(wall->layer_count + 1, sizeof *layers);
    if (!layers)
        return NULL;
    for (size_t i = 0; i < wall->layer_count; i++) {
        const fv_wall_layer *l = wall->layers[i];
        layers[i] = (fv_heat_layer){
            .thickness = l->thickness.v, .k = l->conductivity.v, .rho = l->density.v, .c = l->specific_heat.v};
    }
    const heatup_wall_heat_spec spec = {
        .layers = layers,
        .count = wall->layer_count,
        .area = wall->area.v,
        .height = wall->height.v,
        .h_inside = fv_or(wall->inside, 0),
        .outside = heatup_room_outside(wall, plant->site.air.v, plant->site.wind.v, site_pressure),
        .t_start = fv_or(wall->air, plant->site.air.v)};
    heatup_wall_heat *made = heatup_wall_heat_new(&spec);
    free(layers);
    return made;
}

static bool open_walls(heatup_room *room, const fv_plant *plant, double site_pressure)
{
    const fv_vessel *v = room->vessel;
    room->walls = calloc(v->wall_count + 1, sizeof(heatup_wall_heat *));
    if (!room->walls)
        return false;
    room->wall_count = v->wall_count;
    for (size_t i = 0; i < v->wall_count; i++) {
        room->walls[i] = open_wall(plant, v->walls[i], site_pressure);
        if (!room->walls[i])
            return false;
    }
    return true;
}

/* A film of a tenth of a millimetre on closed pieces and walls; an open load is wet throughout. */
static double film_most(const heatup_room *room)
{
    if (room->bed || room->soaks > 0)
        return INFINITY;
    double area = room->body ? room->pieces * heatup_body_area(room->body) : 0;
    for (size_t i = 0; i < room->vessel->wall_count; i++)
        area += room->vessel->walls[i]->area.v;
    return FILM * area;
}

bool heatup_room_open(heatup_room *room, const fv_vessel *vessel, const steady_net_opening *openings,
                      heatup_room_house *house)
{
    const fv_plant *plant = house->plant;
    *room = (heatup_room){.vessel = vessel,
                          .openings = openings,
                          .opening_count = (int)vessel->opening_count,
                          .sat = fv_sat_line(),
                          .prepared = NAN};
    const size_t errors = fv_faults_errors(house->faults);
    if (!open_load(room, house) || !open_walls(room, plant, house->site_pressure)) {
        if (fv_faults_errors(house->faults) == errors)
            fv_error(house->faults, FV_ERR_SYSTEM, vessel->part.loc, "vessel '%s': out of memory", vessel->part.id);
        return false;
    }
    const double shell = vessel->shell.mass.v * vessel->shell.specific_heat.v;
    room->shell = isnan(shell) ? 0 : shell;
    room->volume = fmax(vessel->volume.v - room->solid, GAS_LEAST * vessel->volume.v);
    /* the load has stood in it: gas and load are as cold, or as warm, as each other */
    room->t = room->load_mass > 0 ? fv_or(vessel->load.start_temperature, plant->site.air.v) : plant->site.air.v;
    room->t_end = room->t_start = room->t;
    room->t_shell = plant->site.air.v;
    fv_sat_at_t_point at;
    fv_sat_at_t(room->sat, room->t, &at);
    room->air = fv_air_density(house->site_pressure - at.p, room->t) * room->volume;
    room->film_most = film_most(room);
    room->humidity = 1;
    room->depth = fv_or(vessel->water, 0);
    return true;
}

void heatup_room_close(heatup_room *room)
{
    heatup_body_free(room->body);
    heatup_bed_free(room->bed);
    for (size_t i = 0; i < room->wall_count && room->walls; i++)
        heatup_wall_heat_free(room->walls[i]);
    free(room->walls);
}

typedef struct {
    const heatup_room *room;
    double t, target;
} ample;

static double over_target(double time, double *slope, void *context)
{
    const ample *a = context;
    *slope = 0;
    return heatup_body_core_after(a->room->body, time, a->t, 0, true) - a->target;
}

/* A melting piece is walked there, so that no stretch is gone over twice. */
static double walk_to_target(const heatup_room *room, double t, double target)
{
    heatup_body *body = heatup_body_copy(room->body);
    double gone = 0, step = 60, part = NAN, slope;
    if (!body)
        return NAN;
    const heatup_room walker = {.body = body};
    ample a = {&walker, t, target};
    while (gone < LONGEST && over_target(step, &slope, &a) < 0 &&
           heatup_body_advance(body, step, t, t, true) != FV_FAIL) {
        gone += step;
        step = fmax(60, 0.2 * gone);
    }
    const bool found = gone < LONGEST && num_root_between(over_target, &a, 1e-3, step, 0.5 * step, 0.1, &part) == FV_OK;
    heatup_body_free(body);
    return found ? gone + part : NAN;
}

double heatup_room_ample_time(const heatup_room *room, double t, double target)
{
    ample a = {room, t, target};
    double low = 1e-3, high = 60, time, slope;
    if (target >= t)
        return NAN;
    if (!room->body || over_target(low, &slope, &a) >= 0)
        return 0;
    if (!heatup_body_is_linear(room->body))
        return walk_to_target(room, t, target);
    while (high < LONGEST && over_target(high, &slope, &a) < 0) {
        low = high;
        high *= 2;
    }
    return high < LONGEST && num_root_between(over_target, &a, low, high, low, 1e-6, &time) == FV_OK ? time : NAN;
}
