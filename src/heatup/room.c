/* SPDX-License-Identifier: MIT */
/* A vessel over a step: what load and walls answer, the balance with a climbing bed or a melting load, water. */
#include "heatup/room.h"

#include <math.h>

enum { THAW_ROUNDS = 12 };
static const double WATER_DENSITY = 960.0; /* kg/m3 near boiling */
static const double MET = 1e-4;            /* K between two guesses: what is left is its square */
static const double GUESS_MOST = 2;        /* K from where the chamber is */
static const double GROWS_MOST = 1.5;      /* from step to step */
static const double STRETCH_MOST = 2;
static const double FREEZES = 274.15; /* K of a chamber: below it water in pieces may */

double heatup_room_bed_wants(const heatup_room *room, double site_pressure)
{
    if (!room->bed || heatup_bed_phase_of(room->bed) == HEATUP_BED_THROUGH)
        return 0;
    return heatup_bed_wants(room->bed, fv_sat_t(room->sat, site_pressure, NULL));
}

static fv_status ask_load(heatup_room *room, double dt, double guess)
{
    room->load_a = room->load_b = 0;
    if (room->bed)
        return heatup_bed_probe_held(room->bed, dt, room->t, &room->load_a, &room->load_b);
    if (!room->body)
        return FV_OK;
    const fv_status status =
        heatup_body_probe_held(room->body, dt, guess, room->steaming, &room->load_a, &room->load_b);
    room->load_a *= room->pieces;
    room->load_b *= room->pieces;
    return status;
}

/* Walls beside the hot part of a climbing bed stand at the steam's temperature, the rest of them at the chamber's. The
 * vessel is taken to be upright: its height is its volume over the bed's area. All the wall's strips answer alike, so
 * that the heat of both parts together is that of one wall at the mean of the two temperatures. */
static void part_walls(heatup_room *room, const heatup_room_step *step)
{
    room->beside = 0;
    room->all_a = room->walls_a;
    room->all_b = room->walls_b;
    if (!(step->steam > 0) || !(heatup_room_bed_wants(room, step->site_pressure) > 0))
        return;
    const fv_load *load = &room->vessel->load;
    const double height = fmax(load->depth.v, room->vessel->volume.v / load->area.v);
    room->beside = fmin(1, heatup_bed_front(room->bed) / height);
    room->walls_a *= 1 - room->beside;
    room->walls_b *= 1 - room->beside;
}

/* What a chamber's rise costs: load and walls, by all that they took for their rise so far, or by what they answer to
 * the coming step; beside the gas. One that cools follows its load. */
static double share_held(const heatup_room *room)
{
    const double rise = fabs(room->t - room->t_start), answers = room->load_b + room->walls_b;
    const double took = rise > 0 ? fmax(answers, fabs(room->gave) / rise) : answers;
    return !(took > 0) ? 0 : room->steaming ? took / (took + fmax(0, room->gas_by_t)) : 1;
}

static double within(double ratio, double most)
{
    return fmax(1 / most, fmin(most, ratio));
}

/* The gas is followed from the moment that it was found for to the one that it will be found for. What then goes out
 * stands for the whole step, whose middle is later where load and walls hold the temperature: at a rate as much higher
 * as it grew of late. */
static double stretch(const heatup_room *room, double dt)
{
    if (!room->steaming || !(room->dt > 0))
        return 1;
    const double followed = room->behind + dt - heatup_room_behind(room, dt);
    double grew = 1;
    if (room->rate > 0 && room->rate_before > 0)
        grew = pow(room->rate / room->rate_before, dt / (room->dt + room->dt_before));
    const double grows = 1 + room->held * (within(grew, GROWS_MOST) - 1);
    return within(followed / (dt * grows), STRETCH_MOST);
}

/* Where the chamber sets its own temperature, the mean over a step is that of its ends, or nearer the second if most of
 * its gas goes meanwhile. Where load and walls do, they hold it at the mean, and gas is at the mean too. */
