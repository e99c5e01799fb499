/* SPDX-License-Identifier: MIT */
/* What happens in a step, and when.
 *
 * The core of a piece is known at every moment of a step, so the time when it passes a level is exact for the chamber
 * as stepped. The chamber itself is known as means over steps, taken to lie at their middles and to run straight
 * between them. An event ends the step only where something waits for it; the others are noted when it is taken. */
#include "heatup/events.h"
#include "heatup/actions.h"
#include "heatup/boilerhouse.h"
#include "heatup/dense.h"
#include "heatup/event_queue.h"
#include "heatup/overheat.h"
#include "num/root.h"

#include <math.h>

static const double CLOSE = 1e-3;       /* s: an awaited event is met this much late, so that it has surely happened */
static const double TIME_EXACT = 1e-6;  /* s */
static const double AWAITED_STEP = 1.0; /* s: the step in which an awaited change of a chamber may hide */
static const double AWAITED_ROUGH = 60.0; /* s: the same in a rough run, which need not know when to the half minute */
static const double LACKS_LEAST = 1e-3;   /* K to the boiling point */
static const double FALLEN = 2 * FV_FULL_WITHIN; /* K below the boiling point: no longer full */

typedef struct {
    const heatup_chamber *chamber;
    double t, level;
} crossing;

static double above_level(double part, void *context)
{
    const crossing *c = context;
    return heatup_chamber_core_after(c->chamber, part, c->t) - c->level;
}

static bool crossed(double now, double then, bool rising)
{
    return rising ? now < 0 && then >= 0 : now >= 0 && then < 0;
}

/* Core at the end of a step with the chamber as tried; NaN: no piece. */
static double core_after(heatup_vessel *v, double dt)
{
    if (v->after_dt == dt && v->after_t == v->trial.t)
        return v->core_after;
    v->after_dt = dt;
    v->after_t = v->trial.t;
    v->core_after = heatup_chamber_core_after(&v->chamber, dt, v->trial.t);
    return v->core_after;
}

/* A level that everything in the piece and around it is on one side of is not crossed. */
static bool cannot_cross(const heatup_vessel *v, double level, bool rising)
{
    const double mean = heatup_chamber_mean(&v->chamber), t = v->trial.t;
    return rising ? v->core < level && mean < level && t < level : v->core >= level && mean >= level && t >= level;
}

/* s into the step when the core of a piece crosses a level; NaN where it does not. */
static double piece_crosses(heatup_vessel *v, double level, bool rising, double dt)
{
    crossing c = {&v->chamber, v->trial.t, level};
    double part;
    if (cannot_cross(v, level, rising))
        return NAN;
    const double now = v->core - level, then = core_after(v, dt) - level;
    if (isnan(then) || !crossed(now, then, rising))
        return NAN;
    return num_root_between(above_level, &c, 1e-9, dt, TIME_EXACT, 0, &part) == FV_OK ? part : dt;
}

/* The same for a figure of the chamber that was `before` in the middle of the last step and is `now` in that of the
 * coming one; may be a little before the step. */
static double chamber_crosses(const heatup_vessel *v, double before, double now, bool rising, double dt)
{
    if (isnan(before) || !crossed(before, now, rising))
        return NAN;
    const double middle = -0.5 * v->dt_before;
    return middle + before / (before - now) * (0.5 * dt - middle);
}

/* When the load passes its target. */
static double core_crosses(const heatup_run *run, heatup_vessel *v, double dt)
{
    const double target = v->chamber.vessel->target.v;
    const bool rising = !v->holding;
    if (v->chamber.body)
        return piece_crosses(v, target, rising, dt);
    if (v->chamber.bed && !(heatup_chamber_bed_wants(&v->chamber, run->context.site_pressure) > 0))
        return chamber_crosses(v, v->core - target, v->trial.t - target, rising, dt); /* it follows the chamber */
    if (v->chamber.bed)
        return rising && v->step.steam > 0 && fv_sat_t(run->context.sat, run->context.site_pressure, NULL) >= target
                   ? v->trial.through
                   : NAN;
    return chamber_crosses(v, v->t_before - target, v->trial.t - target, rising, dt);
}

/* How far the gas is from counting as full at the end of the trial, K; at or above 0 it is. */
static double from_full(const heatup_run *run, const heatup_vessel *v)
{
    const double boiling = fv_sat_t(run->context.sat, run->context.site_pressure + v->trial.pressure, NULL);
    return v->trial.t_end - boiling + FV_FULL_WITHIN;
}

