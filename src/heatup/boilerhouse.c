/* SPDX-License-Identifier: MIT */
/* Boilers in time. Lit, a boiler first warms its water and steel to the boiling point at the pressure that the network
 * will then have; later changes of that pressure are paid from its output, or give flash steam, as the pressure changes
 * (fv_stored). Fed by hand, it stops when the water above its low-water mark has boiled away. With all vessels shut it
 * goes up to the pressure that its control holds; when no vessel will want steam any more its fire is put out. What it
 * loses with its fire out is not followed. */
#include "heatup/boilerhouse.h"
#include "heatup/actions.h"
#include "heatup/event_queue.h"
#include "heatup/weather.h"

#include <math.h>

static const double SLOW = 1.0;       /* s: no pressure settles faster */
static const double WATER_C = 4190.0; /* J/kg/K */
static const double NOW = 1e-3;       /* s: due within this counts as due */
static const double STEEL_C = 480.0;  /* J/kg/K, CIBSE Guide A */

static double water_mass(const fv_boiler *boiler)
{
    return 1000.0 * fv_or(boiler->water, 0);
}

static double steel_capacity(const fv_boiler *boiler)
{
    return STEEL_C * fv_or(boiler->steel, 0);
}

static double start_temperature(const heatup_run *run, const fv_boiler *boiler)
{
    return fv_or(boiler->start_temperature, fmax(run->context.plant->site.air.v, 273.16));
}

void heatup_boilers_open(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const fv_boiler *boiler = run->context.plant->boilers[i];
        heatup_boiler *b = &run->state.boilers[i];
        *b = (heatup_boiler){.fire = boiler->fire.v,
                             .set_fire = boiler->fire.v,
                             .to_warm = NAN,
                             .stock = INFINITY,
                             .water = water_mass(boiler),
                             .refilled = -1,
                             .capacity = water_mass(boiler) * WATER_C + steel_capacity(boiler)};
        if (fv_word(boiler->feeding) == FV_FEED_BY_HAND)
            b->stock = 1000.0 * fv_or(boiler->usable, fv_or(boiler->water, 0));
        fv_boiler_history *h = &run->result->boilers[i];
        h->steam_up = h->dry = NAN;
    }
}

static double fire_of(const heatup_run *run, size_t i)
{
    return run->context.options->fire * run->state.boilers[i].fire;
}

static bool steams(const heatup_run *run, size_t i)
{
    const heatup_boiler *b = &run->state.boilers[i];
    return b->up && !b->dry && b->fire > 0;
}

/* What is left of the fire after the standing loss, W. */
static double spare(const heatup_run *run, size_t i)
{
    return fire_of(run, i) * run->context.plant->boilers[i]->output.v - run->context.plant->boilers[i]->loss.v;
}

bool heatup_boilers_steaming(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        if (steams(run, i))
            return true;
    return false;
}

bool heatup_boilers_too_cold(const heatup_run *run, double dt)
{
    double lowest = INFINITY;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].state == STEAM_OPEN)
            lowest = fmin(lowest, run->state.back[i].pressure);
    if (isinf(lowest))
        return false;
    const double boils = fv_sat_t(run->context.sat, run->context.site_pressure + lowest, NULL);
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const double lacks = run->state.boilers[i].capacity * (boils - run->state.boilers[i].t_stored);
        if (steams(run, i) && !(lacks > 0 && spare(run, i) * fmax(dt, SLOW) <= 2 * lacks))
            return false;
    }
    return true;
}

static bool anything_open(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].state == STEAM_OPEN)
            return true;
    return false;
}

/* Solves the network as it will stand when every boiler that is lit has come to steam. */
static bool solve_coming(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const heatup_boiler *b = &run->state.boilers[i];
        run->state.fire[i] = b->lit && !b->dry ? fire_of(run, i) : 0;
    }
    fv_conditions c = {.fire = run->state.fire, .valve_open = run->state.valve_open, .chambers = run->state.back};
    heatup_weather_at(run->context.plant, run->state.t, &c.t_air, &c.wind);
    run->state.network_fresh = false;
    run->result->audit.solves++;
    return fv_solve(run->scratch.solver, &c, run->state.network, run->faults) != FV_FAIL;
}

