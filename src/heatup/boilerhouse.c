/* SPDX-License-Identifier: MIT */
/* Boilers in time. Lit, a boiler first warms its water and steel to the boiling point at the pressure that the network will then
 * have; later changes of that pressure are paid from its output, over a minute or as slowly as the network makes them; fed by hand, it stops when the water above its low-water
 * mark has boiled away. */
#include "heatup/run.h"

#include <math.h>
#include <string.h>

static const double PAY_TIME = 60.0;  /* s over which a change of pressure is paid at least */
static const double PAY_MOST = 0.5;   /* of the output */
static const double WATER_C = 4190.0; /* J/kg/K */

static double water_mass(const fv_boiler *boiler)
{
    return 1000.0 * fv_or(boiler->water, 0);
}

static double steel_capacity(const fv_boiler *boiler)
{
    return 480.0 * fv_or(boiler->steel, 0); /* steel, CIBSE Guide A */
}

static double start_temperature(const fv_run *run, const fv_boiler *boiler)
{
    return fv_or(boiler->start_temperature, fmax(run->plant->site.air.v, 273.16));
}

void fv_boilers_open(fv_run *run)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++) {
        const fv_boiler *boiler = run->plant->boilers[i];
        fv_boiler_run *b = &run->boilers[i];
        *b = (fv_boiler_run){.fire = boiler->fire.v, .to_warm = NAN, .stock = INFINITY};
        if (fv_word(boiler->feeding) == FV_FEED_BY_HAND)
            b->stock = 1000.0 * fv_or(boiler->usable, fv_or(boiler->water, 0));
        fv_boiler_history *h = &run->result->boilers[i];
        h->steam_up = h->dry = NAN;
    }
}

bool fv_boilers_steaming(const fv_run *run)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++)
        if (run->boilers[i].up && !run->boilers[i].dry && run->boilers[i].fire > 0)
            return true;
    return false;
}

static bool anything_open(const fv_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (run->vessels[i].state == STEAM_OPEN)
            return true;
    return false;
}

/* Pressure at which boiler i will steam with everything that is open now. With all shut it stands at its control pressure. */
static double coming_pressure(fv_run *run, size_t i)
{
    const fv_plant *plant = run->plant;
    for (size_t k = 0; k < plant->boiler_count; k++)
        run->fire[k] = run->boilers[k].up || k == i ? run->options->fire * run->boilers[k].fire : 0;
    fv_conditions c = {.fire = run->fire, .valve_open = run->valve_open, .chambers = run->chambers};
    fv_weather_at(plant, run->t, &c.t_air, &c.wind);
    run->state_fresh = false;
    run->result->audit.solves++;
    if (!anything_open(run) || fv_solve(run->solver, &c, run->state, run->faults) == FV_FAIL)
        return plant->boilers[i]->holds.v;
    return run->state->boilers[i].pressure;
}

bool fv_boilers_light(fv_run *run)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++) {
        const fv_boiler *boiler = run->plant->boilers[i];
        fv_boiler_run *b = &run->boilers[i];
        if (b->lit || run->t < fv_or(boiler->start, 0) - 1e-9)
            continue;
        b->lit = true;
        fv_sat_point at;
        fv_sat_at(run->sat, run->site_pressure + coming_pressure(run, i), &at);
        const double t0 = start_temperature(run, boiler);
        fv_sat_at_t_point cold;
        fv_sat_at_t(run->sat, t0, &cold);
        b->to_warm = fmax(0, water_mass(boiler) * (at.h_f - cold.h_f) + steel_capacity(boiler) * (at.t - t0));
        b->t_stored = at.t;
    }
    return fv_faults_errors(run->faults) == 0;
}

static double warming_power(const fv_run *run, size_t i)
{
    const fv_boiler *boiler = run->plant->boilers[i];
    return run->options->fire * run->boilers[i].fire * boiler->output.v - boiler->loss.v;
}

bool fv_boilers_warming(const fv_run *run)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++)
        if (run->boilers[i].lit && !run->boilers[i].up && warming_power(run, i) > 0)
            return true;
    return false;
}

double fv_boilers_next(const fv_run *run, double dt)
{
    double first = dt;
    for (size_t i = 0; i < run->plant->boiler_count; i++) {
        const fv_boiler_run *b = &run->boilers[i];
        if (!b->lit || b->dry)
            continue;
        const double power = warming_power(run, i);
        if (!b->up && power > 0)
            first = fmin(first, fmax(0, (b->to_warm - b->warmed) / power));
        const double use = run->state->boilers[i].steam + run->state->boilers[i].carried_water;
        if (b->up && use > 0 && isfinite(b->stock))
            first = fmin(first, b->stock / use);
    }
    return first;
}

/* Heat stored for each K of the boiling point, J/K. */
static double capacity_of(const fv_boiler *boiler)
{
    return water_mass(boiler) * WATER_C + steel_capacity(boiler);
}

