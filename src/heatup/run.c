/* SPDX-License-Identifier: MIT */
/* A run in time: steps as long as the chambers' accuracy allows, each ended at the first event in it. */
#include "heatup/run.h"
#include "heatup/actions.h"
#include "heatup/boilerhouse.h"
#include "heatup/books.h"
#include "heatup/dense.h"
#include "heatup/events.h"
#include "heatup/lookahead.h"
#include "heatup/give_up.h"
#include "heatup/event_queue.h"
#include "heatup/lines_warm.h"
#include "heatup/moment.h"
#include "heatup/refill_plan.h"
#include "heatup/series.h"
#include "heatup/stale.h"
#include "heatup/thermostat.h"
#include "heatup/verdicts.h"

#include <math.h>
#include <stdlib.h>

/* All at fineness 1. */
static const double STEP_FIRST = 60.0;     /* s */
static const double STEP_LEAST = 0.25;     /* s */
static const double SHORTEST = 1e-3;       /* s: of a step cut by an event */
static const double STEP_MOST = 1800.0;    /* s */
static const double STEP_SHUT_MOST = 3600; /* s, with no vessel under steam */
static const double STEP_SWITCHED = 120.0; /* s at most after anything was switched */
static const double OPEN_MOST = 2.0;       /* K by which a chamber with steam may change over a step */
static const double FULL_MOST = 0.4;       /* K, one about to be full */
static const double DROPPING_MOST = 0.4;   /* K, one that no longer gets what it needs */
static const double SHUT_MOST = 5.0;       /* K, one without */
static const double QUICK = 10.0;          /* s */
static const double GROWTH = 2.0;
enum {
    CUTS_MOST = 12,
    RETRIES_MOST = 6,      /* where no balance is found */
    SHORT_STEPS_MOST = 40, /* shortest steps in a row, then the shortest is made longer */
    STEPS_MOST = 60000,    /* taken and repeated */
    WORK_MOST = 2000000    /* solves of the network times its lines and vessels: about a minute */
};

/* K by which a chamber may change over a step. One that comes near the boiling point bends off sharply there. What is
 * over in some seconds, as when steam fills a chamber with little in it, need not be known so well. */
static double allowed(const heatup_run *run, const heatup_vessel *v)
{
    const double quick = fmax(1, QUICK / (run->context.options->fineness * v->step.dt));
    const double sensed = heatup_thermostats_step(run, (size_t)(v - run->state.vessels));
    if (v->state != STEAM_OPEN)
        return fmin(sensed, SHUT_MOST) * quick;
    const double to_full = run->context.t_boil - FV_FULL_WITHIN - v->chamber.t;
    /* one that drops out: a core falls late, and remembers how; a rough run need not know when to the half minute */
    const bool drops = run->context.options->fineness >= 1 && v->trial.t < run->context.t_boil - FV_FULL_WITHIN &&
                       v->trial.t < v->chamber.t;
    const double most = !v->counted_full ? fmax(FULL_MOST, fmin(OPEN_MOST, 0.5 * to_full))
                        : drops          ? DROPPING_MOST
                                         : OPEN_MOST;
    return quick * fmin(sensed, most);
}

/* Largest change of a chamber over the step just tried, as a part of what is allowed. */
static double chamber_change(const heatup_run *run)
{
    double largest = 0;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        if (heatup_followed(v))
            largest = fmax(largest, fabs(v->trial.t - v->chamber.t) / allowed(run, v));
    }
    return largest * run->context.options->fineness;
}

/* By how much a step must differ for a change that differs by a factor: what is allowed goes down with quick steps. */
static double fitting(const heatup_run *run, double dt, double factor)
{
    return dt * run->context.options->fineness < QUICK ? sqrt(factor) : factor;
}

/* A chamber that oscillates about a balance is not resolved for ever: after many shortest steps they grow. */
static double shortest(const heatup_run *run)
{
    const double least = STEP_LEAST / run->context.options->fineness;
    return run->state.short_steps > SHORT_STEPS_MOST ? least * (run->state.short_steps - SHORT_STEPS_MOST) : least;
}

/* When the first bed lets steam into its chamber, which then warms up at once; 0: none does. */
static double first_through(const heatup_run *run)
{
    double first = INFINITY;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (heatup_followed(&run->state.vessels[i]) && run->state.vessels[i].trial.through > SHORTEST)
            first = fmin(first, run->state.vessels[i].trial.through);
    return isfinite(first) ? first + SHORTEST : 0;
}

