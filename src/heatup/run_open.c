/* SPDX-License-Identifier: MIT */
/* What a run needs before its first step, and giving it back. */
#include "heatup/kit.h"
#include "heatup/run.h"

#include <math.h>
#include <stdlib.h>

void fv_heat_defaults(fv_heat_options *options)
{
    *options = (fv_heat_options){.until = 7 * 86400.0, .every = 300, .fire = 1, .fineness = 1};
}

static bool allocate(heatup_run *run)
{
    const fv_plant *plant = run->plant;
    fv_heat_result *r = run->result;
    r->vessel_count = plant->vessel_count;
    r->boiler_count = plant->boiler_count;
    r->line_count = plant->line_count;
    r->vessels = calloc(plant->vessel_count + 1, sizeof *r->vessels);
    r->boilers = calloc(plant->boiler_count + 1, sizeof *r->boilers);
    r->line_loss = calloc(plant->line_count + 1, sizeof(double));
    r->line_condensate = calloc(plant->line_count + 1, sizeof(double));
    run->kit = run->options->kit ? run->options->kit : fv_heat_kit_new();
    run->sat = fv_sat_line();
    run->net = run->kit ? fv_network_new(plant, run->sat, run->faults) : NULL;
    run->solver = run->net ? fv_solver_new(run->net) : NULL;
    run->state = run->net ? fv_steady_result_new(run->net) : NULL;
    run->vessels = calloc(plant->vessel_count + 1, sizeof *run->vessels);
    run->boilers = calloc(plant->boiler_count + 1, sizeof *run->boilers);
    run->actions = calloc(plant->action_count + 1, sizeof *run->actions);
    run->line_warm = calloc(plant->line_count + 1, sizeof(bool));
    run->fire = calloc(plant->boiler_count + 1, sizeof(double));
    run->solved_fire = calloc(plant->boiler_count + 1, sizeof(double));
    run->chambers = calloc(plant->vessel_count + 1, sizeof *run->chambers);
    run->solved_chambers = calloc(plant->vessel_count + 1, sizeof *run->solved_chambers);
    run->more = calloc(plant->vessel_count + 1, sizeof(double));
    run->foretold = calloc(plant->vessel_count + 1, sizeof(double));
    run->missed = calloc(plant->vessel_count + plant->boiler_count + 1, sizeof(double));
    run->missing = calloc(plant->vessel_count + plant->boiler_count + 1, sizeof(double));
    run->stored = calloc(plant->boiler_count + 1, sizeof *run->stored);
    run->solved_stored = calloc(plant->boiler_count + 1, sizeof *run->stored);
    run->valve_open = run->net ? calloc(fv_network_valve_count(run->net) + 1, sizeof(double)) : NULL;
    run->trace = (heatup_trace){.order = calloc(plant->line_count + 1, sizeof(int)),
                                .leaving = calloc(plant->node_count + 1, sizeof(int)),
                                .queue = calloc(plant->node_count + 1, sizeof(int)),
                                .at_node = calloc(plant->node_count + 1, sizeof(double)),
                                .sum = calloc(plant->line_count + 1, sizeof(double))};
    const void *const all[] = {r->vessels,         r->boilers,           r->line_loss,       r->line_condensate,
                               run->solver,        run->state,           run->vessels,       run->boilers,
                               run->actions,       run->line_warm,       run->fire,          run->solved_fire,
                               run->chambers,      run->solved_chambers, run->stored,        run->solved_stored,
                               run->valve_open,    run->trace.order,     run->trace.leaving, run->trace.queue,
                               run->trace.at_node, run->trace.sum,       run->more,          run->foretold,
                               run->missed,        run->missing};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (!all[i])
            return false;
    return true;
}

/* Takes it from a vessel before it with the like load, where there is one: a melting piece is long to follow. */
static double ample_time(const heatup_run *run, size_t i)
{
    const heatup_chamber *chamber = &run->vessels[i].chamber;
    const double target = run->plant->vessels[i]->target.v;
    for (size_t k = 0; k < i && chamber->body; k++) {
        const heatup_chamber *other = &run->vessels[k].chamber;
        if (other->body && run->plant->vessels[k]->target.v == target &&
            heatup_body_is_like(other->body, chamber->body))
            return run->result->vessels[k].core_ample;
    }
    return heatup_chamber_ample_time(chamber, run->t_boil, target);
}

