/* SPDX-License-Identifier: MIT */
/* What a run means for each vessel, when nothing more can come, and what ample steam would do. */
#include "heatup/verdicts.h"
#include "heatup/actions.h"
#include "heatup/arrival.h"
#include "heatup/boilerhouse.h"
#include "heatup/lookahead.h"
#include "heatup/event_queue.h"
#include "heatup/thermostat.h"

#include <math.h>

static const double LEVEL_RATE = 2e-6; /* K/s: a chamber that moves less stands still */
static const double LEVEL_SPAN = 0.1;  /* K between core and chamber when the core has followed */
static const double LOAD_RATE = 1e-3;  /* of what walls and steam move: the load takes no more */
static const double NO_HEAT = 1e-3;    /* W: a load that takes less takes nothing, whatever it is measured against */
static const double STILL_STEP = 30;   /* s: what a shorter step shows means nothing */

static bool stands_still(const heatup_vessel *v, double dt)
{
    const double moved = fabs(v->trial.heat_walls) + v->step.steam * dt * 1e6;
    const bool takes = fabs(v->trial.heat_load) > fmax(LOAD_RATE * moved, NO_HEAT * dt);
    return dt >= STILL_STEP && v->moved < LEVEL_RATE * dt && !takes && fabs(v->core - v->chamber.t) < LEVEL_SPAN;
}

/* Whether more may come of a vessel as things are. */
static bool moves(const heatup_vessel *v, double dt)
{
    if (v->state == STEAM_OPEN && !v->inactive && v->to_lines > 0)
        return true; /* its lines warm up */
    if (!heatup_followed(v) || v->stuck || stands_still(v, dt))
        return false;
    return v->state == STEAM_OPEN || heatup_chamber_hottest(&v->chamber) > v->chamber.vessel->cool.v;
}

static void settle(heatup_run *run, size_t i)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    v->inactive = true;
    const bool never_open = isnan(h->steam_on) && v->state == STEAM_SHUT;
    if (v->reached || never_open)
        return;
    const double kept = heatup_thermostats_keep(run, i);
    h->settles = isfinite(kept) ? kept : isnan(v->tends) ? v->chamber.t : v->tends;
    h->arrival = isnan(v->tends) ? heatup_why_not(run, i) : v->tends_for;
    heatup_event(run, run->state.t, FV_HEAT_EVENT_SETTLED, -1, (int)i, -1);
}

bool heatup_all_settled(heatup_run *run, double dt)
{
    if (run->state.switched || isfinite(heatup_actions_next(run)) || isfinite(heatup_boilers_next_refill(run)) ||
        heatup_boilers_warming(run))
        return false;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (moves(&run->state.vessels[i], dt))
            return false;
    /* a chamber that still rises slowly towards its target is waited for */
    heatup_look_ahead(run);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (!run->state.vessels[i].reached && run->state.vessels[i].tends >= run->context.plant->vessels[i]->target.v)
            return false;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].state != STEAM_WAITING && !run->state.vessels[i].inactive)
            settle(run, i);
    return true;
}

static fv_verdict verdict_of(const fv_vessel *vessel, const fv_vessel_history *h)
{
    if (isnan(h->steam_on) && fv_word(vessel->phase) == FV_PHASE_SHUT)
        return FV_SHUT_OFF;
    const double took = h->core - h->opened;
    const bool unheld = !isnan(h->hold_broken) && isnan(h->hold) && h->hold_longest < vessel->hold.v;
    return unheld ? FV_STARVED : fv_verdict_of(took, vessel->within.v);
}

/* A boiler ran dry, and none is left that steams. */
static bool all_dry(const heatup_run *run)
{
    bool any = false;
    for (size_t k = 0; k < run->context.plant->boiler_count; k++)
        any = any || run->state.boilers[k].dry;
    return any && !heatup_boilers_steaming(run);
}

/* The run ended while the core was still on its way, or waiting. */
static void not_yet(heatup_run *run, size_t i, fv_vessel_history *h)
{
    if (run->context.plant->vessels[i]->target.v >= run->context.t_boil) {
        h->arrival = FV_NOT_BOILING_POINT;
        h->settles = run->context.t_boil;
    } else if (all_dry(run)) {
        h->arrival = FV_NOT_DRY;
    } else if (heatup_tends_below(run, i)) {
        h->arrival = run->state.vessels[i].tends_for;
        h->settles = run->state.vessels[i].tends;
        heatup_event(run, run->state.t, FV_HEAT_EVENT_SETTLED, -1, (int)i, -1);
    } else if (run->state.vessels[i].stuck) {
        settle(run, i);
    } else {
        h->arrival = isnan(h->steam_on) ? FV_NOT_STEAM : FV_NOT_TIME;
    }
}

static bool any_unreached(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (!run->state.vessels[i].reached && isnan(run->result->vessels[i].settles))
            return true;
    return false;
}

void heatup_verdicts(heatup_run *run)
{
    if (!run->result->stopped && !run->result->given_up && any_unreached(run))
        heatup_look_ahead(run);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        fv_vessel_history *h = &run->result->vessels[i];
        if (v->holding)
            h->hold_longest = fmax(h->hold_longest, run->state.t - v->hold_since);
        h->core_end = heatup_chamber_core(&v->chamber);
        h->chamber_end = v->chamber.t;
        if (v->reached)
            h->arrival = FV_ARRIVED;
        else if (isnan(h->settles))
            not_yet(run, i, h);
        h->verdict = verdict_of(run->context.plant->vessels[i], h);
    }
}
