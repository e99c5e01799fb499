/* SPDX-License-Identifier: MIT */
/* A vessel before anything happens: its load, walls and gas, and how long the load alone would take. */
#include "heatup/cache.h"
#include "heatup/load.h"
#include "heatup/chamber.h"
#include "num/root.h"

#include <math.h>
#include <stdlib.h>

static const double FILM = 0.1; /* kg/m2 that clings when the rest has dripped off: common practice, no source */
/* Gas keeps at least this share of a vessel, however full: the gaps that steam needs. Common practice, no source. */
static const double GAS_LEAST = 0.1;
static const double LONGEST = 60 * 86400.0; /* s searched for the time with ample steam */

static bool open_load(heatup_chamber *chamber, heatup_chamber_house *house)
{
    const fv_vessel *v = chamber->vessel;
    fv_text who = {0};
    heatup_load_spec spec;
    fv_text_add(&who, "vessel '%s'", v->part.id);
    const fv_status status = who.failed ? FV_FAIL
                                        : heatup_load_spec_of(&v->load, who.text, house->plant->site.air.v, v->target.v,
                                                              &spec, house->faults);
    fv_text_free(&who);
    if (status == FV_FAIL)
        return false;
    chamber->load_mass = spec.mass;
    chamber->soaks = spec.mass > 0 ? spec.takes_condensate : 0;
    if (spec.mass <= 0)
        return true;
    chamber->solid = spec.solid;
    if (spec.bed) {
        chamber->bed = heatup_bed_new(&spec.loose);
        return chamber->bed != NULL;
    }
    chamber->pieces = spec.pieces;
    chamber->body = heatup_cache_body(house->cache, &spec.piece);
    return chamber->body != NULL;
}

fv_heat_outside heatup_chamber_outside(const fv_wall *wall, double t_air, double wind, double site_pressure)
{
    return (fv_heat_outside){.t_air = fv_or(wall->air, t_air),
                             .p_air = site_pressure,
                             .wind = fv_or(wall->wind, wind),
                             .emissivity = wall->emissivity.v,
                             .h_fixed = fv_or(wall->outside, 0)};
}

static heatup_wall_heat *open_wall(const fv_plant *plant, const fv_vessel *vessel, const fv_wall *wall,
                                   double site_pressure)
{
    fv_heat_layer layers[STEADY_LAYERS_MOST];
    steady_lining linings[STEADY_LAYERS_MOST];
    bool open;
    const size_t count = steady_wall_layers(wall, layers, linings, &open);
    const heatup_wall_heat_spec spec = {
        .layers = layers,
        .linings = open ? linings : NULL,
        .count = count,
        .area = wall->area.v,
        .height = wall->height.v,
        .h_inside = fv_or(wall->inside, 0),
        .outside = heatup_chamber_outside(wall, plant->site.air.v,
                                          fv_vessel_wind(&plant->site, vessel, plant->site.wind.v), site_pressure),
        .t_start = fv_or(wall->air, plant->site.air.v)};
    return heatup_wall_heat_new(&spec);
}

static bool open_walls(heatup_chamber *chamber, const fv_plant *plant, double site_pressure)
{
    const fv_vessel *v = chamber->vessel;
    chamber->walls = calloc(v->wall_count + 1, sizeof(heatup_wall_heat *));
    chamber->bed_walls = chamber->bed ? calloc(v->wall_count + 1, sizeof(heatup_wall_heat *)) : NULL;
    if (!chamber->walls || (chamber->bed && !chamber->bed_walls))
        return false;
    chamber->wall_count = v->wall_count;
    if (chamber->bed)
        chamber->beside = fmin(1, v->load.depth.v * v->load.area.v / v->volume.v);
    for (size_t i = 0; i < v->wall_count; i++) {
        chamber->walls[i] = open_wall(plant, v, v->walls[i], site_pressure);
        if (chamber->bed)
            chamber->bed_walls[i] = open_wall(plant, v, v->walls[i], site_pressure);
        if (!chamber->walls[i] || (chamber->bed && !chamber->bed_walls[i]))
            return false;
    }
    return true;
}

/* A film of a tenth of a millimetre on closed pieces and walls; an open load is wet throughout. */
static double film_most(const heatup_chamber *chamber)
{
    if (chamber->bed || chamber->soaks > 0)
        return INFINITY;
    double area = chamber->body ? chamber->pieces * heatup_body_area(chamber->body) : 0;
    for (size_t i = 0; i < chamber->vessel->wall_count; i++)
        area += chamber->vessel->walls[i]->area.v;
    return FILM * area;
}

