/* SPDX-License-Identifier: MIT */
/* What the grower does, when it is due: actions of the file, vessels that start by the clock or after an event. */
#include "heatup/actions.h"
#include "heatup/event_queue.h"
#include "heatup/thermostat.h"
#include "heatup/weather.h"

#include <math.h>

static const double NOW = 1e-3; /* s: due within this counts as due */

void heatup_actions_open(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->action_count; i++) {
        const fv_action *a = run->context.plant->actions[i];
        run->state.actions[i].due = a->after ? NAN : fv_or(a->at, NAN);
    }
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const fv_vessel *v = run->context.plant->vessels[i];
        run->state.vessels[i].state = STEAM_WAITING;
        run->state.vessels[i].opens_at =
            v->start_after || fv_word(v->phase) == FV_PHASE_SHUT ? NAN : fv_or(v->start, 0);
        run->state.back[i] = (fv_chamber){.kind = FV_CHAMBER_SHUT, .gain = 1};
    }
    for (size_t i = 0; i < fv_network_valve_count(run->context.net); i++)
        run->state.valve_open[i] = run->state.valve_set[i] = run->context.net->valves[i].fitting->open.v;
}

/* When a hold that goes on is over. */
static double hold_ends(const heatup_run *run, size_t i)
{
    const heatup_vessel *v = &run->state.vessels[i];
    const bool goes_on = v->holding && heatup_followed(v) && isnan(run->result->vessels[i].hold);
    return goes_on ? v->hold_since + run->context.plant->vessels[i]->hold.v : INFINITY;
}

double heatup_actions_next(const heatup_run *run)
{
    double next = INFINITY;
    for (size_t i = 0; i < run->context.plant->action_count; i++)
        if (!run->state.actions[i].done && !isnan(run->state.actions[i].due))
            next = fmin(next, run->state.actions[i].due);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        if (v->state == STEAM_WAITING && !isnan(v->opens_at))
            next = fmin(next, v->opens_at);
        next = fmin(next, hold_ends(run, i));
    }
    next = fmin(next, heatup_thermostats_due(run));
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        if (!run->state.boilers[i].lit)
            next = fmin(next, fv_or(run->context.plant->boilers[i]->start, 0));
    return next;
}

static void steam_open(heatup_run *run, size_t vessel)
{
    heatup_vessel *v = &run->state.vessels[vessel];
    if (v->state == STEAM_OPEN || v->detached)
        return;
    v->state = STEAM_OPEN;
    v->inactive = false;
    run->state.back[vessel].kind = FV_CHAMBER_COLD;
    run->state.back[vessel].pressure = v->chamber.pressure;
    run->state.switched = true;
    run->state.network_fresh = false;
}

static void steam_shut(heatup_run *run, size_t vessel)
{
    heatup_vessel *v = &run->state.vessels[vessel];
    if (v->state != STEAM_OPEN)
        return;
    v->state = STEAM_SHUT;
    v->falls_since = NAN;
    heatup_chamber_shut(&v->chamber);
    run->state.back[vessel].kind = FV_CHAMBER_SHUT;
    run->state.switched = true;
    run->state.network_fresh = false;
    heatup_event(run, run->state.t, FV_HEAT_EVENT_SHUT, -1, (int)vessel, -1);
}

/* Its load on shelves, or under a lid that is off. */
static void take_out(heatup_run *run, size_t vessel)
{
    heatup_vessel *v = &run->state.vessels[vessel];
    const fv_vessel *of = run->context.plant->vessels[vessel];
    const bool shelves = fv_word(of->cooling) == FV_COOL_SHELVES;
    double air, wind;
    if (!shelves && fv_word(of->lid) != FV_LID_OFF)
        return;
    heatup_weather_at(run->context.plant, run->state.t, &air, &wind);
    air = fv_or(of->shelf_air, fv_or(of->air, air));
    if (heatup_chamber_unload(&v->chamber, air, run->context.site_pressure, run->context.plant->site.air.v, shelves) ==
        FV_FAIL)
        fv_error(run->faults, FV_ERR_SYSTEM, of->part.loc, "vessel '%s': out of memory", of->part.id);
    v->t_before = v->chamber.t;
    v->core = heatup_chamber_core(&v->chamber);
    v->hottest = heatup_chamber_hottest(&v->chamber);
    v->surface = heatup_chamber_surface(&v->chamber);
    v->after_dt = NAN;
}