/* Network and chambers over dt, or over less where no balance is found over all of it. */
static fv_status try_moment(heatup_run *run, double *dt)
{
    fv_faults *kept = run->faults;
    fv_status status = FV_FAIL;
    bool memory = false;
    for (int i = 0; i < RETRIES_MOST && status == FV_FAIL && !memory; i++) {
        const bool last = i + 1 == RETRIES_MOST;
        run->faults = last ? kept : fv_faults_new();
        if (i > 0)
            *dt *= 0.25;
        run->scratch.again = i > 0;
        status = heatup_moment(run, *dt);
        /* a shorter step would not be the answer */
        memory = fv_faults_errors(run->faults) > 0 && fv_faults_blame_system(run->faults);
        if (status == FV_FAIL) {
            run->result->audit.repeated++;
            run->state.network_fresh = false;
        }
        if (!last)
            fv_faults_free(run->faults);
    }
    run->faults = kept;
    if (memory && fv_faults_errors(kept) == 0)
        fv_error(kept, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
    return memory ? FV_FAIL : status;
}

/* Tries steps until one is fine enough and ends no later than the first event; its length, or NaN. */
static double find_step(heatup_run *run)
{
    const double due = fmin(heatup_actions_next(run), heatup_thermostats_ready(run));
    double dt = fmin(run->state.dt,
                     fmin(fmin(due, heatup_boilers_next_refill(run)), run->context.options->until) - run->state.t);
    for (int cut = 0;; cut++) {
        const fv_status status = try_moment(run, &dt);
        if (status == FV_FAIL)
            return NAN;
        if (heatup_charge_cold_lines(run))
            continue;
        const double change = chamber_change(run), least = shortest(run);
        if (change > 1.5 && dt > least) {
            const double shorter = fmax(least, dt * fmax(0.1, fitting(run, dt, 0.8 / change)));
            dt = fmin(fmax(shorter, first_through(run)), 0.9 * dt);
            run->result->audit.repeated++;
            continue;
        }
        const double event = fmin(heatup_events_next(run, dt), heatup_thermostats_next(run, dt));
        if (cut < CUTS_MOST && event < dt * (1 - 1e-9) && dt > SHORTEST) {
            dt = fmax(event, SHORTEST);
            run->result->audit.repeated++;
            continue;
        }
        run->result->audit.loose += status == FV_DOUBTFUL;
        return dt;
    }
}

static bool any_steam(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].step.steam > 0 && run->state.vessels[i].state == STEAM_OPEN)
            return true;
    return false;
}

/* On a ladder of lengths, so that what is worked out for one length serves several steps. */
static double on_ladder(double dt)
{
    return exp2(floor(3 * log2(dt)) / 3);
}

static void grow_step(heatup_run *run, double taken, double change)
{
    const double finer = run->context.options->fineness, least = shortest(run);
    const double factor = change > 0 ? fmin(GROWTH, fitting(run, taken, 0.9 / change)) : GROWTH;
    run->state.short_steps = taken <= 1.5 * least && change > 1 ? run->state.short_steps + 1 : 0;
    const double most = any_steam(run) ? STEP_MOST : STEP_SHUT_MOST;
    run->state.dt = on_ladder(fmin(most / finer, fmax(least, taken * fmax(factor, 0.3))));
}

/* What has happened is noted, and what waits for it begins. */
static void read_events(heatup_run *run)
{
    heatup_actions_notify(run);
    heatup_events_note(run);
}

static bool take_step(heatup_run *run, double dt)
{
    heatup_stale_taken(run);
    heatup_boilers_pay(run, dt);
    heatup_books_add(run, dt);
    heatup_events_find(run, dt);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        if (heatup_followed(v) && heatup_chamber_advance(&v->chamber, &v->step, &v->trial) == FV_FAIL) {
            fv_error(run->faults, FV_ERR_NUMERICS, run->context.plant->vessels[i]->part.loc,
                     "vessel '%s': its load could not be followed", run->context.plant->vessels[i]->part.id);
            return false;
        }
        heatup_note_end(v);
    }
    if (!heatup_series_add(run, dt))
        return false;
    heatup_note_means(run, dt);
    heatup_boilers_advance(run, dt);
    heatup_thermostats_after(run, dt);
    heatup_events_after(run, dt);
    read_events(run);
    run->state.t += dt;
    heatup_books_mark(run);
    heatup_thermostats_look(run);
    run->result->audit.steps++;
    return true;
}

/* Pictures of the network that reports show. */
static void keep_states(heatup_run *run)
{
    fv_heat_result *r = run->result;
    size_t holding = 0;
    if (!run->state.network_fresh)
        return;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        holding += run->state.vessels[i].state == STEAM_OPEN && run->state.vessels[i].holding;
    if (holding <= run->state.most_in_hold)
        return;
    run->state.most_in_hold = holding;
    fv_steady_result_free(r->in_hold);
    r->in_hold = heatup_network_copy(run->state.network, run->context.net);
}

/* From here on a vessel's allowed time runs: its steam is open and a boiler gives some, whether any arrives or not. */
static void note_opened(heatup_run *run)
{
    if (!heatup_boilers_steaming(run))
        return;
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (run->state.vessels[i].state == STEAM_OPEN && isnan(run->result->vessels[i].opened))
            run->result->vessels[i].opened = run->state.t;
}

/* Nothing is left to wait for when only the cores matter. */
static bool all_reached(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (!run->state.vessels[i].reached && !run->state.vessels[i].inactive && !heatup_actions_stay_shut(run, i) &&
            !run->state.vessels[i].stuck && !heatup_tends_below(run, i))
            return false;
    return true;
}