bool heatup_chamber_open(heatup_chamber *chamber, const fv_vessel *vessel, const steady_net_opening *openings,
                         heatup_chamber_house *house)
{
    const fv_plant *plant = house->plant;
    *chamber = (heatup_chamber){.vessel = vessel,
                                .openings = openings,
                                .opening_count = (int)vessel->opening_count,
                                .sat = fv_sat_line(),
                                .prepared = NAN};
    const size_t errors = fv_faults_errors(house->faults);
    chamber->apart = calloc(vessel->opening_count + 2, sizeof *chamber->apart);
    if (!chamber->apart || !open_load(chamber, house) || !open_walls(chamber, plant, house->site_pressure)) {
        if (fv_faults_errors(house->faults) == errors)
            fv_error(house->faults, FV_ERR_SYSTEM, vessel->part.loc, "vessel '%s': out of memory", vessel->part.id);
        return false;
    }
    const double shell = vessel->shell.mass.v * vessel->shell.specific_heat.v;
    chamber->shell = isnan(shell) ? 0 : shell;
    chamber->volume = fmax(vessel->volume.v - chamber->solid, GAS_LEAST * vessel->volume.v);
    /* the load has stood in it: gas and load are as cold, or as warm, as each other */
    chamber->t = chamber->load_mass > 0 ? fv_or(vessel->load.start_temperature, plant->site.air.v) : plant->site.air.v;
    chamber->t_end = chamber->t_start = chamber->t;
    chamber->t_shell = plant->site.air.v;
    fv_sat_at_t_point at;
    fv_sat_at_t(chamber->sat, chamber->t, &at);
    chamber->air = fv_air_density(house->site_pressure - at.p, chamber->t) * chamber->volume;
    chamber->film_most = film_most(chamber);
    if (chamber->bed)
        chamber->film = vessel->load.moisture.v * chamber->load_mass; /* its top is wet as long as it is */
    chamber->humidity = 1;
    chamber->depth = fv_or(vessel->water, 0);
    return true;
}

void heatup_chamber_close(heatup_chamber *chamber)
{
    heatup_body_free(chamber->body);
    heatup_bed_free(chamber->bed);
    for (size_t i = 0; i < chamber->wall_count && chamber->walls; i++)
        heatup_wall_heat_free(chamber->walls[i]);
    for (size_t i = 0; i < chamber->wall_count && chamber->bed_walls; i++)
        heatup_wall_heat_free(chamber->bed_walls[i]);
    free(chamber->walls);
    free(chamber->bed_walls);
    free(chamber->apart);
}

typedef struct {
    const heatup_chamber *chamber;
    double t, target;
} ample;

static double over_target(double time, void *context)
{
    const ample *a = context;
    return heatup_body_core_after(a->chamber->body, time, a->t, 0, true) - a->target;
}

/* A melting piece is walked there, so that no stretch is gone over twice. */
static double walk_to_target(const heatup_chamber *chamber, double t, double target)
{
    heatup_body *body = heatup_body_copy(chamber->body);
    double gone = 0, step = 60, part = NAN;
    if (!body)
        return NAN;
    const heatup_chamber walker = {.body = body};
    ample a = {&walker, t, target};
    while (gone < LONGEST && over_target(step, &a) < 0 && heatup_body_advance(body, step, t, t, true) != FV_FAIL) {
        gone += step;
        step = fmax(60, 0.2 * gone);
    }
    const bool found = gone < LONGEST && num_root_between(over_target, &a, 1e-3, step, 0.1, 0, &part) == FV_OK;
    heatup_body_free(body);
    return found ? gone + part : NAN;
}

double heatup_chamber_ample_time(const heatup_chamber *chamber, double t, double target)
{
    ample a = {chamber, t, target};
    double low = 1e-3, high = 60, time;
    if (target >= t)
        return NAN;
    if (!chamber->body || over_target(low, &a) >= 0)
        return 0;
    if (!heatup_body_is_linear(chamber->body))
        return walk_to_target(chamber, t, target);
    while (high < LONGEST && over_target(high, &a) < 0) {
        low = high;
        high *= 2;
    }
    return high < LONGEST && num_root_between(over_target, &a, low, high, 1e-6, 0, &time) == FV_OK ? time : NAN;
}
