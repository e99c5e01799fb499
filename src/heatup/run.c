/* SPDX-License-Identifier: MIT */
/* The run: steps as long as the chambers allow, ended by what happens. */
#include "heatup/run.h"

#include <math.h>
#include <stdlib.h>

static const double STEP_FIRST = 2.0;      /* s after anything was switched */
static const double STEP_LEAST = 0.25;     /* s */
static const double STEP_MOST = 1800.0;    /* s */
static const double CHAMBER_MOST = 1.0;    /* K by which a chamber may change over a step, at fineness 1 */
static const double GROWTH = 1.6;
enum { CUTS_MOST = 12, STEPS_MOST = 2000000 };

void fv_heat_defaults(fv_heat_options *options)
{
    *options = (fv_heat_options){.until = 7 * 86400.0, .every = 300, .fire = 1, .fineness = 1};
}

static bool allocate(fv_run *run)
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
    run->sat = fv_sat_new();
    run->net = run->sat ? fv_network_new(plant, run->sat, run->faults) : NULL;
    run->solver = run->net ? fv_solver_new(run->net) : NULL;
    run->state = run->net ? fv_steady_result_new(run->net) : NULL;
    run->vessels = calloc(plant->vessel_count + 1, sizeof *run->vessels);
    run->boilers = calloc(plant->boiler_count + 1, sizeof *run->boilers);
    run->actions = calloc(plant->action_count + 1, sizeof *run->actions);
    run->line_warm = calloc(plant->line_count + 1, sizeof(bool));
    run->line_sums = calloc(plant->line_count + 1, sizeof(double));
    run->fire = calloc(plant->boiler_count + 1, sizeof(double));
    run->solved_fire = calloc(plant->boiler_count + 1, sizeof(double));
    run->chambers = calloc(plant->vessel_count + 1, sizeof *run->chambers);
    run->solved_chambers = calloc(plant->vessel_count + 1, sizeof *run->solved_chambers);
    run->valve_open = run->net ? calloc(fv_network_valve_count(run->net) + 1, sizeof(double)) : NULL;
    return r->vessels && r->boilers && r->line_loss && r->line_condensate && run->solver && run->state && run->vessels && run->boilers &&
           run->actions && run->line_warm && run->line_sums && run->fire && run->solved_fire && run->chambers && run->solved_chambers &&
           run->valve_open;
}

static bool open_rooms(fv_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        const fv_net_opening *openings = run->net->openings + run->net->vessels[i].first_opening;
        if (!fv_room_open(&v->room, run->plant, run->plant->vessels[i], openings, run->sat, run->site_pressure, run->faults))
            return false;
        v->hold_since = NAN;
        v->target_seen = fv_room_core(&v->room);
        v->t_before = v->room.t;
        fv_vessel_history *h = &run->result->vessels[i];
        h->opened = h->steam_on = h->full = h->core = h->hold = h->cool = h->core_ample = NAN;
        h->starved_since = h->settles = h->hold_broken = h->steam_least_in_hold = NAN;
    }
    return true;
}

static bool open_run(fv_run *run)
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
    if (!open_rooms(run) || !fv_actions_open(run) || !fv_series_open(run))
        return false;
    fv_boilers_open(run);
    return true;
}

static void close_run(fv_run *run)
{
    for (size_t i = 0; run->vessels && i < run->plant->vessel_count; i++)
        fv_room_close(&run->vessels[i].room);
    fv_steady_result_free(run->state);
    fv_solver_free(run->solver);
    fv_network_free(run->net);
    fv_sat_free(run->sat);
    free(run->vessels);
    free(run->boilers);
    free(run->actions);
    free(run->line_warm);
    free(run->line_sums);
    free(run->fire);
    free(run->solved_fire);
    free(run->chambers);
    free(run->solved_chambers);
    free(run->valve_open);
    free(run->rows);
}

/* Largest change of a chamber over the step just tried, K. */
static double chamber_change(const fv_run *run)
{
    double largest = 0;
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        const fv_vessel_run *v = &run->vessels[i];
        if (v->state != STEAM_WAITING && !v->asleep)
            largest = fmax(largest, fabs(v->trial.t - v->room.t));
    }
    return largest;
}

/* Tries steps until one is fine enough and ends no later than the first event; its length, or NaN. */
static double find_step(fv_run *run)
{
    const double most = CHAMBER_MOST / run->options->fineness, least = STEP_LEAST / run->options->fineness;
    double dt = fmin(run->dt, fmin(fv_actions_next(run), run->options->until) - run->t);
    for (int cut = 0;; cut++) {
        if (fv_moment(run, dt) == FV_FAIL)
            return NAN;
        const double change = chamber_change(run);
        if (change > 1.5 * most && dt > least) {
            dt = fmax(least, dt * fmax(0.2, 0.8 * most / change));
            run->result->audit.repeated++;
            continue;
        }
        const double event = fv_events_next(run, dt);
        if (cut >= CUTS_MOST || event >= dt * (1 - 1e-9) || event >= dt - 1e-9)
            return dt;
        dt = fmax(event, 1e-9);
        run->result->audit.repeated++;
    }
}

