/* SPDX-License-Identifier: MIT */
/* What happens in a step, and when. Events with a consequence (a core arrives, lines are paid off, a bed is through, a boiler
 * steams or runs dry) end the step; the others are noted when it is taken. */
#include "heatup/run.h"
#include "num/root.h"

#include <math.h>
#include <stdlib.h>

static const double CLOSE = 1e-3; /* s: an event is met this much late, so that it has surely happened */

void fv_happen(fv_run *run, double time, fv_happening_kind kind, int boiler, int vessel, int action)
{
    fv_heat_result *r = run->result;
    void *list = r->happenings;
    if (!fv_grow(&list, &run->happening_capacity, r->happening_count + 1, sizeof *r->happenings)) {
        fv_error(run->faults, FV_ERR_SYSTEM, run->plant->loc, "out of memory");
        return;
    }
    r->happenings = list;
    r->happenings[r->happening_count++] =
        (fv_happening){.time = time, .kind = kind, .boiler = boiler, .vessel = vessel, .action = action};
}

typedef struct {
    const fv_room *room;
    double t, level;
} crossing;

static double above_level(double part, double *slope, void *context)
{
    const crossing *c = context;
    *slope = 0;
    return fv_room_core_after(c->room, part, c->t) - c->level;
}

/* Part of the step after which the core crosses a level, dt where it does not. rising: from below. */
static double core_crosses(const fv_vessel_run *v, double level, bool rising, double dt)
{
    crossing c = {&v->room, v->trial.t, level};
    double slope, part;
    const double now = fv_room_core(&v->room) - level, then = above_level(dt, &slope, &c);
    if (isnan(then) || (rising ? now >= 0 || then < 0 : now <= 0 || then > 0))
        return dt;
    if (now == 0 || fv_root_between(above_level, &c, 1e-9, dt, 0.5 * dt, 1e-6, &part) != FV_OK)
        return dt;
    return part;
}

static bool waits_for_core(const fv_run *run, size_t i)
{
    return run->vessels[i].state == STEAM_OPEN && !run->vessels[i].asleep && run->vessels[i].room.body;
}

static double vessel_next(fv_run *run, size_t i, double dt)
{
    const fv_vessel_run *v = &run->vessels[i];
    double first = dt;
    if (v->state == STEAM_WAITING || v->asleep)
        return dt;
    const double target = run->plant->vessels[i]->target.v;
    if (waits_for_core(run, i) && !v->holding)
        first = fmin(first, core_crosses(v, target, true, dt) + CLOSE);
    if (waits_for_core(run, i) && v->holding)
        first = fmin(first, core_crosses(v, target, false, dt) + CLOSE);
    if (v->state == STEAM_SHUT && !isnan(run->result->vessels[i].hold) && v->room.body)
        first = fmin(first, core_crosses(v, run->plant->vessels[i]->cool.v, false, dt) + CLOSE);
    const double rate = fv_vessel_steam(run, i) * (fv_vessel_enthalpy(run, i) - run->h_f_boil);
    if (v->debt > 0 && rate > 0)
        first = fmin(first, v->debt / rate);
    else if (rate > 0 && fv_room_bed_wants(&v->room, run->site_pressure) > 0)
        first = fmin(first, fv_room_bed_wants(&v->room, run->site_pressure) / rate);
    return first;
}

double fv_events_next(fv_run *run, double dt)
{
    double first = fv_boilers_next(run, dt);
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        first = fmin(first, vessel_next(run, i, dt));
    return first;
}

/* Lethality over a part of a step in which the core goes evenly: integral of 10^((T - Tref)/z), exact for that. */
static double lethality(double t0, double t1, double reference, double z, double dt)
{
    const double a = log(10) * (t0 - reference) / z, b = log(10) * (t1 - reference) / z;
    return dt * exp(a) * (fabs(b - a) < 1e-8 ? 1 + 0.5 * (b - a) : expm1(b - a) / (b - a));
}