/* Time constant of a boiler on an open network, s: its pressure goes with the square of its steam, so that a change of its output by a
 * share x moves its boiling point by 2 x p dT/dp. At its control pressure nothing moves. */
static double slowness(const fv_run *run, size_t i, double output)
{
    const fv_boiler_result *r = &run->state->boilers[i];
    const double p = run->site_pressure + r->pressure, by = 1.0 + 1e-4 * p;
    if (r->state != FV_BOILER_FULL || r->pressure <= 0 || output <= 0)
        return 0;
    const double t_by_p = (fv_sat_t(run->sat, p + by, NULL) - fv_sat_t(run->sat, p, NULL)) / by;
    return capacity_of(run->plant->boilers[i]) * 2 * r->pressure * t_by_p / output;
}

/* Implicit in what it takes, since that lowers the pressure, and so what is owed: without it, output and pressure would swing. */
void fv_boilers_pay(fv_run *run, double dt)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++) {
        const fv_boiler *boiler = run->plant->boilers[i];
        fv_boiler_run *b = &run->boilers[i];
        const bool steams = b->up && !b->dry && b->fire > 0;
        const double fire = run->options->fire * b->fire;
        b->pays = 0;
        if (steams && run->state->boilers[i].steam > 0) {
            const double t = fv_sat_t(run->sat, run->site_pressure + run->state->boilers[i].pressure, NULL);
            const double owed = capacity_of(boiler) * (t - b->t_stored);
            const double slow = slowness(run, i, fire * boiler->output.v);
            const double held_back = boiler->output.v * (fire - run->solved_fire[i]);
            const double most = PAY_MOST * fire * boiler->output.v;
            b->pays = fmax(-most, fmin(most, (owed + slow * held_back) / (slow + fmax(PAY_TIME, dt))));
        }
        b->effective = steams ? fire - b->pays / boiler->output.v : 0;
    }
}

/* A boiler that warms up. */
static void warm(fv_run *run, size_t i, double dt)
{
    const fv_boiler *boiler = run->plant->boilers[i];
    fv_boiler_run *b = &run->boilers[i];
    fv_boiler_history *h = &run->result->boilers[i];
    fv_heat_split *split = &run->result->split;
    const double fire = run->options->fire * b->fire * boiler->output.v, power = warming_power(run, i);
    if (fire <= 0)
        return;
    b->warmed += power * dt;
    h->fuel += fire / boiler->efficiency.v * dt;
    split->boiler_startup += power * dt;
    split->boiler_losses += boiler->loss.v * dt;
    split->flue += (fire / boiler->efficiency.v - fire) * dt;
    if (b->warmed < b->to_warm * (1 - 1e-12) - 1e-6)
        return;
    b->up = run->switched = true;
    run->state_fresh = false;
    h->steam_up = run->t + dt;
    fv_happen(run, h->steam_up, FV_HAPPENED_STEAM_UP, (int) i, -1, -1);
    fv_actions_hear(run, FV_EVENT_STEAM, (int) i, -1, h->steam_up);
}

static void steam(fv_run *run, size_t i, double dt)
{
    const fv_boiler *boiler = run->plant->boilers[i];
    const fv_boiler_result *r = &run->state->boilers[i];
    fv_boiler_run *b = &run->boilers[i];
    fv_boiler_history *h = &run->result->boilers[i];
    fv_heat_split *split = &run->result->split;
    const double into = r->heat + boiler->loss.v + b->pays, fuel = into / boiler->efficiency.v;
    const double capacity = capacity_of(boiler);
    h->fuel += fuel * dt;
    h->heat += r->heat * dt;
    h->steam += r->steam * dt;
    h->water += (r->steam + r->carried_water) * dt;
    h->pressure_most = fmax(h->pressure_most, r->pressure);
    h->steam_most = fmax(h->steam_most, r->steam);
    split->boiler_losses += boiler->loss.v * dt;
    split->boiler_stored += b->pays * dt;
    split->flue += (fuel - into) * dt;
    if (capacity > 0)
        b->t_stored += b->pays * dt / capacity;
    b->stock -= (r->steam + r->carried_water) * dt;
    if (b->stock > 1e-9 * (1000.0 * fv_or(boiler->water, 1)))
        return;
    b->dry = run->switched = true;
    run->state_fresh = false;
    h->dry = run->t + dt;
    fv_happen(run, h->dry, FV_HAPPENED_DRY, (int) i, -1, -1);
}

void fv_boilers_advance(fv_run *run, double dt)
{
    for (size_t i = 0; i < run->plant->boiler_count; i++) {
        fv_boiler_run *b = &run->boilers[i];
        if (!b->lit || b->dry)
            continue;
        if (!b->up)
            warm(run, i, dt);
        else if (b->fire > 0 && run->state->boilers[i].state != FV_BOILER_OFF)
            steam(run, i, dt);
    }
}