static void grow_step(fv_run *run, double taken, double change)
{
    const double most = CHAMBER_MOST / run->options->fineness;
    const double factor = change > 0 ? fmin(GROWTH, 0.9 * most / change) : GROWTH;
    run->dt = fmin(STEP_MOST / run->options->fineness, fmax(STEP_FIRST / run->options->fineness, taken * fmax(factor, 0.3)));
}

static bool take_step(fv_run *run, double dt)
{
    if (!fv_series_add(run, dt))
        return false;
    fv_books_add(run, dt);
    for (size_t i = 0; i < run->plant->vessel_count; i++) {
        fv_vessel_run *v = &run->vessels[i];
        if (v->state == STEAM_WAITING || v->asleep)
            continue;
        v->t_before = v->room.t;
        if (fv_room_advance(&v->room, &v->step, &v->trial) == FV_FAIL) {
            fv_error(run->faults, FV_ERR_NUMERICS, run->plant->vessels[i]->part.loc, "vessel '%s': its load could not be followed",
                     run->plant->vessels[i]->part.id);
            return false;
        }
    }
    fv_boilers_advance(run, dt);
    fv_events_after(run, dt);
    run->t += dt;
    fv_books_mark(run);
    run->result->audit.steps++;
    return true;
}

/* Pictures of the network that reports show. */
static void keep_states(fv_run *run)
{
    fv_heat_result *r = run->result;
    if (!run->state_fresh)
        return;
    if (!r->at_first_steam)
        r->at_first_steam = fv_state_copy(run);
    bool all = true, any = false;
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (run->vessels[i].state == STEAM_OPEN) {
            any = true;
            all = all && run->vessels[i].holding;
        }
    if (any && all && !r->in_hold)
        r->in_hold = fv_state_copy(run);
}

/* From here on a vessel's allowed time runs: its steam is open and a boiler gives some, whether any arrives or not. */
static void note_opened(fv_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (run->vessels[i].state == STEAM_OPEN && isnan(run->result->vessels[i].opened))
            run->result->vessels[i].opened = run->t;
}

/* After a switch the first step is short, and cold lines that steam now enters are charged. */
static bool switch_over(fv_run *run)
{
    fv_actions_do(run);
    if (!fv_boilers_light(run))
        return false;
    if (!run->switched)
        return true;
    run->switched = false;
    run->dt = fmin(run->dt, STEP_FIRST / run->options->fineness);
    if (!fv_boilers_steaming(run))
        return true;
    note_opened(run);
    if (fv_moment(run, run->dt) == FV_FAIL)
        return false;
    fv_charge_cold_lines(run);
    return true;
}

/* Nothing will ever open its steam. */
static bool stays_shut(const fv_run *run, size_t i)
{
    const fv_vessel *vessel = run->plant->vessels[i];
    if (run->vessels[i].state != STEAM_WAITING || !isnan(run->vessels[i].opens_at) || vessel->start_after)
        return false;
    for (size_t k = 0; k < run->plant->action_count; k++) {
        const fv_action *action = run->plant->actions[k];
        if (!run->actions[k].done && action->vessel && fv_plant_vessel_index(run->plant, action->vessel) == (int) i)
            return false;
    }
    return true;
}

/* Nothing is left to wait for when only the cores matter. */
static bool all_reached(const fv_run *run)
{
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (!run->vessels[i].reached && !run->vessels[i].asleep && !stays_shut(run, i))
            return false;
    return true;
}

static bool follow(fv_run *run, const fv_progress *progress)
{
    for (size_t i = 0; i < STEPS_MOST && run->t < run->options->until - 1e-6; i++) {
        if (!switch_over(run))
            return false;
        if (i % 16 == 0 && !fv_progress_tick(progress, run->t / run->options->until, "following the plant")) {
            run->result->stopped = true;
            return true;
        }
        const double dt = find_step(run);
        if (isnan(dt)) {
            if (fv_faults_errors(run->faults) == 0)
                fv_error(run->faults, FV_ERR_NUMERICS, run->plant->loc, "no balance was found %.1f min after the start", run->t / 60);
            return false;
        }
        const double change = chamber_change(run);
        if (!take_step(run, dt))
            return false;
        keep_states(run);
        grow_step(run, dt, change);
        if (fv_all_settled(run, dt) || (run->options->stop_at_core && all_reached(run)))
            return true;
    }
    return true;
}

fv_heat_result *fv_heat_run(const fv_plant *plant, const fv_heat_options *options, const fv_progress *progress, fv_faults *faults)
{
    fv_run run = {.plant = plant, .options = options, .faults = faults, .dt = STEP_FIRST / options->fineness};
    run.result = calloc(1, sizeof *run.result);
    if (!run.result) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return NULL;
    }
    run.result->plant = plant;
    run.result->options = *options;
    bool good = open_run(&run) && follow(&run, progress);
    if (good) {
        fv_verdicts(&run);
        fv_books_close(&run);
        run.result->end = run.t;
        good = fv_series_close(&run) && fv_faults_errors(faults) == 0;
    }
    close_run(&run);
    if (good)
        return run.result;
    fv_heat_free(run.result);
    return NULL;
}

void fv_heat_free(fv_heat_result *result)
{
    if (!result)
        return;
    fv_series *s = &result->series;
    double *matrices[] = {s->time,         s->core,           s->chamber,         s->surface,     s->vessel_steam, s->air_share,
                          s->vessel_pressure, s->boiler_steam, s->boiler_pressure, s->boiler_fuel, s->demand};
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
