/* SPDX-License-Identifier: MIT */
/* A thermostat begins switched on, switches off where what it feels reaches its upper limit, and on again down at its
 * lower one; before least-on and least-off are over it waits, and then switches if that still holds. The step ends
 * within EXACT of where the temperature passes the limit. The core of a piece is known at every moment of a step; a
 * chamber is followed in steps that are a part of the band, and found at their ends as it is between them (dense.c).
 *
 * What actions do meanwhile to a fire or valve that a thermostat holds is kept, and counts once it lets go. */
#include "heatup/thermostat.h"
#include "heatup/dense.h"
#include "heatup/event_queue.h"

#include <math.h>

static const double EXACT = 0.05; /* s */
static const double NOW = 1e-3;   /* s: due within this counts as due */
static const double PART = 0.2;   /* of the band, that a chamber may go in a step */
static const double LOOK = 14400; /* s between two looks at what cores do meanwhile */
static const double STUCK = 100;  /* times what a core moved between two looks, which are missing to its target */
enum { CYCLES_LEAST = 5 };
static const double AFRESH = 20; /* s: the first step after it has switched */

static const fv_thermostat *of(const heatup_run *run, size_t i)
{
    return run->context.plant->thermostats[i];
}

static const heatup_vessel *feels(const heatup_run *run, size_t i)
{
    return &run->state.vessels[of(run, i)->vessel_index];
}

static bool in_force(const heatup_run *run, size_t i, double now)
{
    return now >= of(run, i)->from.v - NOW && now < fv_or(of(run, i)->until, INFINITY) - NOW;
}

static double sensed_now(const heatup_run *run, size_t i)
{
    const heatup_vessel *v = feels(run, i);
    return of(run, i)->of_core ? v->core : v->chamber.t;
}

void heatup_thermostats_open(heatup_run *run)
{
    for (size_t i = 0; i < run->context.sizes.thermostats; i++) {
        const char *valve = of(run, i)->valve;
        run->state.thermostats[i] =
            (heatup_thermostat){.on = true,
                                .since = NAN,
                                .sensed = sensed_now(run, i),
                                .valve = valve ? fv_network_valve(run->context.net, valve) : -1};
        run->result->thermostats[i] =
            (fv_thermostat_history){.first_off = NAN, .last_off = NAN, .least = NAN, .most = NAN};
    }
}

/* s from when it may switch again. */
static double ready(const heatup_run *run, size_t i)
{
    const heatup_thermostat *s = &run->state.thermostats[i];
    return s->since + (s->on ? of(run, i)->least_on.v : of(run, i)->least_off.v);
}

/* K beyond the limit that it switches at next. */
static double beyond(const heatup_run *run, size_t i, double t)
{
    return run->state.thermostats[i].on ? t - of(run, i)->above.v : of(run, i)->below.v - t;
}

static void flip(heatup_run *run, size_t i)
{
    heatup_thermostat *s = &run->state.thermostats[i];
    fv_thermostat_history *h = &run->result->thermostats[i];
    s->on = !s->on;
    s->since = run->state.t;
    if (!s->on) {
        h->on_until_last = h->on;
        h->last_off = run->state.t;
        if (!isnan(h->first_off)) {
            h->cycles++;
        } else {
            h->first_off = h->last_off;
            h->on_until_first = h->on;
        }
    }
    run->state.dt = fmin(run->state.dt, AFRESH / run->context.options->fineness);
    heatup_event(run, run->state.t, s->on ? FV_HEAT_EVENT_SWITCHED_ON : FV_HEAT_EVENT_SWITCHED_OFF, -1, -1, (int)i);
}

static void set(heatup_run *run, double *place, double to)
{
    if (*place == to)
        return;
    *place = to;
    run->state.switched = true;
    run->state.network_fresh = false;
}

/* Fires and valves as the thermostats in force say, else as file and actions do. */
static void apply(heatup_run *run)
{
    const heatup_sizes *n = &run->context.sizes;
    for (size_t i = 0; i < n->boilers; i++) {
        double fire = run->state.boilers[i].set_fire;
        for (size_t k = 0; k < n->thermostats; k++)
            if (run->state.thermostats[k].in_force && of(run, k)->boiler_index == (int)i)
                fire = run->state.thermostats[k].on ? fv_or(of(run, k)->fire, run->context.plant->boilers[i]->fire.v)
                                                    : of(run, k)->else_fire.v;
        set(run, &run->state.boilers[i].fire, fire);
    }
    for (size_t i = 0; i < n->valves; i++) {
        double open = run->state.valve_set[i];
        for (size_t k = 0; k < n->thermostats; k++)
            if (run->state.thermostats[k].in_force && run->state.thermostats[k].valve == (int)i)
                open = run->state.thermostats[k].on
                           ? fv_or(of(run, k)->open, run->context.net->valves[i].fitting->open.v)
                           : of(run, k)->else_open.v;
        set(run, &run->state.valve_open[i], open);
    }
}

void heatup_thermostats_do(heatup_run *run)
{
    for (size_t i = 0; i < run->context.sizes.thermostats; i++) {
        heatup_thermostat *s = &run->state.thermostats[i];
        const bool was = s->in_force;
        s->in_force = in_force(run, i, run->state.t);
        if (s->in_force && !was)
            s->since = run->state.t;
        if (s->in_force && run->state.t >= ready(run, i) - NOW && beyond(run, i, s->sensed) >= -fabs(s->rate) * EXACT)
            flip(run, i);
    }
    apply(run);
}