/* Heat that boiler i takes until it steams at a gauge pressure. */
static void warm_up_to(heatup_run *run, size_t i, double pressure)
{
    const fv_boiler *boiler = run->context.plant->boilers[i];
    heatup_boiler *b = &run->state.boilers[i];
    fv_sat_point at;
    fv_sat_at(run->context.sat, run->context.site_pressure + pressure, &at);
    const double t0 = start_temperature(run, boiler);
    fv_sat_at_t_point cold;
    fv_sat_at_t(run->context.sat, t0, &cold);
    b->to_warm = fmax(0, b->water * (at.h_f - cold.h_f) + steel_capacity(boiler) * (at.t - t0));
    b->t_stored = at.t;
}

/* Refill after the last one; NULL: none is to come. */
static const fv_refill *next_refill(const heatup_run *run, size_t i)
{
    const fv_boiler *boiler = run->context.plant->boilers[i];
    const fv_refill *next = NULL;
    for (size_t k = 0; k < boiler->refill_count; k++)
        if (boiler->refills[k]->at.v > run->state.boilers[i].refilled &&
            (!next || boiler->refills[k]->at.v < next->at.v))
            next = boiler->refills[k];
    return next;
}

double heatup_boilers_next_refill(const heatup_run *run)
{
    double first = INFINITY;
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const fv_refill *refill = next_refill(run, i);
        if (refill)
            first = fmin(first, refill->at.v);
    }
    return first;
}

/* Cold water poured in: no steam until the fire has brought it to where the rest stands. */
static void pour(heatup_run *run, size_t i, const fv_refill *refill)
{
    const fv_boiler *boiler = run->context.plant->boilers[i];
    heatup_boiler *b = &run->state.boilers[i];
    const double mass = 1000.0 * refill->volume.v;
    fv_sat_at_t_point cold, hot;
    fv_sat_at_t(run->context.sat, fv_or(refill->temperature, boiler->feed.v), &cold);
    b->water += mass;
    b->stock += mass;
    b->capacity += mass * WATER_C;
    b->dry = false;
    run->result->boilers[i].refilled += mass;
    if (!isnan(b->to_warm)) {
        fv_sat_at_t(run->context.sat, b->t_stored, &hot);
        const double owed = mass * fmax(0, hot.h_f - cold.h_f);
        b->to_warm = b->up ? owed : b->to_warm + owed;
        b->warmed = b->up ? 0 : b->warmed;
        b->up = false;
    }
    run->state.switched = true;
    run->state.network_fresh = false;
    heatup_event(run, run->state.t, FV_HEAT_EVENT_REFILLED, (int)i, -1, -1);
}

void heatup_boilers_refill(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        for (size_t k = 0; k < run->context.plant->boilers[i]->refill_count; k++) {
            const fv_refill *refill = run->context.plant->boilers[i]->refills[k];
            if (refill->at.v > run->state.boilers[i].refilled && refill->at.v <= run->state.t + NOW)
                pour(run, i, refill);
        }
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        run->state.boilers[i].refilled = run->state.t + NOW;
}

/* One boiler will steam at the pressure that all of them then bring about; with all vessels shut, or its fire out, at
 * the one that its control holds. */
bool heatup_boilers_light(heatup_run *run)
{
    bool lights = false;
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        heatup_boiler *b = &run->state.boilers[i];
        if (b->lit || run->state.t < fv_or(run->context.plant->boilers[i]->start, 0) - 1e-9)
            continue;
        b->lit = true;
        lights = lights || spare(run, i) > 0;
    }
    const bool open = lights && anything_open(run);
    if (open && !solve_coming(run))
        return false;
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        if (run->state.boilers[i].lit && isnan(run->state.boilers[i].to_warm))
            warm_up_to(run, i,
                       open && spare(run, i) > 0 ? run->state.network->boilers[i].pressure
                                                 : run->context.plant->boilers[i]->holds.v);
    return true;
}

