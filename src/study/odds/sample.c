/* SPDX-License-Identifier: MIT */
/* Heat runs of plants drawn from the distributions of the unknowns. */
#include "num/sample.h"
#include "study/odds/parts.h"

/* Steps twice as long as usual make cores 0.1 to 0.3 % late, far below the sampling error, and take a third less time.
 */
static const double COARSE = 0.5;

enum { ENOUGH = 64 };                                  /* good runs, for an answer of a sample that was stopped */
static const double LATEST_WITHIN = 2, LATEST_NOW = 2; /* times the time allowed, and the time taken now */

fv_heat_result *odds_run_now(const fv_plant *plant, double fire, const fv_progress *progress, fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    options.fire = fire;
    return study_run_somehow(plant, &options, progress, faults);
}

bool odds_until(const fv_heat_result *now, double *last, double *until)
{
    double within = 0, opened = 0;
    bool open = false;
    *last = 0;
    for (size_t i = 0; i < now->vessel_count; i++) {
        const fv_vessel_history *h = &now->vessels[i];
        if (isnan(h->opened))
            continue;
        open = true;
        within = fmax(within, now->plant->vessels[i]->within.v);
        opened = fmax(opened, h->opened);
        *last = isnan(h->core) || isnan(*last) ? NAN : fmax(*last, h->core);
    }
    *last = open ? *last : NAN;
    *until = fmax(opened + LATEST_WITHIN * within, isnan(*last) ? 0 : LATEST_NOW * *last);
    return open;
}

void odds_say_no_steam(const fv_plant *plant, fv_faults *faults)
{
    fv_error(faults, FV_ERR_INPUT, plant->loc,
             "no vessel gets steam during the run (shut, waiting for an event that never occurs, or no boiler steams)");
}

double odds_last(const fv_heat_result *result, double until)
{
    double last = 0;
    for (size_t i = 0; i < result->vessel_count; i++)
        if (!isnan(result->vessels[i].opened))
            last = fmax(last, isnan(result->vessels[i].core) ? until : fmin(result->vessels[i].core, until));
    return last;
}

fv_verdict odds_verdict(const fv_heat_result *result, size_t vessel)
{
    const fv_vessel_history *h = &result->vessels[vessel];
    return isnan(h->opened) ? FV_SHUT_OFF
                            : fv_verdict_of(h->core - h->opened, result->plant->vessels[vessel]->within.v);
}

static bool out_of_memory(const odds_question *q)
{
    fv_error(q->faults, FV_ERR_SYSTEM, q->answer->plant->loc, "out of memory");
    return false;
}

/* Series at a time, linear between its samples. */
static double at_time(const fv_series *s, const double *column, size_t width, double t)
{
    size_t i = 1;
    while (i + 1 < s->count && s->time[i] < t)
        i++;
    if (s->count < 2)
        return s->count ? column[0] : NAN;
    const double part = fmin(1, (t - s->time[i - 1]) / (s->time[i] - s->time[i - 1]));
    return column[(i - 1) * width] + part * (column[i * width] - column[(i - 1) * width]);
}

static void take_run(void *context, size_t run, const fv_heat_result *result)
{
    odds_question *q = context;
    const size_t n = q->vessels;
    double *core = q->answer->core + run * n, *curve = q->curve + run * n * 2 * ODDS_MOMENTS;
    q->ran[run] = true;
    q->good[run] = result != NULL;
    q->last[run] = result ? odds_last(result, q->answer->until) : NAN;
    for (size_t i = 0; i < n; i++) {
        const fv_vessel_history *h = result ? &result->vessels[i] : NULL;
        core[i] = !h ? NAN : isnan(h->core) ? INFINITY : h->core;
        if (!h)
            continue;
        q->verdict[run * n + i] = (unsigned char)odds_verdict(result, i);
        for (size_t k = 0; k < ODDS_MOMENTS; k++) {
            curve[(2 * i) * ODDS_MOMENTS + k] = at_time(&result->series, result->series.core + i, n, q->moment[k]);
            curve[(2 * i + 1) * ODDS_MOMENTS + k] =
                at_time(&result->series, result->series.chamber + i, n, q->moment[k]);
        }
    }
    for (size_t b = 0; result && b < result->boiler_count; b++)
        if (result->boilers[b].pressure_most > fv_or(result->plant->boilers[b]->relief, INFINITY))
            q->relief[run] = true;
}

study_ensemble odds_ensemble(const fv_plant *plant, const study_unknowns *unknowns, const double *z, size_t count,
                             double until)
{
    study_ensemble e = {.plant = plant, .unknowns = unknowns, .z = z, .count = count};
    fv_heat_defaults(&e.options);
    e.options.until = until;
    e.options.fineness = COARSE;
    e.options.stop_at_core = true;
    e.options.every = 0;
    return e;
}

typedef struct {
    const odds_question *q;
    double *last;
} last_taker;

static void take_last(void *context, size_t run, const fv_heat_result *result)
{
    const last_taker *t = context;
    t->last[run] = result ? odds_last(result, t->q->answer->until) : NAN;
}

study_ending odds_run_last(odds_question *q, const double *z, size_t count, const study_work *plan, double *last)
{
    last_taker taker = {q, last};
    study_ensemble e = odds_ensemble(q->answer->plant, &q->unknowns, z, count, q->answer->until);
    e.take = take_last;
    e.context = &taker;
    return study_ensemble_run(&e, plan);
}

bool odds_run_sample(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    const study_work plan = {.threads = a->options.threads,
                             .progress = q->progress,
                             .to = a->options.exact ? 0.1 : 0.98,
                             .what = "runs of the plant as it might be",
                             .caches = &q->caches};
    if (num_sample_normal(a->options.runs, q->unknowns.count, FV_ODDS_SETS, a->options.seed, q->z) == FV_FAIL)
        return out_of_memory(q);
    study_ensemble e = odds_ensemble(a->plant, &q->unknowns, q->z, a->options.runs, a->until);
    e.options.every = q->moment[0] / 4;
    e.take = take_run;
    e.context = q;
    const study_ending outcome = study_ensemble_run(&e, &plan);
    if (outcome == STUDY_FAILED)
        return out_of_memory(q);
    a->runs = a->options.runs;
    for (size_t i = 0; i < a->runs; i++) {
        a->runs_done += q->ran[i];
        a->runs_failed += q->ran[i] && !q->good[i];
    }
    a->stopped = outcome == STUDY_STOPPED;
    const bool enough = outcome == STUDY_DONE || (a->stopped && a->runs_done - a->runs_failed >= ENOUGH);
    if (enough && 2 * a->runs_failed > a->runs_done) {
        fv_error(q->faults, FV_ERR_NUMERICS, a->plant->loc, "%zu of %zu runs found no solution; there are no odds",
                 a->runs_failed, a->runs_done);
        return false;
    }
    return enough;
}
