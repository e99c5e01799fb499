/* SPDX-License-Identifier: MIT */
#include "heatup/room.h"

#include "heatup/load.h"
#include "num/root.h"

#include <math.h>
#include <stdlib.h>

enum { THAW_ROUNDS = 12 };
static const double FILM = 0.1; /* kg/m2 that clings when the rest has dripped off: common practice, no source */
static const double WATER_DENSITY = 960.0; /* kg/m3 near boiling */
/* Gas keeps at least this share of a vessel, however full: the gaps that steam needs. Common practice, no source. */
static const double GAS_LEAST = 0.1;
static const double FREEZES = 274.15;       /* K of a chamber: below it water in pieces may */
static const double LONGEST = 60 * 86400.0; /* s searched for the time with ample steam */

static fv_body *make_body(const fv_body_spec *spec, fv_room_house *house)
{
    for (size_t i = 0; i < house->body_count; i++)
        if (fv_body_is_of(house->bodies[i], spec))
            return fv_body_copy(house->bodies[i]);
    fv_body *made = fv_body_new(spec);
    if (made)
        house->bodies[house->body_count++] = made;
    return made;
}

static bool open_load(fv_room *room, fv_room_house *house)
{
    const fv_vessel *v = room->vessel;
    fv_text who = {0};
    fv_load_spec spec;
    fv_text_add(&who, "vessel '%s'", v->part.id);
    const fv_status status =
        who.failed ? FV_FAIL
                   : fv_load_spec_of(&v->load, who.text, house->plant->site.air.v, v->target.v, &spec, house->faults);
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
    room->solid = spec.mass / spec.piece.density;
    room->body = make_body(&spec.piece, house);
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

/* A film of a tenth of a millimetre on closed pieces and walls; an open load is wet throughout. */
static double film_most(const fv_room *room)
{
    if (room->bed || room->soaks > 0)
        return INFINITY;
    double area = room->body ? room->pieces * fv_body_area(room->body) : 0;
    for (size_t i = 0; i < room->vessel->wall_count; i++)
        area += room->vessel->walls[i]->area.v;
    return FILM * area;
}

bool fv_room_open(fv_room *room, const fv_vessel *vessel, const fv_net_opening *openings, fv_room_house *house)
{
    const fv_plant *plant = house->plant;
    *room = (fv_room){.vessel = vessel,
                      .openings = openings,
                      .opening_count = (int)vessel->opening_count,
                      .sat = house->sat,
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
    room->t = plant->site.air.v;
    fv_sat_at_t_point at;
    fv_sat_at_t(room->sat, room->t, &at);
    room->air = fv_air_density(house->site_pressure - at.p, room->t) * room->volume;
    room->film_most = film_most(room);
    room->humidity = 1;
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
    if (!room->bed || fv_bed_phase_of(room->bed) == FV_BED_THROUGH)
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

/* Walls beside the hot part of a climbing bed stand at the steam's temperature, the rest of them at the chamber's. The
 * vessel is taken to be upright: its height is its volume over the bed's area. All the wall's strips answer alike, so
 * that the heat of both parts together is that of one wall at the mean of the two temperatures. */
static void part_walls(fv_room *room, const fv_room_step *step)
{
    room->beside = 0;
    room->all_a = room->walls_a;
    room->all_b = room->walls_b;
    if (!(step->steam > 0) || !(fv_room_bed_wants(room, step->site_pressure) > 0))
        return;
    const fv_load *load = &room->vessel->load;
    const double height = fmax(load->depth.v, room->vessel->volume.v / load->area.v);
    room->beside = fmin(1, fv_bed_front(room->bed) / height);
    room->walls_a *= 1 - room->beside;
    room->walls_b *= 1 - room->beside;
}

fv_status fv_room_prepare(fv_room *room, const fv_room_step *step)
{
    const bool steaming = step->steam > 0;
    if (room->prepared == step->dt && room->steaming == steaming)
        return FV_OK;
    room->prepared = NAN;
    room->steaming = steaming;
    room->walls_a = room->walls_b = 0;
    for (size_t i = 0; i < room->wall_count; i++) {
        const fv_heat_outside outside =
            outside_of(room->vessel->walls[i], step->t_air, step->wind, step->site_pressure);
        double a, b;
        if (fv_wall_heat_set_outside(room->walls[i], &outside) == FV_FAIL ||
            fv_wall_heat_probe_held(room->walls[i], step->dt, &a, &b) == FV_FAIL)
            return FV_FAIL;
        room->walls_a += a;
        room->walls_b += b;
    }
    part_walls(room, step);
    if (ask_load(room, step->dt, room->t) == FV_FAIL)
        return FV_FAIL;
    room->prepared = step->dt;
    return FV_OK;
}

/* Steam first warms the walls beside the hot part of the bed, then the bed; the chamber gets what comes through. */
static fv_status balance_bed(const fv_room *room, const fv_room_step *step, double wants, fv_room_trial *found)
{
    fv_sat_point at;
    fv_sat_at(room->sat, step->site_pressure, &at);
    const double each = step->enthalpy - at.h_f, brought = step->steam * step->dt * each;
    const double beside = fmin(room->beside * (room->all_a + room->all_b * at.t), brought);
    const double taken = fmin(brought - beside, wants);
    fv_room_step above = *step;
    above.steam = (brought - beside - taken) / (each * step->dt);
    if (fv_room_solve(room, &above, found, found) != FV_OK)
        return FV_FAIL;
    const double kept = step->steam - above.steam;
    found->h_f = (kept * at.h_f + above.steam * found->h_f) / step->steam;
    found->heat_load = taken;
    found->heat_walls += beside;
    found->condensate += kept * step->dt;
    found->through = taken == wants ? step->dt * (beside + taken) / brought : NAN;
    found->t_beside = room->beside > 0 && room->all_b > 0 ? (beside / room->beside - room->all_a) / room->all_b : at.t;
    return FV_OK;
}

fv_status fv_room_balance(fv_room *room, const fv_room_step *step, fv_room_trial *found)
{
    const double wants = step->steam > 0 ? fv_room_bed_wants(room, step->site_pressure) : 0;
    if (wants > 0)
        return balance_bed(room, step, wants, found);
    if (fv_room_solve(room, step, found, found) != FV_OK)
        return FV_FAIL;
    /* What melts does not answer in a straight line: ask again about the temperature found. */
    const bool linear = !room->body || (fv_body_is_linear(room->body) && found->t > FREEZES);
    for (int i = 0; i < THAW_ROUNDS && !linear; i++) {
        const double before = found->t;
        if (ask_load(room, step->dt, before) == FV_FAIL || fv_room_solve(room, step, found, found) != FV_OK)
            return FV_FAIL;
        if (fabs(found->t - before) < 1e-9)
            break;
    }
    return FV_OK;
}

void fv_room_shut(fv_room *room)
{
    if (room->bed)
        fv_bed_begin_cooling(room->bed);
    room->prepared = NAN;
}

/* Of what condenses a film clings; it evaporates first when the steam is off. */
static void wet_surfaces(fv_room *room, double condensate)
{
    room->film = fmax(0, fmin(room->film_most, room->film + condensate));
}

/* Condensate gathers on the sump's floor; a drain lets it out by its own head, solved with the depth at the end of the
 * step. */
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
        if (step->steam > 0 && fv_bed_phase_of(room->bed) != FV_BED_THROUGH)
            fv_bed_give(room->bed, found->heat_load, fv_sat_t(room->sat, step->site_pressure, NULL),
                        room->soaks * step->steam * step->dt);
        else
            status = fv_bed_advance_held(room->bed, step->dt, room->t, found->t);
    } else if (room->body) {
        status = fv_body_advance(room->body, step->dt, found->t, found->t, room->steaming);
    }
    const double t_walls = found->t + room->beside * (found->t_beside - found->t);
    for (size_t i = 0; i < room->wall_count; i++)
        if (fv_wall_heat_advance(room->walls[i], step->dt, t_walls, t_walls) == FV_FAIL)
            status = FV_FAIL;
    wet_surfaces(room, found->condensate);
    fill_sump(room, step, fmax(0, found->condensate));
    room->humidity = found->humidity;
    room->t = found->t;
    room->pressure = found->pressure;
    room->air = found->air;
    room->prepared = NAN;
    return status;
}

typedef struct {
    const fv_room *room;
    double t, target;
} ample;

static double over_target(double time, double *slope, void *context)
{
    const ample *a = context;
    *slope = 0;
    return fv_body_core_after(a->room->body, time, a->t, 0, true) - a->target;
}

/* A melting piece is walked there, so that no stretch is gone over twice. */
static double walk_to_target(const fv_room *room, double t, double target)
{
    fv_body *body = fv_body_copy(room->body);
    double gone = 0, step = 60, part = NAN, slope;
    if (!body)
        return NAN;
    const fv_room walker = {.body = body};
    ample a = {&walker, t, target};
    while (gone < LONGEST && over_target(step, &slope, &a) < 0 && fv_body_advance(body, step, t, t, true) != FV_FAIL) {
        gone += step;
        step = fmax(60, 0.2 * gone);
    }
    const bool found = gone < LONGEST && fv_root_between(over_target, &a, 1e-3, step, 0.5 * step, 0.1, &part) == FV_OK;
    fv_body_free(body);
    return found ? gone + part : NAN;
}

double fv_room_ample_time(const fv_room *room, double t, double target)
{
    ample a = {room, t, target};
    double low = 1e-3, high = 60, time, slope;
    if (target >= t)
        return NAN;
    if (!room->body || over_target(low, &slope, &a) >= 0)
        return 0;
    if (!fv_body_is_linear(room->body))
        return walk_to_target(room, t, target);
    while (high < LONGEST && over_target(high, &slope, &a) < 0) {
        low = high;
        high *= 2;
    }
    return high < LONGEST && fv_root_between(over_target, &a, low, high, low, 1e-6, &time) == FV_OK ? time : NAN;
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

double fv_room_mean(const fv_room *room)
{
    return room->body ? fv_body_mean(room->body) : room->bed ? fv_bed_mean(room->bed) : room->t;
}

double fv_room_surface(const fv_room *room)
{
    return room->body ? fv_body_surface_mean(room->body) : room->bed ? fv_bed_top(room->bed) : room->t;
}

double fv_room_core_after(const fv_room *room, double part, double t)
{
    return room->body ? fv_body_core_after(room->body, part, t, 0, room->steaming) : NAN;
}

double fv_room_air_share(const fv_room *room, double t, double pressure, double site_pressure)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(room->sat, t, &at);
    return fmax(0, 1 - room->humidity * at.p / (site_pressure + pressure));
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