static double sooner(const heatup_run *run, double first, double time)
{
    return time > run->state.t + NOW ? fmin(first, time) : first;
}

double heatup_thermostats_due(const heatup_run *run)
{
    double first = INFINITY;
    for (size_t i = 0; i < run->context.sizes.thermostats; i++)
        first = sooner(run, sooner(run, first, of(run, i)->from.v), fv_or(of(run, i)->until, INFINITY));
    return first;
}

double heatup_thermostats_ready(const heatup_run *run)
{
    double first = INFINITY;
    for (size_t i = 0; i < run->context.sizes.thermostats; i++)
        if (run->state.thermostats[i].in_force)
            first = sooner(run, first, ready(run, i));
    return first;
}

bool heatup_thermostat_would_switch(const heatup_run *run, size_t i, double tends)
{
    return run->state.t < fv_or(of(run, i)->until, INFINITY) && beyond(run, i, tends) >= 0;
}

/* What it feels a part into the step just tried. */
static double sensed_at(const heatup_run *run, size_t i, double part, double dt)
{
    const heatup_vessel *v = feels(run, i);
    if (!heatup_followed(v))
        return run->state.thermostats[i].sensed;
    if (!of(run, i)->of_core)
        return heatup_chamber_within(run, v, part, dt);
    if (v->chamber.body)
        return heatup_chamber_core_after(&v->chamber, part, v->trial.t);
    return run->state.thermostats[i].sensed + run->state.thermostats[i].rate * part;
}

/* s into the step when it reaches its limit: straight between the ends, which comes to it from one side or the other as
 * the step is tried again shorter, or another follows it. */
static double reaches(const heatup_run *run, size_t i, double dt)
{
    const double lacks = -beyond(run, i, run->state.thermostats[i].sensed);
    const double over = beyond(run, i, sensed_at(run, i, dt, dt));
    if (!(lacks > 0) || !(over > 0))
        return dt;
    const double part = dt * lacks / (lacks + over);
    return dt - part > EXACT ? fmax(part, 0.5 * EXACT) : dt;
}

double heatup_thermostats_next(const heatup_run *run, double dt)
{
    double first = dt;
    for (size_t i = 0; i < run->context.sizes.thermostats; i++)
        if (run->state.thermostats[i].in_force && run->state.t >= ready(run, i) - NOW)
            first = fmin(first, reaches(run, i, dt));
    return first;
}

double heatup_thermostats_step(const heatup_run *run, size_t vessel)
{
    double most = INFINITY;
    for (size_t i = 0; i < run->context.sizes.thermostats; i++)
        if (run->state.thermostats[i].in_force && !of(run, i)->of_core && of(run, i)->vessel_index == (int)vessel)
            most = fmin(most, PART * (of(run, i)->above.v - of(run, i)->below.v));
    return most;
}

double heatup_thermostats_keep(const heatup_run *run, size_t vessel)
{
    double most = INFINITY;
    for (size_t i = 0; i < run->context.sizes.thermostats; i++)
        if (run->state.thermostats[i].in_force && !fv_is_set(of(run, i)->until) && !of(run, i)->of_core &&
            of(run, i)->vessel_index == (int)vessel &&
            of(run, i)->above.v <= run->context.plant->vessels[vessel]->target.v)
            most = fmin(most, of(run, i)->above.v);
    return most;
}

void heatup_thermostats_look(heatup_run *run)
{
    bool cycles = false;
    for (size_t i = 0; i < run->context.sizes.thermostats; i++)
        cycles = cycles || (run->state.thermostats[i].in_force && run->result->thermostats[i].cycles > CYCLES_LEAST);
    if (!cycles || run->state.t < run->state.kept_looked + LOOK)
        return;
    run->state.kept_looked = run->state.t;
    for (size_t i = 0; i < run->context.sizes.vessels; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        const double lacks = run->context.plant->vessels[i]->target.v - v->core, moved = fabs(v->core - v->core_looked);
        v->stuck = v->state == STEAM_OPEN && !v->reached && lacks > STUCK * moved;
        v->core_looked = v->core;
    }
}

void heatup_thermostats_after(heatup_run *run, double dt)
{
    for (size_t i = 0; i < run->context.sizes.thermostats; i++) {
        heatup_thermostat *s = &run->state.thermostats[i];
        fv_thermostat_history *h = &run->result->thermostats[i];
        const heatup_vessel *v = feels(run, i);
        const double before = s->sensed;
        if (heatup_followed(v))
            s->sensed = of(run, i)->of_core ? v->core_end : heatup_chamber_within(run, v, dt, dt);
        s->rate = (s->sensed - before) / dt;
        if (!s->in_force)
            continue;
        h->in_force += dt;
        h->on += s->on ? dt : 0;
        if (!isnan(h->first_off) && v->state == STEAM_OPEN) {
            h->least = fmin(isnan(h->least) ? INFINITY : h->least, s->sensed);
            h->most = fmax(isnan(h->most) ? -INFINITY : h->most, s->sensed);
        }
    }
}

double fv_thermostat_duty(const fv_thermostat_history *history)
{
    if (!history || history->cycles == 0)
        return NAN;
    return (history->on_until_last - history->on_until_first) / (history->last_off - history->first_off);
}