/* The last of the air is swept out exponentially, and what lacks to the boiling point goes with it. */
static double fills(const heatup_run *run, const heatup_vessel *v, double dt)
{
    const double before = v->from_full_before, now = from_full(run, v);
    if (v->state != STEAM_OPEN || v->counted_full || isnan(before) || !crossed(before, now, true))
        return NAN;
    const double lacked = FV_FULL_WITHIN - before, lacks = fmax(FV_FULL_WITHIN - now, LACKS_LEAST);
    const double from = -v->chamber.behind, to = dt - heatup_chamber_behind(&v->chamber, dt);
    return from + (to - from) * log(lacked / FV_FULL_WITHIN) / log(lacked / lacks);
}

/* An awaited event of the chamber: its step must be short. */
static double awaited(const heatup_run *run, double crosses, double dt)
{
    const double least = run->context.options->fineness < 1 ? AWAITED_ROUGH : AWAITED_STEP;
    return isnan(crosses) || dt <= least ? dt : fmax(least, 0.25 * dt);
}

static double vessel_next(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    const fv_vessel *vessel = run->context.plant->vessels[i];
    double first = dt;
    if (!heatup_followed(v))
        return dt;
    const bool exact = v->chamber.body || v->chamber.bed;
    const double crosses = core_crosses(run, v, dt);
    if (!isnan(crosses) && !v->holding &&
        (crosses + vessel->hold.v < dt || heatup_actions_listen(run, FV_EVENT_CORE, (int)i)))
        first = fmin(first, exact ? crosses + CLOSE : awaited(run, crosses, dt));
    const double filled = fills(run, v, dt);
    if (!isnan(filled) && heatup_actions_listen(run, FV_EVENT_FULL, (int)i))
        first = fmin(first, awaited(run, filled, dt));
    const bool cools = v->state == STEAM_SHUT && !isnan(run->result->vessels[i].hold);
    if (cools && v->chamber.body && heatup_actions_listen(run, FV_EVENT_COOL, (int)i)) {
        const double cooled = piece_crosses(v, vessel->cool.v, false, dt);
        first = isnan(cooled) ? first : fmin(first, cooled + CLOSE);
    }
    return first;
}

double heatup_events_next(heatup_run *run, double dt)
{
    double first = heatup_boilers_next(run, dt);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        first = fmin(first, vessel_next(run, i, dt));
    return first;
}

void heatup_events_find(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        if (!heatup_followed(v))
            continue;
        v->crosses = core_crosses(run, v, dt);
        v->slope = heatup_chamber_core_slope(&v->chamber, v->trial.t);
        v->fills = fills(run, v, dt);
        v->from_full_before = from_full(run, v);
    }
}

/* Lethality over a step in which the core goes evenly: integral of 10^((T - Tref)/z), exact for that. */
static double lethality(double t0, double t1, double reference, double z, double dt)
{
    const double a = log(10) * (t0 - reference) / z, b = log(10) * (t1 - reference) / z;
    return dt * exp(a) * (fabs(b - a) < 1e-8 ? 1 + 0.5 * (b - a) : expm1(b - a) / (b - a));
}

static void core_arrives(heatup_run *run, size_t i, double time)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    v->hold_since = time;
    v->holding = true;
    if (v->reached)
        return;
    v->reached = true;
    h->core = time;
    heatup_event(run, time, FV_HEAT_EVENT_CORE, -1, (int)i, -1);
}

static void core_falls(heatup_run *run, size_t i, double time)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    h->hold_longest = fmax(h->hold_longest, time - v->hold_since);
    v->hold_since = NAN;
    v->holding = false;
    if (!isnan(h->hold) || !isnan(h->hold_broken))
        return;
    h->hold_broken = time;
    heatup_event(run, time, FV_HEAT_EVENT_BROKEN, -1, (int)i, -1);
}

/* s into the step when the core passes the target; where that was not found beforehand, straight between its ends. */
static double passes_target(const heatup_vessel *v, double target, double dt)
{
    const double fell = v->core - v->core_end;
    if (!isnan(v->crosses))
        return fmax(0, fmin(v->crosses, dt));
    if (!v->holding && v->core >= target)
        return 0; /* a load that starts at its target is there from the start */
    return v->holding && v->core_end < target && fell > 0 ? dt * fmax(0, fmin(1, (v->core - target) / fell)) : dt;
}

