/* SPDX-License-Identifier: MIT */
/* What a run means for each vessel, when nothing more can come, and what ample steam would do. */
#include "heatup/run.h"
#include "num/root.h"

#include <math.h>

static const double LEVEL_RATE = 2e-6;  /* K/s: a chamber that moves less stands still */
static const double LEVEL_SPAN = 0.1;   /* K between core and chamber when the core has followed */
static const double AIR_SHARE = 0.02;   /* by volume: above it, air is what keeps a supplied chamber down */
static const double LONGEST = 60 * 86400.0; /* s searched for the time with ample steam */

const char *fv_arrival_word(fv_arrival arrival)
{
    static const char *const words[] = {"arrived", "boiling-point", "supply", "air", "no-steam", "dry", "time"};
    return words[arrival];
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

/* The load alone, from its start, in a chamber at the boiling point: one exact step of unknown length. */
double fv_ample_time(const fv_run *run, size_t vessel)
{
    const fv_vessel *v = run->plant->vessels[vessel];
    fv_room room;
    double time = NAN, slope;
    if (!fv_room_open(&room, run->plant, v, run->net->openings + run->net->vessels[vessel].first_opening, run->sat, run->site_pressure,
                      run->faults)) {
        fv_room_close(&room);
        return NAN;
    }
    ample a = {&room, run->t_boil, v->target.v};
    if (room.body) {
        double low = 1e-3, high = 60;
        if (over_target(low, &slope, &a) >= 0)
            time = 0;
        while (isnan(time) && high < LONGEST && over_target(high, &slope, &a) < 0) {
            low = high;
            high *= 2;
        }
        if (isnan(time) && high < LONGEST && fv_root_between(over_target, &a, low, high, low, 1e-6, &time) != FV_OK)
            time = NAN;
    }
    fv_room_close(&room);
    return time;
}

static fv_arrival why_not(const fv_run *run, size_t i)
{
    const fv_vessel_run *v = &run->vessels[i];
    for (size_t k = 0; k < run->plant->boiler_count; k++)
        if (run->boilers[k].dry)
            return FV_NOT_DRY;
    if (run->plant->vessels[i]->target.v >= fv_room_boiling(&v->room, run->site_pressure))
        return FV_NOT_BOILING_POINT;
    if (fv_vessel_steam(run, i) <= 1e-9)
        return FV_NOT_STEAM;
    if (v->trial.drawn > 0 && fv_room_air_share(&v->room) > AIR_SHARE && v->trial.vented > 0.05 * v->step.steam)
        return FV_NOT_AIR;
    return FV_NOT_SUPPLY;
}

static bool stands_still(const fv_vessel_run *v, double dt)
{
    return v->debt <= 0 && fabs(v->room.t - v->t_before) < LEVEL_RATE * dt && fabs(fv_room_core(&v->room) - v->room.t) < LEVEL_SPAN;
}

/* Something is still to come: an action, a start, what was just switched, or steam from a boiler that warms up. */
static bool is_waiting(const fv_run *run)
{
    return run->switched || fv_actions_waiting(run) || fv_boilers_warming(run);
}

bool fv_all_settled(fv_run *run, double dt)
{
    const bool waiting = is_waiting(run);
    bool all = true;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        const fv_vessel_history *h = &run->result->vessels[i];
        const bool never = v->state == STEAM_WAITING && isnan(v->opens_at) && !waiting;
        if (v->asleep || never)
            continue;
        if (v->holding && v->state == STEAM_OPEN)
            all = false;
        else if (v->state == STEAM_SHUT && !isnan(h->hold) && isnan(h->cool))
            all = all && stands_still(v, dt);
        else if (!waiting && !stands_still(v, dt))
            all = false;
        else if (waiting)
            all = false;
    }
    if (!all)
        return false;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        fv_vessel_history *h = &run->result->vessels[i];
        if (v->asleep || v->state == STEAM_WAITING)
            continue;
        v->asleep = true;
        if (v->reached)
            continue;
        h->settles = v->room.t;
        h->arrival = why_not(run, i);
        fv_happen(run, run->t, FV_HAPPENED_SETTLED, -1, (int) i, -1);
    }
    return true;
}

static fv_verdict verdict_of(const fv_vessel *vessel, const fv_vessel_history *h)
{
    if (isnan(h->steam_on) && fv_word(vessel->phase) == FV_PHASE_SHUT)
        return FV_SHUT_OFF;
    const double took = h->core - h->opened;
    if (isnan(took) || took > vessel->within.v)
        return FV_STARVED;
    return h->core_ample > 0 && took > FV_LAGGING_FACTOR * h->core_ample ? FV_LAGGING : FV_FED;
}

void fv_verdicts(fv_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        fv_vessel_history *h = &run->result->vessels[i];
        h->core_ample = fv_ample_time(run, i);
        if (!isnan(v->hold_since))
            h->hold_longest = fmax(h->hold_longest, run->t - v->hold_since);
        h->core_end = fv_room_core(&v->room);
        h->chamber_end = v->room.t;
        if (v->reached) {
            h->arrival = FV_ARRIVED;
        } else if (isnan(h->settles)) {
            const bool out_of_reach = run->plant->vessels[i]->target.v >= run->t_boil;
            h->arrival = out_of_reach ? FV_NOT_BOILING_POINT : isnan(h->steam_on) ? FV_NOT_STEAM : FV_NOT_TIME;
            if (out_of_reach)
                h->settles = run->t_boil;
        }
        h->verdict = verdict_of(run->plant->vessels[i], h);
    }
}
