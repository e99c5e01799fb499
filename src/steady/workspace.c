/* SPDX-License-Identifier: MIT */
#include "steady/workspace.h"
#include "steady/need.h"
#include "steady/solver.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>

enum { HELD_ROUNDS = 12 };
static const double HELD_TOLERANCE = 1e-3;   /* Pa: of a holding chamber between its balance and the network */
static const double TARGET_TOLERANCE = 1e-6; /* K */

static fv_phase phase_of(const fv_vessel *vessel, int phase)
{
    const fv_phase own = (fv_phase)fv_word(vessel->phase);
    return phase < 0 || own == FV_PHASE_SHUT ? own : (fv_phase)phase;
}

steady_holding steady_workspace_holding(const steady_workspace *d, size_t i)
{
    return (steady_holding){.plant = d->plant,
                            .vessel = d->plant->vessels[i],
                            .sat = d->sat,
                            .openings = d->net->openings + d->net->vessels[i].first_opening,
                            .opening_count = d->net->vessels[i].opening_count,
                            .site_pressure = d->net->site_pressure,
                            .t_air = d->plant->site.air.v};
}

static void set_chambers(steady_workspace *d, int phase)
{
    fv_sat_point at;
    fv_sat_at(d->sat, d->net->site_pressure, &at);
    for (size_t i = 0; i < d->plant->vessel_count; i++) {
        const fv_vessel *v = d->plant->vessels[i];
        d->chambers[i] = (fv_chamber){.gain = 1, .density = at.rho_g, .water = fv_or(v->water, 0)};
        switch (phase_of(v, phase)) {
        case FV_PHASE_HEATING:
            d->chambers[i].kind = FV_CHAMBER_COLD;
            break;
        case FV_PHASE_HOLDING:
            d->chambers[i].kind = FV_CHAMBER_VENTED;
            d->chambers[i].condenses = steady_uptake(d->plant, v, at.t) / (at.h_g - at.h_f);
            d->holds[i] = steady_workspace_holding(d, i);
            break;
        case FV_PHASE_SHUT:
            d->chambers[i].kind = FV_CHAMBER_SHUT;
            break;
        }
    }
}

bool steady_workspace_open(steady_workspace *d, const fv_plant *plant, const fv_sat *sat, int phase, fv_faults *faults)
{
    *d = (steady_workspace){.plant = plant, .sat = sat, .steps_left = INT_MAX};
    d->net = fv_network_new(plant, sat, faults);
    if (!d->net)
        return false;
    d->solver = fv_solver_new(d->net);
    d->fire = calloc(plant->boiler_count + 1, sizeof *d->fire);
    d->chambers = calloc(plant->vessel_count + 1, sizeof *d->chambers);
    d->needs = calloc(plant->vessel_count + 1, sizeof *d->needs);
    d->holds = calloc(plant->vessel_count + 1, sizeof *d->holds);
    d->held = calloc(plant->vessel_count + 1, sizeof *d->held);
    if (!d->solver || !d->fire || !d->chambers || !d->needs || !d->holds || !d->held) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return false;
    }
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (fv_vessel_need_of(plant, plant->vessels[i], sat, &d->needs[i], faults) == FV_FAIL)
            return false;
    set_chambers(d, phase);
    return true;
}

void steady_workspace_close(steady_workspace *d)
{
    fv_solver_free(d->solver);
    fv_network_free(d->net);
    steady_predictor_free(d->predictor);
    free(d->fire);
    free(d->chambers);
    free(d->needs);
    free(d->holds);
    free(d->held);
}

/* Chambers that hold as the steam that came makes them. True: the network must be asked again. */
static bool settle_chambers(steady_workspace *d, const fv_steady_result *r)
{
    bool moved = false;
    for (size_t i = 0; i < r->vessel_count; i++) {
        const fv_vessel_result *v = &r->vessels[i];
        fv_chamber *c = &d->chambers[i];
        steady_held *held = &d->held[i];
        const double h_v = r->nodes[d->net->plant_node[d->net->vessels[i].node]].enthalpy;
        if (!d->holds[i].vessel || steady_hold_with(&d->holds[i], fmax(v->steam, 0), h_v, held) != FV_OK)
            continue;
        fv_chamber next = {.kind = FV_CHAMBER_COLD,
                           .gain = 1,
                           .pressure = held->pressure,
                           .density = held->density,
                           .water = c->water};
        if (held->pure) {
            next.kind = FV_CHAMBER_VENTED;
            next.gain = (h_v - held->h_f) / held->h_fg;
            next.condenses = held->loss / held->h_fg;
        }
        moved = moved || next.kind != c->kind || fabs(held->pressure - v->chamber_pressure) > HELD_TOLERANCE;
        *c = next;
    }
    return moved;
}

