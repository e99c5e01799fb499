/* SPDX-License-Identifier: MIT */
#include "heatup/room.h"

#include "heatup/load.h"

#include <math.h>
#include <stdlib.h>

enum { THAW_ROUNDS = 12 };
static const double WATER_DENSITY = 960.0; /* kg/m3 near boiling */
/* Gas keeps at least this share of a vessel, however full: the gaps that steam needs. Common practice, no source. */
static const double GAS_LEAST = 0.1;

static bool open_load(fv_room *room, const fv_plant *plant, fv_faults *faults)
{
    const fv_vessel *v = room->vessel;
    fv_text who = {0};
    fv_load_spec spec;
    fv_text_add(&who, "vessel '%s'", v->part.id);
    const fv_status status =
        who.failed ? FV_FAIL : fv_load_spec_of(&v->load, who.text, plant->site.air.v, v->target.v, &spec, faults);
    fv_text_free(&who);
    if (status == FV_FAIL)
        return false;
    room->load_mass = spec.mass;
    room->soaks = spec.mass > 0 ? spec.takes_condensate : 0;
    if (spec.mass <= 0)
        return true;
    if (spec.bed) {
        room->bed = fv_bed_new(&spec.loose);
        return room->bed != NULL;
    }
    room->pieces = spec.pieces;
    room->body = fv_body_new(&spec.piece);
    return room->body != NULL;
}

static fv_heat_outside outside_of(const fv_wall *wall, double t_air, double wind, double site_pressure)
{
    return (fv_heat_outside){.t_air = fv_or(wall->air, t_air),
                             .p_air = site_pressure,
                             .wind = fv_or(wall->wind, wind),
                             .emissivity = wall->emissivity.v,
                             .h_fixed = fv_or(wall->outside, 0)};
}

static fv_wall_heat *open_wall(const fv_plant *plant, const fv_wall *wall, double site_pressure)
{
    fv_heat_layer *layers = calloc(wall->layer_count + 1, sizeof *layers);
    if (!layers)
        return NULL;
    for (size_t i = 0; i < wall->layer_count; i++) {
        const fv_wall_layer *l = wall->layers[i];
        layers[i] = (fv_heat_layer){
            .thickness = l->thickness.v, .k = l->conductivity.v, .rho = l->density.v, .c = l->specific_heat.v};
    }
    const fv_wall_heat_spec spec = {.layers = layers,
                                    .count = wall->layer_count,
                                    .area = wall->area.v,
                                    .height = wall->height.v,
                                    .h_inside = fv_or(wall->inside, 0),
                                    .outside = outside_of(wall, plant->site.air.v, plant->site.wind.v, site_pressure),
                                    .t_start = fv_or(wall->air, plant->site.air.v)};
    fv_wall_heat *made = fv_wall_heat_new(&spec);
    free(layers);
    return made;
}