/* Off the line: for good, its place is free. */
static void detach(heatup_run *run, size_t vessel)
{
    heatup_vessel *v = &run->state.vessels[vessel];
    if (v->detached)
        return;
    if (v->state == STEAM_WAITING)
        v->state = STEAM_SHUT;
    steam_shut(run, vessel);
    v->detached = true;
    heatup_chamber_detach(&v->chamber);
    take_out(run, vessel);
    heatup_event(run, run->state.t, FV_HEAT_EVENT_DETACHED, -1, (int)vessel, -1);
}

static void act(heatup_run *run, size_t i)
{
    const fv_action *a = run->context.plant->actions[i];
    run->state.actions[i].done = true;
    run->state.switched = true;
    run->state.network_fresh = false;
    heatup_event(run, run->state.t, FV_HEAT_EVENT_ACTION, -1, -1, (int)i);
    const int boiler = a->boiler ? fv_plant_boiler_index(run->context.plant, a->boiler) : -1;
    const int valve = a->valve ? fv_network_valve(run->context.net, a->valve) : -1;
    const int vessel = a->vessel ? fv_plant_vessel_index(run->context.plant, a->vessel) : -1;
    if (boiler >= 0 && fv_is_set(a->fire))
        run->state.boilers[boiler].set_fire = a->fire.v;
    if (valve >= 0 && fv_is_set(a->open))
        run->state.valve_set[valve] = a->open.v;
    if (vessel < 0)
        return;
    if (fv_word(a->act) == FV_ACT_DETACH)
        detach(run, (size_t)vessel);
    else if (fv_word(a->act) == FV_ACT_OPEN)
        steam_open(run, (size_t)vessel);
    else if (run->state.vessels[vessel].state == STEAM_WAITING)
        run->state.vessels[vessel].state = STEAM_SHUT; /* shut before it was ever open: it stays so */
    else
        steam_shut(run, (size_t)vessel);
}

static bool due(const heatup_run *run, double time)
{
    return time <= run->state.t + NOW;
}

void heatup_actions_clock(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        if (v->state == STEAM_WAITING && !isnan(v->opens_at) && due(run, v->opens_at))
            steam_open(run, i);
        if (due(run, hold_ends(run, i))) {
            run->result->vessels[i].hold = run->state.t;
            heatup_event(run, run->state.t, FV_HEAT_EVENT_HOLD, -1, (int)i, -1);
            steam_shut(run, i);
            if (fv_word(run->context.plant->vessels[i]->cooling) != FV_COOL_ATTACHED)
                detach(run, i);
        }
    }
}

void heatup_actions_do(heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->action_count; i++)
        if (!run->state.actions[i].done && !isnan(run->state.actions[i].due) && due(run, run->state.actions[i].due))
            act(run, i);
    /* what the above has set going may be due at once */
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].state == STEAM_WAITING && due(run, run->state.vessels[i].opens_at))
            steam_open(run, i);
}

/* Off the steam for good before its hold was done, and too cold to come to its target by its own heat. */
static bool is_given_up(const heatup_run *run, size_t i)
{
    const heatup_vessel *v = &run->state.vessels[i];
    const bool off = v->detached || (v->state == STEAM_SHUT && !heatup_actions_may_open(run, (int)i));
    return off && !v->holding && isnan(run->result->vessels[i].hold) &&
           fmax(v->chamber.t, heatup_chamber_hottest(&v->chamber)) < run->context.plant->vessels[i]->target.v;
}

static double time_of(const fv_vessel_history *h, fv_event_kind kind)
{
    const double times[] = {
        [FV_EVENT_FULL] = h->full, [FV_EVENT_CORE] = h->core, [FV_EVENT_HOLD] = h->hold, [FV_EVENT_COOL] = h->cool};
    return times[kind];
}

/* Whether all vessels but one have had theirs, those that are shut by the file or given up left out. */
static bool all_others_have(const heatup_run *run, fv_event_kind kind, int but)
{
    bool all = true;
    for (size_t i = 0; i < run->result->vessel_count && all; i++) {
        const bool shut = fv_word(run->context.plant->vessels[i]->phase) == FV_PHASE_SHUT;
        all = (int)i == but || shut || !isnan(time_of(&run->result->vessels[i], kind)) || is_given_up(run, i);
    }
    return all;
}

static bool is_about(const heatup_run *run, const char *text, fv_event_kind kind, int index)
{
    int named;
    return text && fv_plant_event(run->context.plant, text, &named) == kind &&
           (named < 0 ? all_others_have(run, kind, index) : named == index);
}

