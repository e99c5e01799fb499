/* SPDX-License-Identifier: MIT */
/* What a run needs before its first step, and giving it back. */
#include "heatup/run.h"
#include "heatup/actions.h"
#include "heatup/boilerhouse.h"
#include "heatup/series.h"
#include "heatup/stale.h"
#include "heatup/thermostat.h"

#include <math.h>
#include <stdlib.h>

void fv_heat_defaults(fv_heat_options *options)
{
    if (!options)
        return;
    *options = (fv_heat_options){.until = 7 * 86400.0, .every = 300, .fire = 1, .fineness = 1};
}

static bool open_result(fv_heat_result *r, const heatup_sizes *n)
{
    r->vessel_count = n->vessels;
    r->boiler_count = n->boilers;
    r->line_count = n->lines;
    r->vessels = calloc(n->vessels + 1, sizeof *r->vessels);
    r->boilers = calloc(n->boilers + 1, sizeof *r->boilers);
    r->thermostat_count = n->thermostats;
    r->thermostats = calloc(n->thermostats + 1, sizeof *r->thermostats);
    r->line_loss = calloc(n->lines + 1, sizeof(double));
    r->line_condensate = calloc(n->lines + 1, sizeof(double));
    return r->vessels && r->boilers && r->thermostats && r->line_loss && r->line_condensate;
}

static bool open_context(heatup_run *run, const fv_plant *plant, const fv_heat_options *options)
{
    heatup_context *c = &run->context;
    *c = (heatup_context){.plant = plant,
                          .options = options,
                          .cache = options->cache ? options->cache : fv_heat_cache_new(),
                          .sat = fv_sat_line()};
    c->net = c->cache ? fv_network_new(plant, c->sat, run->faults) : NULL;
    if (!c->net)
        return false;
    c->sizes = (heatup_sizes){.vessels = plant->vessel_count,
                              .boilers = plant->boiler_count,
                              .actions = plant->action_count,
                              .thermostats = plant->thermostat_count,
                              .lines = plant->line_count,
                              .nodes = plant->node_count,
                              .valves = fv_network_valve_count(c->net)};
    fv_sat_point at;
    c->site_pressure = fv_network_site_pressure(c->net);
    fv_sat_at(c->sat, c->site_pressure, &at);
    c->t_boil = at.t;
    c->h_f_boil = at.h_f;
    run->result->boiling_point = at.t;
    return true;
}

static bool allocate(heatup_run *run)
{
    const heatup_context *c = &run->context;
    return open_result(run->result, &c->sizes) && heatup_state_init(&run->state, &c->sizes, c->net) &&
           heatup_scratch_init(&run->scratch, &c->sizes, c->net);
}

/* A bed takes steam as fast as it comes: with all that the boilers can give at the air's pressure. */
static double front_time(const heatup_run *run, const heatup_chamber *chamber)
{
    double steam = 0, slope;
    fv_sat_point at;
    fv_sat_at(run->context.sat, run->context.site_pressure, &at);
    for (size_t i = 0; i < run->context.plant->boiler_count; i++)
        steam += steady_boiler_most(run->context.net, run->context.plant->boilers[i], 1, (fv_stored){0}, 0, &slope);
    return steam > 0 ? heatup_chamber_bed_wants(chamber, run->context.site_pressure) / (steam * (at.h_g - at.h_f))
                     : NAN;
}

/* Takes it from a vessel before it with the like load, where there is one: a melting piece is long to follow. */
static double ample_time(const heatup_run *run, size_t i)
{
    const heatup_chamber *chamber = &run->state.vessels[i].chamber;
    const double target = run->context.plant->vessels[i]->target.v;
    if (chamber->bed)
        return target < run->context.t_boil ? front_time(run, chamber) : NAN;
    for (size_t k = 0; k < i && chamber->body; k++) {
        const heatup_chamber *other = &run->state.vessels[k].chamber;
        if (other->body && run->context.plant->vessels[k]->target.v == target &&
            heatup_body_is_like(other->body, chamber->body))
            return run->result->vessels[k].core_ample;
    }
    return heatup_chamber_ample_time(chamber, run->context.t_boil, target);
}

static void open_history(const heatup_run *run, size_t i)
{
    fv_vessel_history *h = &run->result->vessels[i];
    h->opened = h->steam_on = h->full = h->core = h->hold = h->cool = NAN;
    h->starved_since = h->settles = h->hold_broken = h->steam_least_in_hold = h->hottest = NAN;
    h->core_ample = ample_time(run, i);
}

static bool open_chambers(heatup_run *run)
{
    heatup_chamber_house house = {.plant = run->context.plant,
                                  .cache = run->context.cache,
                                  .site_pressure = run->context.site_pressure,
                                  .faults = run->faults};
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        const steady_net_opening *openings = run->context.net->openings + run->context.net->vessels[i].first_opening;
        if (!heatup_chamber_open(&v->chamber, run->context.plant->vessels[i], openings, &house))
            return false;
        v->hold_since = v->falls_since = v->from_full_before = NAN;
        v->core = v->core_before = v->core_end = heatup_chamber_core(&v->chamber);
        v->hottest = v->outermost = heatup_chamber_hottest(&v->chamber);
        v->surface = v->surface_end = heatup_chamber_surface(&v->chamber);
        v->after_dt = v->tends = NAN;
        v->t_before = v->chamber.t;
        open_history(run, i);
    }
    return true;
}

bool heatup_run_open(heatup_run *run, const fv_plant *plant, const fv_heat_options *options)
{
    const size_t errors = fv_faults_errors(run->faults);
    if (!open_context(run, plant, options) || !allocate(run)) {
        if (fv_faults_errors(run->faults) == errors)
            fv_error(run->faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return false;
    }
    if (!open_chambers(run))
        return false;
    heatup_actions_open(run);
    if (!heatup_series_open(run))
        return false;
    heatup_boilers_open(run);
    heatup_thermostats_open(run);
    heatup_stale_open(run);
    return true;
}

void heatup_run_close(heatup_run *run)
{
    for (size_t i = 0; run->state.block && i < run->context.sizes.vessels; i++)
        heatup_chamber_close(&run->state.vessels[i].chamber);
    heatup_state_free(&run->state);
    heatup_scratch_free(&run->scratch);
    fv_network_free(run->context.net);
    if (!run->context.options->cache)
        fv_heat_cache_free(run->context.cache);
    free(run->events.items);
    free(run->series.rows);
    free(run->series.deep);
}

void fv_heat_free(fv_heat_result *result)
{
    if (!result)
        return;
    fv_series *s = &result->series;
    double *matrices[] = {s->time,        s->core,      s->chamber,         s->surface,      s->vessel_steam,
                          s->depth,       s->air_share, s->vessel_pressure, s->boiler_steam, s->boiler_pressure,
                          s->boiler_fuel, s->demand};
    for (size_t i = 0; i < sizeof matrices / sizeof *matrices; i++)
        free(matrices[i]);
    fv_steady_result_free(result->at_first_steam);
    fv_steady_result_free(result->in_hold);
    free(result->vessels);
    free(result->boilers);
    free(result->thermostats);
    free(result->line_loss);
    free(result->line_condensate);
    free(result->events);
    free(result);
}