static bool open_walls(fv_room *room, const fv_plant *plant, double site_pressure)
{
    const fv_vessel *v = room->vessel;
    room->walls = calloc(v->wall_count + 1, sizeof(fv_wall_heat *));
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

bool fv_room_open(fv_room *room, const fv_plant *plant, const fv_vessel *vessel, const fv_net_opening *openings, const fv_sat *sat,
                  double site_pressure, fv_faults *faults)
{
    *room = (fv_room){.vessel = vessel, .openings = openings, .opening_count = (int) vessel->opening_count, .sat = sat};
    const size_t errors = fv_faults_errors(faults);
    if (!open_load(room, plant, faults) || !open_walls(room, plant, site_pressure)) {
        if (fv_faults_errors(faults) == errors)
            fv_error(faults, FV_ERR_SYSTEM, vessel->part.loc, "vessel '%s': out of memory", vessel->part.id);
        return false;
    }
    const double shell = vessel->shell.mass.v * vessel->shell.specific_heat.v;
    room->shell = isnan(shell) ? 0 : shell;
    const double solid = room->body ? room->pieces * fv_load_piece_volume(&vessel->load) : 0;
    const double inside = vessel->volume.v;
    room->volume = fmax(inside - (isnan(solid) ? 0 : solid), GAS_LEAST * inside);
    room->t = plant->site.air.v;
    fv_sat_at_t_point at;
    fv_sat_at_t(sat, room->t, &at);
    room->air = fv_air_density(site_pressure - at.p, room->t) * room->volume;
    room->depth = fv_or(vessel->water, 0);
    return true;
}

void fv_room_close(fv_room *room)
{
    fv_body_free(room->body);
    fv_bed_free(room->bed);
    for (size_t i = 0; i < room->wall_count && room->walls; i++)
        fv_wall_heat_free(room->walls[i]);
    free(room->walls);
}

double fv_room_bed_wants(const fv_room *room, double site_pressure)
{
    if (!room->bed || fv_bed_phase_of(room->bed) != FV_BED_CLIMBING)
        return 0;
    return fv_bed_wants(room->bed, fv_sat_t(room->sat, site_pressure, NULL));
}

static fv_status ask_load(fv_room *room, double dt, double guess)
{
    room->load_a = room->load_b = 0;
    if (room->bed)
        return fv_bed_probe_held(room->bed, dt, room->t, &room->load_a, &room->load_b);
    if (!room->body)
        return FV_OK;
    const fv_status status = fv_body_probe_held(room->body, dt, guess, room->steaming, &room->load_a, &room->load_b);
    room->load_a *= room->pieces;
    room->load_b *= room->pieces;
    return status;
}

fv_status fv_room_prepare(fv_room *room, const fv_room_step *step)
{
    room->steaming = step->steam > 0;
    room->walls_a = room->walls_b = 0;
    for (size_t i = 0; i < room->wall_count; i++) {
        const fv_heat_outside outside = outside_of(room->vessel->walls[i], step->t_air, step->wind, step->site_pressure);
        double a, b;
        if (fv_wall_heat_set_outside(room->walls[i], &outside) == FV_FAIL ||
            fv_wall_heat_probe_held(room->walls[i], step->dt, &a, &b) == FV_FAIL)
            return FV_FAIL;
        room->walls_a += a;
        room->walls_b += b;
    }
    return ask_load(room, step->dt, room->t);
}

/* Steam that a climbing front keeps: none comes above it. */
static fv_status balance_below_front(const fv_room *room, const fv_room_step *step, fv_room_trial *found)
{
    fv_room_step above = *step;
    above.steam = 0;
    if (fv_room_solve(room, &above, found) != FV_OK)
        return FV_FAIL;
    fv_sat_point at;
    fv_sat_at(room->sat, step->site_pressure, &at);
    found->h_f = at.h_f;
    found->heat_load = step->steam * step->dt * (step->enthalpy - at.h_f);
    found->condensate += step->steam * step->dt;
    return FV_OK;
}

fv_status fv_room_balance(fv_room *room, const fv_room_step *step, fv_room_trial *found)
{
    if (step->steam > 0 && fv_room_bed_wants(room, step->site_pressure) > 0)
        return balance_below_front(room, step, found);
    if (fv_room_solve(room, step, found) != FV_OK)
        return FV_FAIL;
    /* What melts does not answer in a straight line: ask again about the temperature found. */
    for (int i = 0; i < THAW_ROUNDS && room->body && !fv_body_is_linear(room->body); i++) {
        const double before = found->t;
        if (ask_load(room, step->dt, before) == FV_FAIL || fv_room_solve(room, step, found) != FV_OK)
            return FV_FAIL;
        if (fabs(found->t - before) < 1e-9)
            break;
    }
    return FV_OK;
}

/* Condensate gathers on the sump's floor; a drain lets it out by its own head, solved with the depth at the end of the step. */
static void fill_sump(fv_room *room, const fv_room_step *step, double condensate)
{
    const fv_vessel *v = room->vessel;
    if (!fv_is_set(v->sump_area))
        return;
    const double area = v->sump_area.v, came = condensate * (1 - room->soaks) + step->water * step->dt;
    double drain = 0;
    for (int j = 0; j < room->opening_count; j++)
        if (room->openings[j].opening->kind == FV_OPENING_DRAIN)
            drain += room->openings[j].cd_area;
    /* area h + dt drain sqrt(2 g h) = what was there + what came, a quadratic in sqrt(h) */
    const double volume = fmax(0, (room->sump + came) / WATER_DENSITY), pull = step->dt * drain * sqrt(2 * FV_GRAVITY);
    const double root = (-pull + sqrt(pull * pull + 4 * area * volume)) / (2 * area);
    const double depth = root * root;
    room->sump = depth * area * WATER_DENSITY;
    room->depth = fv_or(v->water, 0) + depth;
}

fv_status fv_room_advance(fv_room *room, const fv_room_step *step, const fv_room_trial *found)
{
    fv_status status = FV_OK;
    if (room->bed) {
        if (step->steam > 0 && fv_bed_phase_of(room->bed) == FV_BED_CLIMBING)
            fv_bed_give(room->bed, found->heat_load, fv_sat_t(room->sat, step->site_pressure, NULL),
                        room->soaks * step->steam * step->dt);
        else
            status = fv_bed_advance_held(room->bed, step->dt, room->t, found->t);
    } else if (room->body) {
        status = fv_body_advance(room->body, step->dt, found->t, found->t, room->steaming);
    }
    for (size_t i = 0; i < room->wall_count; i++)
        if (fv_wall_heat_advance(room->walls[i], step->dt, found->t, found->t) == FV_FAIL)
            status = FV_FAIL;
    fill_sump(room, step, found->condensate);
    room->t = found->t;
    room->pressure = found->pressure;
    room->air = found->air;
    return status;
}

double fv_room_core(const fv_room *room)
{
    return room->body ? fv_body_core(room->body) : room->bed ? fv_bed_core(room->bed) : room->t;
}

double fv_room_hottest(const fv_room *room)
{
    if (room->bed)
        return fmax(fv_bed_core(room->bed), fv_bed_mean(room->bed));
    return room->body ? fmax(fv_body_core(room->body), fv_body_mean(room->body)) : room->t;
}

double fv_room_surface(const fv_room *room)
{
    return room->body ? fv_body_surface_mean(room->body) : room->bed ? fv_bed_top(room->bed) : room->t;
}

double fv_room_core_after(const fv_room *room, double part, double t)
{
    return room->body ? fv_body_core_after(room->body, part, t, 0, room->steaming) : NAN;
}

double fv_room_air_share(const fv_room *room)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(room->sat, room->t, &at);
    const double air = room->air * 287.05287 * room->t / room->volume;
    return air / (air + at.p);
}

double fv_room_boiling(const fv_room *room, double site_pressure)
{
    return fv_sat_t(room->sat, site_pressure + room->pressure, NULL);
}

double fv_room_wall_losses(const fv_room *room)
{
    double sum = 0;
    for (size_t i = 0; i < room->wall_count; i++)
        sum += fv_wall_heat_lost(room->walls[i]);
    return sum;
}
