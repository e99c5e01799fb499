/* SPDX-License-Identifier: MIT */
/* Network and chambers agree over a step. The network sees each chamber as a back pressure; each chamber answers the
 * steam it gets with a pressure. They are asked in turn, a chamber's answer being taken in part where its openings are
 * tight against the holes: with a hole drop D and a back pressure p, steam falls by about 1/(2 D) of itself for each Pa
 * and p rises by 2/m of itself, so that 1/(1 + p/D) of the change is Newton's step. */
#include "heatup/moment.h"
#include "heatup/boilerhouse.h"
#include "heatup/stale.h"
#include "heatup/supply.h"
#include "heatup/weather.h"

#include <math.h>
#include <string.h>

enum { ROUNDS_MOST = 30 };
/* All at fineness 1. Two thousandths of a hole's drop are a thousandth of its steam, now more, now less. */
static const double PRESSURE_MATTERS = 2e-3; /* of a hole's drop */

static bool flows(const heatup_run *run)
{
    bool open = false;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        open = open || run->state.vessels[i].state == STEAM_OPEN;
    return open && heatup_boilers_steaming(run);
}

static void still(heatup_run *run, double dt)
{
    fv_steady_result *r = run->state.network;
    memset(r->lines, 0, r->line_count * sizeof *r->lines);
    memset(r->vessels, 0, r->vessel_count * sizeof *r->vessels);
    heatup_boilers_still(run, dt);
    run->state.network_fresh = false;
}

static fv_conditions conditions_of(const heatup_run *run, double air, double wind)
{
    return (fv_conditions){.t_air = air,
                           .wind = wind,
                           .fire = run->state.fire,
                           .valve_open = run->state.valve_open,
                           .chambers = run->state.back,
                           .stored = run->state.stored};
}

static fv_status solve_network(heatup_run *run, double air, double wind)
{
    const fv_conditions c = conditions_of(run, air, wind);
    run->result->audit.solves++;
    if (fv_solve(run->scratch.solver, &c, run->state.network, run->faults) == FV_FAIL)
        return FV_FAIL;
    fv_heat_audit *audit = &run->result->audit;
    audit->worst_mass = fmax(audit->worst_mass, run->state.network->audit.mass_relative);
    audit->worst_energy = fmax(audit->worst_energy, run->state.network->audit.energy_relative);
    heatup_stale_solved(run, air, wind);
    return FV_OK;
}

/* The network when steam first flows: chambers still as they were, boilers neither storing nor giving back. */
static void keep_first(heatup_run *run, double air, double wind)
{
    fv_steady_result *r = fv_steady_result_new(run->context.net);
    fv_conditions c = conditions_of(run, air, wind);
    c.stored = NULL;
    run->result->audit.solves++;
    if (!r)
        fv_error(run->faults, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
    if (r && fv_solve(run->scratch.solver, &c, r, run->faults) != FV_FAIL)
        run->result->at_first_steam = r;
    else
        fv_steady_result_free(r);
}

/* A chamber that stands above all that boilers hold, as one whose gas has just been warmed in little time, is shut to
 * the network: it could only push back. */
static void shut_out(heatup_run *run)
{
    double most = 0;
    for (size_t i = 0; i < run->context.sizes.boilers; i++)
        most = fmax(most, run->context.plant->boilers[i]->holds.v);
    for (size_t i = 0; i < run->context.sizes.vessels; i++) {
        fv_chamber *back = &run->state.back[i];
        if (run->state.vessels[i].state == STEAM_OPEN)
            back->kind = back->pressure < most ? FV_CHAMBER_COLD : FV_CHAMBER_SHUT;
    }
}

/* What the chamber gets over the step. Cold lines take theirs first. */
static void set_step(heatup_run *run, size_t i, double dt, double air, double wind)
{
    heatup_vessel *v = &run->state.vessels[i];
    const fv_vessel *vessel = run->context.plant->vessels[i];
    const double steam = heatup_vessel_steam(run, i);
    const double enthalpy = steam > 0 ? heatup_vessel_enthalpy(run, i) : run->context.h_f_boil;
    const double brought = steam * (enthalpy - run->context.h_f_boil) * dt;
    v->to_lines = !(v->line_heat > 0) ? 0 : v->line_heat >= brought ? 1 : v->line_heat / brought;
    v->step = (heatup_chamber_step){.dt = dt,
                                    .steam = (1 - v->to_lines) * steam,
                                    .enthalpy = enthalpy,
                                    .water = (1 - v->to_lines) * run->state.network->vessels[i].water,
                                    .t_air = v->detached ? fv_or(vessel->air, air) : air,
                                    .wind = fv_vessel_wind(&run->context.plant->site, vessel, wind),
                                    .site_pressure = run->context.site_pressure};
    if (v->detached)
        v->step.wind = fv_or(vessel->wind, v->step.wind);
    if (v->chamber.in_open)
        v->step.t_air = fv_or(vessel->shelf_air, v->step.t_air);
}

/* Largest change of a back pressure, as a part of the hole's drop, after taking the chambers' answers. */
static double take_answers(heatup_run *run)
{
    double largest = 0;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        if (v->state != STEAM_OPEN || !heatup_followed(v))
            continue;
        const double drop = heatup_hole_drop(run, i), answer = v->trial.pressure;
        /* one that gets no steam answers nothing back */
        const double back = v->step.steam > 0 ? fmax(fabs(answer), fabs(run->state.back[i].pressure)) / drop : 0;
        const double part = 1 / (1 + back);
        const double change = part * (answer - run->state.back[i].pressure);
        run->state.back[i].pressure += change;
        largest = fmax(largest, fabs(change) / drop);
    }
    return largest;
}

/* Chambers whose steam has not changed since they were last asked are not asked again. */
static fv_status ask_chambers(heatup_run *run, double dt, double air, double wind, bool first)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        const heatup_chamber_step before = v->step;
        if (v->state == STEAM_WAITING || v->inactive)
            continue;
        set_step(run, i, dt, air, wind);
        v->begun = v->begun || v->step.steam > 0;
        if (!heatup_followed(v))
            continue;
        if (!first && v->step.steam == before.steam && v->step.enthalpy == before.enthalpy)
            continue;
        if (first) {
            v->trial.t_end = v->chamber.t_end;
            v->trial.pressure = v->chamber.pressure;
        }
        if (heatup_chamber_prepare(&v->chamber, &v->step) == FV_FAIL ||
            heatup_chamber_balance(&v->chamber, &v->step, &v->trial) != FV_OK)
            return FV_FAIL;
    }
    return FV_OK;
}

fv_status heatup_moment(heatup_run *run, double dt)
{
    double air, wind;
    heatup_weather_at(run->context.plant, run->state.t + 0.5 * dt, &air, &wind);
    heatup_boilers_set(run, dt);
    const bool moving = flows(run) && !(run->scratch.again && heatup_boilers_too_cold(run, dt));
    if (!moving)
        still(run, dt);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        run->state.back[i].water = run->state.vessels[i].chamber.depth;
    if (moving && !run->result->at_first_steam)
        keep_first(run, air, wind);
    for (int round = 0; round < ROUNDS_MOST; round++) {
        shut_out(run);
        if (moving && heatup_network_stale(run, dt, air, wind) && solve_network(run, air, wind) != FV_OK)
            return FV_FAIL;
        if (ask_chambers(run, dt, air, wind, round == 0) != FV_OK)
            return FV_FAIL;
        if (!moving || take_answers(run) < PRESSURE_MATTERS / run->context.options->fineness)
            return FV_OK;
    }
    return FV_DOUBTFUL;
}
