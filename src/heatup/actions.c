/* SPDX-License-Identifier: MIT */
/* What the grower does, when it is due: actions of the file, vessels that start by the clock or after an event. */
#include "heatup/run.h"

#include <math.h>

static const double NOW = 1e-3; /* s: due within this counts as due */

void heatup_actions_open(heatup_run *run)
{
    for (size_t i = 0; i < run->plant->action_count; i++) {
        const fv_action *a = run->plant->actions[i];
        run->actions[i].due = a->after ? NAN : fv_or(a->at, NAN);
    }
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        const fv_vessel *v = run->plant->vessels[i];
        run->vessels[i].state = STEAM_WAITING;
        run->vessels[i].opens_at = v->start_after || fv_word(v->phase) == FV_PHASE_SHUT ? NAN : fv_or(v->start, 0);
        run->chambers[i] = (fv_chamber){.kind = FV_CHAMBER_SHUT, .gain = 1};
    }
    for (size_t i = 0; i < fv_network_valve_count(run->net); i++)
        run->valve_open[i] = run->net->valves[i].fitting->open.v;
}

/* When a hold that goes on is over. */
static double hold_ends(const heatup_run *run, size_t i)
{
    const heatup_vessel_run *v = &run->vessels[i];
    const bool goes_on = v->holding && heatup_followed(v) && isnan(run->result->vessels[i].hold);
    return goes_on ? v->hold_since + run->plant->vessels[i]->hold.v : INFINITY;
}

double heatup_actions_next(const heatup_run *run)
{
    double next = INFINITY;
    for (size_t i = 0; i < run->plant->action_count; i++)
        if (!run->actions[i].done && !isnan(run->actions[i].due))
            next = fmin(next, run->actions[i].due);
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        const heatup_vessel_run *v = &run->vessels[i];
        if (v->state == STEAM_WAITING && !isnan(v->opens_at))
            next = fmin(next, v->opens_at);
        next = fmin(next, hold_ends(run, i));
    }
    for (size_t i = 0; i < run->plant->boiler_count; i++)
        if (!run->boilers[i].lit)
            next = fmin(next, fv_or(run->plant->boilers[i]->start, 0));
    return next;
}

static void steam_open(heatup_run *run, size_t vessel)
{
    heatup_vessel_run *v = &run->vessels[vessel];
    if (v->state == STEAM_OPEN)
        return;
    v->state = STEAM_OPEN;
    v->asleep = false;
    run->chambers[vessel].kind = FV_CHAMBER_COLD;
    run->chambers[vessel].pressure = v->chamber.pressure;
    run->switched = true;
    run->state_fresh = false;
}

void heatup_steam_shut(heatup_run *run, size_t vessel)
{
    heatup_vessel_run *v = &run->vessels[vessel];
    if (v->state != STEAM_OPEN)
        return;
    v->state = STEAM_SHUT;
    v->falls_since = NAN;
    heatup_chamber_shut(&v->chamber);
    run->chambers[vessel].kind = FV_CHAMBER_SHUT;
    run->switched = true;
    run->state_fresh = false;
    heatup_happen(run, run->t, FV_HAPPENED_SHUT, -1, (int)vessel, -1);
}

static void act(heatup_run *run, size_t i)
{
    const fv_action *a = run->plant->actions[i];
    run->actions[i].done = true;
    run->switched = true;
    run->state_fresh = false;
    heatup_happen(run, run->t, FV_HAPPENED_ACTION, -1, -1, (int)i);
    const int boiler = a->boiler ? fv_plant_boiler_index(run->plant, a->boiler) : -1;
    const int valve = a->valve ? fv_network_valve(run->net, a->valve) : -1;
    const int vessel = a->vessel ? fv_plant_vessel_index(run->plant, a->vessel) : -1;
    if (boiler >= 0 && fv_is_set(a->fire))
        run->boilers[boiler].fire = a->fire.v;
    if (valve >= 0 && fv_is_set(a->open))
        run->valve_open[valve] = a->open.v;
    if (vessel < 0)
        return;
    if (fv_word(a->act) == FV_ACT_OPEN)
        steam_open(run, (size_t)vessel);
    else if (run->vessels[vessel].state == STEAM_WAITING)
        run->vessels[vessel].state = STEAM_SHUT; /* shut before it was ever open: it stays so */
    else
        heatup_steam_shut(run, (size_t)vessel);
}

static bool due(const heatup_run *run, double time)
{
    return time <= run->t + NOW;
}

void heatup_actions_do(heatup_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        heatup_vessel_run *v = &run->vessels[i];
        if (v->state == STEAM_WAITING && !isnan(v->opens_at) && due(run, v->opens_at))
            steam_open(run, i);
        if (due(run, hold_ends(run, i))) {
            run->result->vessels[i].hold = run->t;
            heatup_happen(run, run->t, FV_HAPPENED_HOLD, -1, (int)i, -1);
            heatup_steam_shut(run, i);
            heatup_actions_hear(run, FV_EVENT_HOLD, -1, (int)i, run->t);
        }
    }
    for (size_t i = 0; i < run->plant->action_count; i++)
        if (!run->actions[i].done && !isnan(run->actions[i].due) && due(run, run->actions[i].due))
            act(run, i);
    /* what the above has set going may be due at once */
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (run->vessels[i].state == STEAM_WAITING && due(run, run->vessels[i].opens_at))
            steam_open(run, i);
}

static bool is_about(const heatup_run *run, const char *text, fv_event_kind kind, int index)
{
    int named;
    return text && fv_plant_event(run->plant, text, &named) == kind && named == index;
}

static bool waits(const heatup_run *run, size_t i)
{
    return run->vessels[i].state == STEAM_WAITING && isnan(run->vessels[i].opens_at) &&
           run->plant->vessels[i]->start_after;
}

void heatup_actions_hear(heatup_run *run, fv_event_kind kind, int boiler, int vessel, double time)
{
    const int index = kind == FV_EVENT_STEAM ? boiler : vessel;
    for (size_t i = 0; i < run->plant->action_count; i++) {
        const fv_action *a = run->plant->actions[i];
        if (!run->actions[i].done && isnan(run->actions[i].due) && is_about(run, a->after, kind, index))
            run->actions[i].due = time + fv_or(a->delay, 0);
    }
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (waits(run, i) && is_about(run, run->plant->vessels[i]->start_after, kind, index))
            run->vessels[i].opens_at = time + fv_or(run->plant->vessels[i]->start, 0);
}

bool heatup_actions_listen(const heatup_run *run, fv_event_kind kind, int vessel)
{
    for (size_t i = 0; i < run->plant->action_count; i++)
        if (!run->actions[i].done && isnan(run->actions[i].due) &&
            is_about(run, run->plant->actions[i]->after, kind, vessel))
            return true;
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (waits(run, i) && is_about(run, run->plant->vessels[i]->start_after, kind, vessel))
            return true;
    return false;
}

bool heatup_actions_may_open(const heatup_run *run, int vessel)
{
    for (size_t i = 0; i < run->plant->action_count; i++) {
        const fv_action *a = run->plant->actions[i];
        if (!run->actions[i].done && a->vessel && fv_word(a->act) == FV_ACT_OPEN &&
            (vessel < 0 || fv_plant_vessel_index(run->plant, a->vessel) == vessel))
            return true;
    }
    return false;
}

bool heatup_actions_want_steam(const heatup_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        const heatup_vessel_run *v = &run->vessels[i];
        if (v->state == STEAM_OPEN || (v->state == STEAM_WAITING && !isnan(v->opens_at)) || waits(run, i))
            return true;
    }
    return heatup_actions_may_open(run, -1);
}