/* The same where the rest, as far as can be predicted, will never arrive. */
static bool rest_never_arrives(heatup_run *run)
{
    if (!heatup_time_to_look(run))
        return false;
    /* a chamber that is at its target brings its core there */
    for (size_t i = 0; i < run->context.plant->vessel_count; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        if (v->state == STEAM_OPEN && !v->inactive && !v->reached &&
            v->chamber.t >= run->context.plant->vessels[i]->target.v)
            return false;
    }
    const bool never = heatup_look_ahead(run) && all_reached(run);
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        run->state.vessels[i].tends = NAN;
    return never;
}

/* Nothing is left to wait for when cooling does not matter. */
static bool all_held(const heatup_run *run)
{
    for (size_t i = 0; i < run->context.plant->vessel_count; i++)
        if (isnan(run->result->vessels[i].hold) && !run->state.vessels[i].inactive &&
            !heatup_actions_stay_shut(run, i) && !run->state.vessels[i].stuck)
            return false;
    return true;
}

/* A run that would go on for ever in steps of a moment is refused, with what keeps it so busy. */
static bool within_budget(heatup_run *run)
{
    const heatup_sizes *n = &run->context.sizes;
    const fv_heat_audit *audit = &run->result->audit;
    if (audit->steps + audit->repeated < STEPS_MOST && audit->solves * (n->lines + n->vessels) < WORK_MOST)
        return true;
    size_t busiest = 0;
    for (size_t i = 1; i < n->vessels; i++)
        if (run->state.vessels[i].moved > run->state.vessels[busiest].moved)
            busiest = i;
    fv_error(run->faults, FV_ERR_NUMERICS, run->context.plant->vessels[busiest]->part.loc,
             "the run was given up %.1f min after the start, after %zu steps: they cannot grow longer than some "
             "seconds, most for vessel '%s', whose chamber does not settle; a larger chamber, a wider opening or a "
             "shorter run (--until) may help",
             run->state.t / 60, audit->steps, run->context.plant->vessels[busiest]->part.id);
    return false;
}

static bool follow(heatup_run *run, const fv_progress *progress)
{
    heatup_forget_means(run);
    for (size_t i = 0; run->state.t < run->context.options->until - 1e-6; i++) {
        if (!within_budget(run))
            return false;
        heatup_actions_clock(run);
        read_events(run);
        heatup_actions_do(run);
        heatup_thermostats_do(run);
        heatup_boilers_refill(run);
        read_events(run);
        if (!heatup_boilers_light(run))
            return false;
        note_opened(run);
        if (run->state.switched) {
            run->state.dt = fmin(run->state.dt, STEP_SWITCHED / run->context.options->fineness);
            heatup_forget_means(run);
        }
        run->state.switched = false;
        if (i % 16 == 0 &&
            !fv_progress_tick(progress, run->state.t / run->context.options->until, "following the plant")) {
            run->result->stopped = true;
            return true;
        }
        const double dt = find_step(run);
        if (isnan(dt)) {
            if (fv_faults_errors(run->faults) == 0)
                fv_error(run->faults, FV_ERR_NUMERICS, run->context.plant->loc,
                         "no balance was found %.1f min after the start", run->state.t / 60);
            return false;
        }
        const double change = chamber_change(run), wanted = run->state.dt;
        if (!take_step(run, dt))
            return false;
        keep_states(run);
        /* a step cut short by an event says nothing against the length before */
        grow_step(run, change < 0.5 ? fmax(dt, 0.5 * wanted) : dt, change);
        if (heatup_all_settled(run, dt) ||
            (run->context.options->stop_at_core && (all_reached(run) || rest_never_arrives(run))))
            return true;
        if ((run->context.options->stop_at_hold && all_held(run)) || heatup_gives_up(run))
            return true;
    }
    return true;
}

fv_heat_result *fv_heat_run(const fv_plant *plant, const fv_heat_options *options, const fv_progress *progress,
                            fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    if (!(options->until > 0) || !(options->fineness > 0) || !(options->fire >= 0) || !isfinite(options->until) ||
        !isfinite(options->fineness) || !isfinite(options->fire) || isnan(options->every)) {
        fv_error(faults, FV_ERR_INPUT, plant->loc,
                 "the run's end and fineness must be above nought, its fire not below");
        return NULL;
    }
    heatup_run run = {.faults = faults, .state.dt = STEP_FIRST / options->fineness};
    run.result = calloc(1, sizeof *run.result);
    if (!run.result) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return NULL;
    }
    run.result->plant = plant;
    run.result->options = *options;
    run.result->options.cache = NULL;
    bool good = heatup_run_open(&run, plant, options) && follow(&run, progress);
    if (good) {
        heatup_verdicts(&run);
        heatup_refill_plan(&run);
        read_events(&run);
        heatup_books_close(&run);
        run.result->end = run.state.t;
        good = heatup_series_close(&run) && fv_faults_errors(faults) == 0;
    }
    heatup_run_close(&run);
    if (good)
        return run.result;
    fv_heat_free(run.result);
    return NULL;
}