static void judge_hold(const steady_workspace *d, size_t i, fv_steady_result *r)
{
    fv_vessel_result *v = &r->vessels[i];
    const steady_held *held = &d->held[i];
    const double target = d->plant->vessels[i]->target.v;
    const double h_v = r->nodes[d->net->plant_node[d->net->vessels[i].node]].enthalpy;
    fv_sat_point site;
    double steam;
    fv_sat_at(d->holds[i].sat, d->net->site_pressure, &site);
    v->need = steady_hold_need(&d->holds[i], target, h_v, &steam) == FV_OK ? steam * (h_v - site.h_f) : 0;
    v->chamber_temperature = held->t;
    v->gas_out = held->vented;
    v->vented = fmin(held->vapour, v->steam); /* what gets no steam vents none, whatever leaves it */
    v->air_drawn_in = held->air;
    v->verdict = held->t < target - TARGET_TOLERANCE ? FV_STARVED : FV_FED;
}

/* How long usable water lasts, s, that nobody refills; NaN: it is fed, or nothing goes. */
static double lasts(const fv_boiler *boiler, const fv_boiler_result *r)
{
    const double goes = r->steam + r->carried_water;
    const bool alone = fv_word(boiler->feeding) == FV_FEED_BY_HAND && boiler->refill_count == 0;
    return alone && goes > 0 ? 1000 * fv_or(boiler->usable, fv_or(boiler->water, NAN)) / goes : NAN;
}

static void judge(const steady_workspace *d, fv_steady_result *r)
{
    for (size_t k = 0; k < r->boiler_count; k++)
        r->boilers[k].dry_in = lasts(d->plant->boilers[k], &r->boilers[k]);
    for (size_t i = 0; i < r->vessel_count; i++) {
        fv_vessel_result *v = &r->vessels[i];
        v->need = 0;
        v->chamber_temperature = v->core_in = NAN;
        v->verdict = FV_SHUT_OFF;
        v->unsettled = false;
        if (d->holds[i].vessel) {
            judge_hold(d, i, r);
        } else if (d->chambers[i].kind == FV_CHAMBER_COLD) {
            v->need = d->needs[i].need;
            v->verdict = v->heat >= v->need * (1 - 1e-9) ? FV_FED : FV_STARVED; /* until more is predicted */
        }
    }
}

fv_steady_result *steady_workspace_solve(steady_workspace *d, double fire, fv_faults *faults)
{
    fv_steady_result *r = fv_steady_result_new(d->net);
    if (!r) {
        d->out_of_memory = true;
        fv_error(faults, FV_ERR_SYSTEM, d->plant->loc, "out of memory");
        return NULL;
    }
    for (size_t i = 0; i < d->plant->boiler_count; i++)
        d->fire[i] = fire * d->plant->boilers[i]->fire.v;
    const fv_conditions conditions = {
        .t_air = d->plant->site.air.v, .wind = d->plant->site.wind.v, .fire = d->fire, .chambers = d->chambers};
    fv_solver_scale_fires(d->solver, d->last > 0 ? fire / d->last : 1);
    d->last = fire;
    bool again = true;
    for (int i = 0; again && i < HELD_ROUNDS; i++) {
        d->solver->given.steps_most = d->steps_left;
        const fv_status status = fv_solve(d->solver, &conditions, r, faults);
        d->steps_left -= r->audit.iterations;
        if (status == FV_FAIL) {
            d->out_of_memory = d->steps_left > 0 && faults && fv_faults_blame_system(faults);
            fv_steady_result_free(r);
            return NULL;
        }
        again = settle_chambers(d, r);
    }
    judge(d, r);
    return r;
}

void steady_workspace_only(steady_workspace *d, size_t vessel)
{
    set_chambers(d, FV_PHASE_HOLDING);
    for (size_t i = 0; i < d->plant->vessel_count; i++) {
        if (i == vessel)
            continue;
        d->holds[i].vessel = NULL;
        d->chambers[i].kind = FV_CHAMBER_SHUT;
    }
}