static void weigh(heatup_room *room, double dt)
{
    room->held = share_held(room);
    room->late = fmax(0.5 * (1 + room->held), heatup_room_late(room->rate * dt));
    room->stretch = stretch(room, dt);
}

fv_status heatup_room_prepare(heatup_room *room, const heatup_room_step *step)
{
    const bool steaming = step->steam > 0;
    if (room->prepared == step->dt && room->steaming == steaming)
        return FV_OK;
    room->prepared = NAN;
    room->steaming = steaming;
    room->walls_a = room->walls_b = 0;
    for (size_t i = 0; i < room->wall_count; i++) {
        const fv_heat_outside outside =
            heatup_room_outside(room->vessel->walls[i], step->t_air, step->wind, step->site_pressure);
        double a, b;
        if (heatup_wall_heat_set_outside(room->walls[i], &outside) == FV_FAIL ||
            heatup_wall_heat_probe_held(room->walls[i], step->dt, &a, &b) == FV_FAIL)
            return FV_FAIL;
        room->walls_a += a;
        room->walls_b += b;
    }
    part_walls(room, step);
    const double goes_on = fmax(-GUESS_MOST, fmin(GUESS_MOST, room->trend * step->dt));
    if (ask_load(room, step->dt, room->t + goes_on) == FV_FAIL)
        return FV_FAIL;
    weigh(room, step->dt);
    room->prepared = step->dt;
    return FV_OK;
}

/* Steam first warms the walls beside the hot part of the bed, then the bed; the chamber gets what comes through. */
static fv_status balance_bed(const heatup_room *room, const heatup_room_step *step, double wants,
                             heatup_room_trial *found)
{
    fv_sat_point at;
    fv_sat_at(room->sat, step->site_pressure, &at);
    const double each = step->enthalpy - at.h_f, brought = step->steam * step->dt * each;
    const double beside = fmin(room->beside * (room->all_a + room->all_b * at.t), brought);
    const double taken = fmin(brought - beside, wants);
    heatup_room_step above = *step;
    above.steam = (brought - beside - taken) / (each * step->dt);
    if (heatup_room_solve(room, &above, found, found) != FV_OK)
        return FV_FAIL;
    const double kept = step->steam - above.steam;
    found->h_f = (kept * at.h_f + above.steam * found->h_f) / step->steam;
    found->heat_load = taken;
    found->heat_walls += beside;
    found->in_bed = kept * step->dt;
    found->condensate += found->in_bed;
    found->through = taken == wants ? step->dt * (beside + taken) / brought : NAN;
    found->t_beside = room->beside > 0 && room->all_b > 0 ? (beside / room->beside - room->all_a) / room->all_b : at.t;
    return FV_OK;
}

fv_status heatup_room_balance(heatup_room *room, const heatup_room_step *step, heatup_room_trial *found)
{
    const double wants = step->steam > 0 ? heatup_room_bed_wants(room, step->site_pressure) : 0;
    if (wants > 0)
        return balance_bed(room, step, wants, found);
    if (heatup_room_solve(room, step, found, found) != FV_OK)
        return FV_FAIL;
    /* What melts does not answer in a straight line: ask again about the temperature found. */
    const bool linear = !room->body || (heatup_body_is_linear(room->body) && found->t > FREEZES);
    for (int i = 0; i < THAW_ROUNDS && !linear; i++) {
        const double before = found->t;
        if (ask_load(room, step->dt, before) == FV_FAIL || heatup_room_solve(room, step, found, found) != FV_OK)
            return FV_FAIL;
        if (fabs(found->t - before) < MET)
            break;
    }
    return FV_OK;
}

/* Of what condenses a film clings; it evaporates first when the steam is off. What condensed in a bed is at hand once
 * its front is through, or the bed cools as a whole. */
static void wet_surfaces(heatup_room *room, double clings, double in_bed)
{
    room->film = fmax(0, fmin(room->film_most, room->film + clings));
    room->in_bed += in_bed;
    if (room->bed && heatup_bed_phase_of(room->bed) != HEATUP_BED_CLIMBING) {
        room->film += room->in_bed;
        room->in_bed = 0;
    }
}