static bool waits(const heatup_run *run, size_t i)
{
    return run->state.vessels[i].state == STEAM_WAITING && isnan(run->state.vessels[i].opens_at) &&
           run->context.plant->vessels[i]->start_after;
}

/* The event of the file that an event of the run is, and whose; false: none that anything waits for. */
static bool event_of(const fv_heat_event *event, fv_event_kind *kind, int *index)
{
    static const struct {
        fv_heat_event_kind in_run;
        fv_event_kind event;
    } events[] = {{FV_HEAT_EVENT_STEAM_UP, FV_EVENT_STEAM}, {FV_HEAT_EVENT_FULL, FV_EVENT_FULL},
                  {FV_HEAT_EVENT_CORE, FV_EVENT_CORE},      {FV_HEAT_EVENT_HOLD, FV_EVENT_HOLD},
                  {FV_HEAT_EVENT_COOL, FV_EVENT_COOL},      {FV_HEAT_EVENT_DETACHED, FV_EVENT_DETACHED}};
    for (size_t i = 0; i < sizeof events / sizeof *events; i++)
        if (events[i].in_run == event->kind) {
            *kind = events[i].event;
            *index = *kind == FV_EVENT_STEAM ? event->boiler : event->vessel;
            return true;
        }
    return false;
}

static void notify(heatup_run *run, fv_event_kind kind, int index, double time)
{
    for (size_t i = 0; i < run->context.plant->action_count; i++) {
        const fv_action *a = run->context.plant->actions[i];
        if (!run->state.actions[i].done && isnan(run->state.actions[i].due) && is_about(run, a->after, kind, index))
            run->state.actions[i].due = time + fv_or(a->delay, 0);
    }
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (waits(run, i) && is_about(run, run->context.plant->vessels[i]->start_after, kind, index))
            run->state.vessels[i].opens_at = time + fv_or(run->context.plant->vessels[i]->start, 0);
}

/* The last has had its own already where those that had not are given up. */
static void notify_given_up(heatup_run *run)
{
    bool any = false;
    for (size_t i = 0; i < run->result->vessel_count; i++)
        any = any || is_given_up(run, i);
    for (fv_event_kind kind = FV_EVENT_FULL; any && kind <= FV_EVENT_COOL; kind++) {
        bool had = false;
        for (size_t i = 0; i < run->result->vessel_count; i++)
            had = had || !isnan(time_of(&run->result->vessels[i], kind));
        if (had)
            notify(run, kind, -1, run->state.t);
    }
}

void heatup_actions_notify(heatup_run *run)
{
    fv_event_kind kind;
    int index;
    for (size_t i = 0; i < run->events.count; i++)
        if (event_of(&run->events.items[i], &kind, &index))
            notify(run, kind, index,
                   run->events.items[i].time +
                       (kind == FV_EVENT_DETACHED ? run->context.plant->vessels[index]->changeover.v : 0));
    notify_given_up(run);
}

bool heatup_actions_listen(const heatup_run *run, fv_event_kind kind, int vessel)
{
    for (size_t i = 0; i < run->context.plant->action_count; i++)
        if (!run->state.actions[i].done && isnan(run->state.actions[i].due) &&
            is_about(run, run->context.plant->actions[i]->after, kind, vessel))
            return true;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (waits(run, i) && is_about(run, run->context.plant->vessels[i]->start_after, kind, vessel))
            return true;
    return false;
}

bool heatup_actions_may_open(const heatup_run *run, int vessel)
{
    for (size_t i = 0; i < run->context.plant->action_count; i++) {
        const fv_action *a = run->context.plant->actions[i];
        if (!run->state.actions[i].done && a->vessel && fv_word(a->act) == FV_ACT_OPEN &&
            (vessel < 0 || fv_plant_vessel_index(run->context.plant, a->vessel) == vessel))
            return true;
    }
    return false;
}

bool heatup_actions_want_steam(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        if (v->state == STEAM_OPEN || (v->state == STEAM_WAITING && !isnan(v->opens_at)) || waits(run, i))
            return true;
    }
    return heatup_actions_may_open(run, -1);
}

bool heatup_actions_stay_shut(const heatup_run *run, size_t vessel)
{
    const heatup_vessel *v = &run->state.vessels[vessel];
    return v->state == STEAM_WAITING && isnan(v->opens_at) && !run->context.plant->vessels[vessel]->start_after &&
           !heatup_actions_may_open(run, (int)vessel);
}