static void note_core(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    const fv_vessel *vessel = run->context.plant->vessels[i];
    const double core = v->core_end;
    /* no load is counted as there before its own steam is on, however warm it came */
    const double part = fmax(v->to_lines * dt, passes_target(v, vessel->target.v, dt));
    const double middle = v->chamber.body ? heatup_core_within(v, 0.5 * dt, dt) : 0.5 * (v->core + core);
    h->lethality += lethality(v->core, middle, vessel->reference_temperature.v, vessel->z.v, 0.5 * dt) +
                    lethality(middle, core, vessel->reference_temperature.v, vessel->z.v, 0.5 * dt);
    if (v->holding)
        h->hold_sum += core >= vessel->target.v ? dt : part;
    if (!v->holding && core >= vessel->target.v && !isnan(h->steam_on)) {
        h->hold_sum += dt - part;
        core_arrives(run, i, run->state.t + part);
    } else if (v->holding && core < vessel->target.v) {
        core_falls(run, i, run->state.t + part);
    }
}

static void note_full(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    h->pressure_most = fmax(h->pressure_most, v->chamber.pressure);
    h->sump = fmax(h->sump, v->chamber.depth);
    if (v->state != STEAM_OPEN || v->counted_full || !(v->from_full_before >= 0))
        return;
    v->counted_full = true;
    h->full = run->state.t + (isnan(v->fills) ? dt : v->fills);
    heatup_event(run, h->full, FV_HEAT_EVENT_FULL, -1, (int)i, -1);
}

/* Cool after its hold; one whose hold was never done is only no longer followed. */
static void note_cool(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    const double cool = run->context.plant->vessels[i]->cool.v, hottest = heatup_chamber_hottest(&v->chamber);
    if (v->state != STEAM_SHUT || hottest > cool || (v->holding && isnan(h->hold)))
        return;
    v->inactive = !heatup_actions_may_open(run, (int)i);
    if (isnan(h->hold) || !isnan(h->cool))
        return;
    const double part = v->hottest > cool ? (v->hottest - cool) / (v->hottest - hottest) : 1;
    h->cool = run->state.t + part * dt;
    heatup_event(run, h->cool, FV_HEAT_EVENT_COOL, -1, (int)i, -1);
}

/* Starved in the course of the run: once full, its steam no longer covers what its walls took while it stayed so, and
 * its chamber falls. As it falls they take less, and soon give back. */
static void note_starving(heatup_run *run, size_t i)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    if (v->state != STEAM_OPEN || !v->counted_full)
        return;
    const double brought = v->step.steam * (v->step.enthalpy - run->context.h_f_boil),
                 walls = v->trial.heat_walls / v->step.dt;
    const bool falls = v->chamber.t < v->t_before;
    v->walls_full = falls ? fmax(v->walls_full, walls) : walls;
    if (falls && brought < v->walls_full && isnan(v->falls_since))
        v->falls_since = run->state.t;
    if (v->chamber.t > v->t_before)
        v->falls_since = NAN;
    if (v->chamber.t > run->context.t_boil - FALLEN)
        h->starved_since = NAN;
    else if (!isnan(v->falls_since) && isnan(h->starved_since)) {
        h->starved_since = v->falls_since;
        heatup_event(run, v->falls_since, FV_HEAT_EVENT_STARVED, -1, (int)i, -1);
    }
}

static void note_steam(heatup_run *run, size_t i, double dt)
{
    const heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    if (!isnan(h->steam_on) || !(v->step.steam > 0))
        return;
    h->steam_on = run->state.t + v->to_lines * dt;
    heatup_event(run, h->steam_on, FV_HEAT_EVENT_STEAM_ON, -1, (int)i, -1);
}

void heatup_events_after(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        if (!heatup_followed(v))
            continue;
        note_steam(run, i, dt);
        note_core(run, i, dt);
        note_full(run, i, dt);
        note_starving(run, i);
        note_cool(run, i, dt);
        heatup_note_overheating(run, i, dt);
        v->moved = fabs(v->chamber.t - v->t_before);
        v->dt_before = dt;
        v->t_before = v->chamber.t;
        v->core_before = v->core;
        v->core = v->core_end;
        v->after_dt = NAN;
        v->hottest = heatup_chamber_hottest(&v->chamber);
        v->surface = v->surface_end;
        v->takes_before = heatup_vessel_takes(run, i);
    }
}