bool heatup_boilers_warming(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const heatup_boiler *b = &run->state.boilers[i];
        if (b->lit && !b->up && !b->dry && spare(run, i) > 0)
            return true;
    }
    return false;
}

double heatup_boilers_next(const heatup_run *run, double dt)
{
    double first = dt;
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const heatup_boiler *b = &run->state.boilers[i];
        if (!b->lit || b->dry)
            continue;
        if (!b->up && spare(run, i) > 0)
            first = fmin(first, fmax(0, (b->to_warm - b->warmed) / spare(run, i)));
        const double use = run->state.network->boilers[i].steam + run->state.network->boilers[i].carried_water;
        if (b->up && use > 0 && isfinite(b->stock))
            first = fmin(first, b->stock / use);
    }
    return first;
}

void heatup_boilers_set(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const heatup_boiler *b = &run->state.boilers[i];
        run->state.fire[i] = steams(run, i) ? fire_of(run, i) : 0;
        run->state.stored[i] = (fv_stored){steams(run, i) ? b->capacity / fmax(dt, SLOW) : 0, b->t_stored};
    }
}

/* With all shut it stands, or climbs to the pressure that is held. */
void heatup_boilers_still(heatup_run *run, double dt)
{
    const bool wanted = heatup_actions_want_steam(run);
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        heatup_boiler *b = &run->state.boilers[i];
        fv_boiler_result *r = &run->state.network->boilers[i];
        *r = (fv_boiler_result){.state = FV_BOILER_OFF};
        b->pays = 0;
        if (!wanted || !steams(run, i))
            continue;
        const double held =
            fv_sat_t(run->context.sat, run->context.site_pressure + run->context.plant->boilers[i]->holds.v, NULL);
        fv_sat_at_t_point at;
        b->pays = fmax(0, fmin(spare(run, i), b->capacity * (held - b->t_stored) / dt));
        fv_sat_at_t(run->context.sat, b->t_stored, &at);
        r->state = FV_BOILER_HOLDING;
        r->pressure = at.p - run->context.site_pressure;
    }
}

static void warm(heatup_run *run, size_t i, double dt)
{
    run->state.boilers[i].warmed += spare(run, i) * dt;
    run->result->split.boiler_startup += spare(run, i) * dt;
}

/* Whether boiler i has all the heat that it steams with, or will have within some seconds. */
static bool is_warm(const heatup_run *run, size_t i, double within)
{
    const heatup_boiler *b = &run->state.boilers[i];
    return b->lit && !b->up && !b->dry && spare(run, i) > 0 &&
           b->to_warm - b->warmed <= spare(run, i) * within + 1e-12 * b->to_warm + 1e-6;
}

/* What it lacks, its water owes to the steam that it makes first. */
static void come_to_steam(heatup_run *run, size_t i, double when)
{
    heatup_boiler *b = &run->state.boilers[i];
    if (b->capacity > 0)
        b->t_stored -= fmax(0, b->to_warm - b->warmed) / b->capacity;
    b->up = run->state.switched = true;
    run->state.network_fresh = false;
    if (!isnan(run->result->boilers[i].steam_up))
        return; /* it is back after a refill */
    run->result->boilers[i].steam_up = when;
    heatup_event(run, when, FV_HEAT_EVENT_STEAM_UP, (int)i, -1, -1);
}

/* Boilers that are lit together come to steam together: one that is a moment behind does not wait for it. */
static void let_steam(heatup_run *run, double when)
{
    bool one = false;
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        one = one || is_warm(run, i, 0);
    for (size_t i = 0; one && i < run->context.plant->boiler_count; i++)
        if (is_warm(run, i, SLOW))
            come_to_steam(run, i, when);
}

