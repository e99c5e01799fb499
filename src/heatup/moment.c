/* SPDX-License-Identifier: MIT */
/* Network and rooms agree over a step. The network sees each chamber as a back pressure; each room answers the steam it gets
 * with a pressure. They are asked in turn, a room's answer being taken in part where its openings are tight against the holes: with a hole
 * drop D and a back pressure p, steam falls by about 1/(2 D) of itself for each Pa and p rises by 2/m of itself, so that 1/(1 + p/D) of
 * the change is Newton's step. The network is asked again only where that matters. */
#include "heatup/run.h"

#include <math.h>
#include <string.h>

enum { ROUNDS_MOST = 30 };
static const double PRESSURE_MATTERS = 2e-4; /* of a hole's drop: a ten-thousandth of the steam */
static const double FIRE_MATTERS = 1e-5;

double fv_vessel_steam(const fv_run *run, size_t vessel)
{
    return run->vessels[vessel].state == STEAM_OPEN ? fmax(0, run->state->vessels[vessel].steam) : 0;
}

double fv_vessel_enthalpy(const fv_run *run, size_t vessel)
{
    return run->state->nodes[run->plant->vessels[vessel]->node].enthalpy;
}

static bool flows(const fv_run *run)
{
    bool open = false;
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        open = open || run->vessels[i].state == STEAM_OPEN;
    return open && fv_boilers_steaming(run);
}

static void still(fv_run *run)
{
    fv_steady_result *r = run->state;
    memset(r->boilers, 0, r->boiler_count * sizeof *r->boilers);
    memset(r->lines, 0, r->line_count * sizeof *r->lines);
    memset(r->vessels, 0, r->vessel_count * sizeof *r->vessels);
    /* Boilers that are up with all shut stand at their control pressure. */
    for (size_t i = 0; i < r->boiler_count; i++) {
        r->boilers[i].pressure = run->plant->boilers[i]->holds.v;
        r->boilers[i].state = run->boilers[i].up && run->boilers[i].fire > 0 && !run->boilers[i].dry ? FV_BOILER_HOLDING : FV_BOILER_OFF;
    }
    run->state_fresh = false;
}

static bool conditions_moved(const fv_run *run, double air, double wind)
{
    if (!run->state_fresh || air != run->solved_air || wind != run->solved_wind)
        return true;
    for (size_t i = 0; i < run->plant->boiler_count; i++)
        if (fabs(run->boilers[i].effective - run->solved_fire[i]) > FIRE_MATTERS)
            return true;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        const fv_chamber *now = &run->chambers[i], *then = &run->solved_chambers[i];
        const double drop = fmax(fabs(run->state->vessels[i].hole_drop), 0.1);
        if (now->kind != then->kind || fabs(now->water - then->water) > 1e-5 ||
            fabs(now->pressure - then->pressure) > PRESSURE_MATTERS * drop)
            return true;
    }
    return false;
}

static fv_status solve_network(fv_run *run, double air, double wind)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++)
        run->fire[i] = run->boilers[i].effective;
    const fv_conditions c = {.t_air = air, .wind = wind, .fire = run->fire, .valve_open = run->valve_open, .chambers = run->chambers};
    run->result->audit.solves++;
    if (fv_solve(run->solver, &c, run->state, run->faults) == FV_FAIL)
        return FV_FAIL;
    fv_heat_audit *audit = &run->result->audit;
    audit->worst_mass = fmax(audit->worst_mass, run->state->audit.mass_relative);
    audit->worst_energy = fmax(audit->worst_energy, run->state->audit.energy_relative);
    memcpy(run->solved_fire, run->fire, run->plant->boiler_count * sizeof(double));
    memcpy(run->solved_chambers, run->chambers, run->plant->vessel_count * sizeof *run->chambers);
    run->solved_air = air;
    run->solved_wind = wind;
    run->state_fresh = true;
    return FV_OK;
}

static void set_step(fv_run *run, size_t i, double dt, double air, double wind)
{
    fv_vessel_run *v = &run->vessels[i];
    const double steam = v->debt > 0 ? 0 : fv_vessel_steam(run, i);
    v->step = (fv_room_step){.dt = dt,
                             .steam = steam,
                             .enthalpy = steam > 0 ? fv_vessel_enthalpy(run, i) : run->h_f_boil,
                             .water = v->debt > 0 ? 0 : run->state->vessels[i].water,
                             .t_air = air,
                             .wind = wind,
                             .site_pressure = run->site_pressure};
}

static bool followed(const fv_vessel_run *v)
{
    return v->state != STEAM_WAITING && !v->asleep;
}

/* Largest change of a back pressure, as a part of the hole's drop, after taking the rooms' answers. */
static double take_answers(fv_run *run)
{
    double largest = 0;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        if (v->state != STEAM_OPEN || v->asleep)
            continue;
        const double drop = fmax(fabs(run->state->vessels[i].hole_drop), 0.1), answer = v->trial.pressure;
        const double part = 1 / (1 + fmax(fabs(answer), fabs(run->chambers[i].pressure)) / drop);
        const double change = part * (answer - run->chambers[i].pressure);
        run->chambers[i].pressure += change;
        largest = fmax(largest, fabs(change) / drop);
    }
    return largest;
}

fv_status fv_moment(fv_run *run, double dt)
{
    double air, wind;
    fv_weather_at(run->plant, run->t + 0.5 * dt, &air, &wind);
    fv_boilers_pay(run, dt);
    const bool moving = flows(run);
    if (!moving)
        still(run);
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        if (!followed(&run->vessels[i]))
            continue;
        run->chambers[i].water = run->vessels[i].room.depth;
        set_step(run, i, dt, air, wind);
        if (fv_room_prepare(&run->vessels[i].room, &run->vessels[i].step) == FV_FAIL)
            return FV_FAIL;
    }
    for (int round = 0; round < ROUNDS_MOST; round++) {
        if (moving && conditions_moved(run, air, wind) && solve_network(run, air, wind) != FV_OK)
            return FV_FAIL;
        for (size_t i = 0; i < run->plant->vessel_count; i++) {
            fv_vessel_run *v = &run->vessels[i];
            if (!followed(v))
                continue;
            set_step(run, i, dt, air, wind);
            if (fv_room_balance(&v->room, &v->step, &v->trial) != FV_OK)
                return FV_FAIL;
        }
        if (!moving || take_answers(run) < PRESSURE_MATTERS)
            return FV_OK;
    }
    return FV_DOUBTFUL;
}