static void note_core(fv_run *run, size_t i, double core, double now)
{
    fv_vessel_run *v = &run->vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    const bool at_target = core >= run->plant->vessels[i]->target.v;
    if (at_target && isnan(v->hold_since)) {
        v->hold_since = now;
        v->holding = true;
        if (!v->reached) {
            v->reached = true;
            h->core = now;
            fv_happen(run, now, FV_HAPPENED_CORE, -1, (int) i, -1);
            fv_actions_hear(run, FV_EVENT_CORE, -1, (int) i, now);
        }
    } else if (!at_target && !isnan(v->hold_since)) {
        h->hold_longest = fmax(h->hold_longest, now - v->hold_since);
        v->hold_since = NAN;
        v->holding = false;
        if (isnan(h->hold) && isnan(h->hold_broken)) {
            h->hold_broken = now;
            fv_happen(run, now, FV_HAPPENED_BROKEN, -1, (int) i, -1);
        }
    }
}

static void note_chamber(fv_run *run, size_t i, double now)
{
    fv_vessel_run *v = &run->vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    h->pressure_most = fmax(h->pressure_most, v->room.pressure);
    h->sump = fmax(h->sump, v->room.depth);
    if (v->state == STEAM_OPEN && !v->counted_full && v->room.t >= fv_room_boiling(&v->room, run->site_pressure) - FV_FULL_WITHIN) {
        v->counted_full = true;
        h->full = now;
        fv_happen(run, now, FV_HAPPENED_FULL, -1, (int) i, -1);
        fv_actions_hear(run, FV_EVENT_FULL, -1, (int) i, now);
    }
    const bool was_held = v->state == STEAM_SHUT && !isnan(h->hold);
    if (was_held && isnan(h->cool) && fv_room_hottest(&v->room) <= run->plant->vessels[i]->cool.v) {
        h->cool = now;
        v->asleep = true;
        fv_happen(run, now, FV_HAPPENED_COOL, -1, (int) i, -1);
        fv_actions_hear(run, FV_EVENT_COOL, -1, (int) i, now);
    }
}

/* Starved in the course of the run: its steam no longer covers what its walls take, its chamber falls, and it is not yet done. */
static void note_starving(fv_run *run, size_t i, double before, double now)
{
    const fv_vessel_run *v = &run->vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    if (v->state != STEAM_OPEN || !v->counted_full || fv_warms_lines(run, i))
        return;
    const double brought = v->step.steam * (v->step.enthalpy - run->h_f_boil) * v->step.dt;
    const bool short_of_steam = v->room.t < before && v->room.t < run->t_boil - 2 * FV_FULL_WITHIN && brought < v->trial.heat_walls;
    if (short_of_steam && isnan(h->starved_since)) {
        h->starved_since = now;
        fv_happen(run, now, FV_HAPPENED_STARVED, -1, (int) i, -1);
    } else if (!short_of_steam && v->room.t > run->t_boil - 2 * FV_FULL_WITHIN) {
        h->starved_since = NAN;
    }
}

void fv_events_after(fv_run *run, double dt)
{
    const double now = run->t + dt;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        fv_vessel_history *h = &run->result->vessels[i];
        if (v->state == STEAM_WAITING || v->asleep)
            continue;
        const fv_vessel *vessel = run->plant->vessels[i];
        const double core = fv_room_core(&v->room);
        if (isnan(h->steam_on) && v->step.steam > 0) {
            h->steam_on = run->t;
            fv_happen(run, run->t, FV_HAPPENED_STEAM_ON, -1, (int) i, -1);
        }
        h->lethality += lethality(v->target_seen, core, vessel->reference_temperature.v, vessel->z.v, dt);
        if (core >= vessel->target.v && v->target_seen >= vessel->target.v)
            h->hold_sum += dt;
        note_core(run, i, core, now);
        note_chamber(run, i, now);
        note_starving(run, i, v->t_before, now);
        v->target_seen = core;
    }
}