static void use_stock(heatup_run *run, size_t i, double dt)
{
    const fv_boiler_result *r = &run->state.network->boilers[i];
    heatup_boiler *b = &run->state.boilers[i];
    const double used = (r->steam + r->carried_water) * dt;
    b->stock -= used;
    if (isfinite(b->stock)) {
        b->water -= used;
        b->capacity -= used * WATER_C;
    }
    run->result->boilers[i].water_most = fmax(run->result->boilers[i].water_most, r->steam + r->carried_water);
    if (b->stock > 1e-9 * fmax(1, water_mass(run->context.plant->boilers[i])))
        return;
    b->dry = run->state.switched = true;
    run->state.network_fresh = false;
    if (isnan(run->result->boilers[i].dry))
        run->result->boilers[i].dry = run->state.t + dt;
    heatup_event(run, run->state.t + dt, FV_HEAT_EVENT_DRY, (int)i, -1, -1);
}

/* What water and steel take until they are where the pressure is. Where the network was not solved again it is nothing,
 * for they are there: that the fire then gives more or less is within what a stale network may miss (stale.c). */
static double taken_by_pressure(const heatup_run *run, size_t i, double dt)
{
    const fv_boiler_result *r = &run->state.network->boilers[i];
    const heatup_boiler *b = &run->state.boilers[i];
    const double t = fv_sat_t(run->context.sat, run->context.site_pressure + r->pressure, NULL);
    const double taken = b->capacity * (t - b->t_stored) / fmax(dt, SLOW);
    if (r->state == FV_BOILER_FULL)
        return taken;
    return r->state == FV_BOILER_HOLDING ? fmax(-r->heat, fmin(spare(run, i) - r->heat, taken))
                                         : 0; /* pressed shut by the others */
}

void heatup_boilers_pay(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.plant->boiler_count && run->state.network_fresh; i++)
        run->state.boilers[i].pays =
            run->state.boilers[i].up && !run->state.boilers[i].dry ? taken_by_pressure(run, i, dt) : 0;
}

static bool burns(const heatup_run *run, size_t i)
{
    const heatup_boiler *b = &run->state.boilers[i];
    if (!b->lit || b->dry)
        return false;
    return b->up ? run->state.network->boilers[i].state != FV_BOILER_OFF : spare(run, i) > 0;
}

/* Heat that goes into the water, and what the shell loses, W. */
static double output(const heatup_run *run, size_t i)
{
    const heatup_boiler *b = &run->state.boilers[i];
    if (!burns(run, i))
        return 0;
    return (b->up ? run->state.network->boilers[i].heat + b->pays : spare(run, i)) +
           run->context.plant->boilers[i]->loss.v;
}

double heatup_boiler_fuel(const heatup_run *run, size_t i)
{
    return output(run, i) / run->context.plant->boilers[i]->efficiency.v;
}

static void steam(heatup_run *run, size_t i, double dt)
{
    const fv_boiler_result *r = &run->state.network->boilers[i];
    heatup_boiler *b = &run->state.boilers[i];
    fv_boiler_history *h = &run->result->boilers[i];
    h->heat += r->heat * dt;
    h->steam += r->steam * dt;
    h->water += (r->steam + r->carried_water) * dt;
    h->pressure_most = fmax(h->pressure_most, r->pressure);
    h->steam_most = fmax(h->steam_most, r->steam);
    run->result->split.boiler_stored += b->pays * dt;
    if (b->capacity > 0)
        b->t_stored += b->pays * dt / b->capacity;
    use_stock(run, i, dt);
}

void heatup_boilers_advance(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.plant->boiler_count; i++) {
        const heatup_boiler *b = &run->state.boilers[i];
        const double into = output(run, i), fuel = heatup_boiler_fuel(run, i);
        if (!burns(run, i))
            continue;
        run->result->boilers[i].fuel += fuel * dt;
        run->result->split.boiler_losses += run->context.plant->boilers[i]->loss.v * dt;
        run->result->split.flue += (fuel - into) * dt;
        if (b->up)
            steam(run, i, dt);
        else
            warm(run, i, dt);
    }
    let_steam(run, run->state.t + dt);
}