void heatup_room_shut(heatup_room *room)
{
    if (room->bed)
        heatup_bed_begin_cooling(room->bed);
    wet_surfaces(room, 0, 0);
    room->prepared = NAN;
}

/* Condensate gathers on the sump's floor; a drain lets it out by its own head, solved with the depth at the end of the
 * step. */
static void fill_sump(heatup_room *room, const heatup_room_step *step, double condensate)
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

fv_status heatup_room_advance(heatup_room *room, const heatup_room_step *step, const heatup_room_trial *found)
{
    fv_status status = FV_OK;
    if (room->bed) {
        if (step->steam > 0 && heatup_bed_phase_of(room->bed) != HEATUP_BED_THROUGH)
            heatup_bed_give(room->bed, found->heat_load, fv_sat_t(room->sat, step->site_pressure, NULL),
                            room->soaks * step->steam * step->dt);
        else
            status = heatup_bed_advance_held(room->bed, step->dt, room->t, found->t);
    } else if (room->body) {
        status = heatup_body_advance(room->body, step->dt, found->t, found->t, room->steaming);
        if (status != FV_FAIL && heatup_body_settle(room->body) == FV_FAIL)
            status = FV_FAIL;
    }
    const double t_walls = found->t + room->beside * (found->t_beside - found->t);
    for (size_t i = 0; i < room->wall_count; i++)
        if (heatup_wall_heat_advance(room->walls[i], step->dt, t_walls, t_walls) == FV_FAIL)
            status = FV_FAIL;
    wet_surfaces(room, found->condensate - found->in_bed, found->in_bed);
    fill_sump(room, step, fmax(0, found->condensate));
    room->humidity = found->humidity;
    room->trend = (found->t - room->t) / step->dt;
    room->gave += room->load_a + room->walls_a + (room->load_b + room->walls_b) * found->t;
    room->gas_by_t = found->gas_by_t;
    room->behind = heatup_room_behind(room, step->dt);
    room->dt_before = room->dt;
    room->rate_before = room->rate;
    room->dt = step->dt;
    room->rate = found->swept / step->dt;
    room->t = found->t;
    room->t_end = room->t_shell = found->t_end;
    room->pressure = found->pressure;
    room->air = found->air;
    room->prepared = NAN;
    return status;
}

double heatup_room_core(const heatup_room *room)
{
    return room->body ? heatup_body_core(room->body) : room->bed ? heatup_bed_core(room->bed) : room->t;
}

double heatup_room_hottest(const heatup_room *room)
{
    if (room->bed)
        return fmax(heatup_bed_core(room->bed), heatup_bed_mean(room->bed));
    return room->body ? fmax(heatup_body_core(room->body), heatup_body_mean(room->body)) : room->t;
}

double heatup_room_mean(const heatup_room *room)
{
    return room->body ? heatup_body_mean(room->body) : room->bed ? heatup_bed_mean(room->bed) : room->t;
}

double heatup_room_surface(const heatup_room *room)
{
    return room->body ? heatup_body_surface_mean(room->body) : room->bed ? heatup_bed_top(room->bed) : room->t;
}

double heatup_room_core_slope(const heatup_room *room, double t)
{
    return room->body ? heatup_body_core_slope(room->body, t, room->steaming) : NAN;
}

double heatup_room_core_after(const heatup_room *room, double part, double t)
{
    return room->body ? heatup_body_core_after(room->body, part, t, 0, room->steaming) : NAN;
}

double heatup_room_air_share(const heatup_room *room, double t, double pressure, double site_pressure)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(room->sat, t, &at);
    return fmax(0, 1 - room->humidity * at.p / (site_pressure + pressure));
}

double heatup_room_boiling(const heatup_room *room, double site_pressure)
{
    return fv_sat_t(room->sat, site_pressure + room->pressure, NULL);
}

double heatup_room_wall_losses(const heatup_room *room)
{
    double sum = 0;
    for (size_t i = 0; i < room->wall_count; i++)
        sum += heatup_wall_heat_lost(room->walls[i]);
    return sum;
}