static void open_history(const heatup_run *run, size_t i)
{
    fv_vessel_history *h = &run->result->vessels[i];
    h->opened = h->steam_on = h->full = h->core = h->hold = h->cool = NAN;
    h->starved_since = h->settles = h->hold_broken = h->steam_least_in_hold = NAN;
    h->core_ample = ample_time(run, i);
}

static bool open_chambers(heatup_run *run)
{
    heatup_chamber_house house = {
        .plant = run->plant, .kit = run->kit, .site_pressure = run->site_pressure, .faults = run->faults};
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        heatup_vessel_run *v = &run->vessels[i];
        const steady_net_opening *openings = run->net->openings + run->net->vessels[i].first_opening;
        if (!heatup_chamber_open(&v->chamber, run->plant->vessels[i], openings, &house))
            return false;
        v->hold_since = v->falls_since = v->from_full_before = NAN;
        v->core = v->core_before = v->core_end = heatup_chamber_core(&v->chamber);
        v->hottest = heatup_chamber_hottest(&v->chamber);
        v->surface = v->surface_end = heatup_chamber_surface(&v->chamber);
        v->after_dt = v->tends = NAN;
        v->t_before = v->chamber.t;
        open_history(run, i);
    }
    return true;
}

bool heatup_run_open(heatup_run *run)
{
    const size_t errors = fv_faults_errors(run->faults);
    if (!allocate(run)) {
        if (fv_faults_errors(run->faults) == errors)
            fv_error(run->faults, FV_ERR_SYSTEM, run->plant->loc, "out of memory");
        return false;
    }
    run->site_pressure = fv_network_site_pressure(run->net);
    fv_sat_point at;
    fv_sat_at(run->sat, run->site_pressure, &at);
    run->t_boil = at.t;
    run->h_f_boil = at.h_f;
    run->result->boiling_point = at.t;
    if (!open_chambers(run))
        return false;
    heatup_actions_open(run);
    heatup_series_open(run);
    heatup_boilers_open(run);
    heatup_stale_open(run);
    return true;
}

void heatup_run_close(heatup_run *run)
{
    for (size_t i = 0; run->vessels && i < run->plant->vessel_count; i++)
        heatup_chamber_close(&run->vessels[i].chamber);
    fv_steady_result_free(run->state);
    fv_solver_free(run->solver);
    fv_network_free(run->net);
    if (!run->options->kit)
        fv_heat_kit_free(run->kit);
    free(run->vessels);
    free(run->boilers);
    free(run->actions);
    free(run->line_warm);
    free(run->trace.order);
    free(run->trace.leaving);
    free(run->trace.queue);
    free(run->trace.at_node);
    free(run->trace.sum);
    free(run->more);
    free(run->foretold);
    free(run->missed);
    free(run->missing);
    free(run->stored);
    free(run->solved_stored);
    free(run->fire);
    free(run->solved_fire);
    free(run->chambers);
    free(run->solved_chambers);
    free(run->valve_open);
    free(run->rows);
}

void fv_heat_free(fv_heat_result *result)
{
    if (!result)
        return;
    fv_series *s = &result->series;
    double *matrices[] = {s->time,
                          s->core,
                          s->chamber,
                          s->surface,
                          s->vessel_steam,
                          s->air_share,
                          s->vessel_pressure,
                          s->boiler_steam,
                          s->boiler_pressure,
                          s->boiler_fuel,
                          s->demand};
    for (size_t i = 0; i < sizeof matrices / sizeof *matrices; i++)
        free(matrices[i]);
    fv_steady_result_free(result->at_first_steam);
    fv_steady_result_free(result->in_hold);
    free(result->vessels);
    free(result->boilers);
    free(result->line_loss);
    free(result->line_condensate);
    free(result->happenings);
    free(result);
}
