/* SPDX-License-Identifier: MIT */
/* forecast from question to answer: the draws of a fit, each run on to its end, as bands of times in s after lighting,
 * and the same draws with what could still be done. Method: farvessel/forecast.h. */
#include "farvessel/forecast.h"
#include "num/quantile.h"
#include "study/match.h"
#include "study/answer.h"

#include <math.h>
#include <stdlib.h>

static const double NEARLY_SURE = 0.9;

void fv_forecast_defaults(fv_forecast_options *options)
{
    if (!options)
        return;
    *options = (fv_forecast_options){0};
    fv_fit_defaults(&options->fit);
}

/* ---- what could be done ---- */

typedef struct {
    const match_found *found;
    study_match changed; /* the match with another plant */
    double *hold;        /* draws x vessels */
} changing;

static fv_status run_changed(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    changing *c = context;
    const match_draw *draw = &c->found->draws.list[index];
    const size_t n = c->changed.plant->vessel_count;
    fv_plant *plant = NULL;
    fv_heat_result *r =
        draw->weight > 0 ? study_match_run(&c->changed, &c->found->modes[draw->mode].defect, draw->x, c->found->until,
                                           true, study_cache(&c->changed.caches, worker), progress, NULL, &plant)
                         : NULL;
    for (size_t v = 0; v < n; v++)
        c->hold[index * n + v] = !r ? NAN : isnan(r->vessels[v].hold) ? INFINITY : r->vessels[v].hold;
    fv_heat_free(r);
    fv_plant_free(plant);
    return FV_OK;
}

/* Differences of the same draws with and without; where either never is done the draw is left out. */
static void difference(const changing *c, size_t vessel, double *work, fv_band *band)
{
    const match_draws *d = &c->found->draws;
    const size_t n = c->changed.plant->vessel_count;
    double *values = work, *weights = work + d->count, *scratch = work + 2 * d->count;
    size_t count = 0;
    for (size_t i = 0; i < d->count; i++) {
        const double later = c->hold[i * n + vessel] - d->list[i].hold[vessel];
        if (!isfinite(later))
            continue;
        values[count] = later;
        weights[count++] = d->list[i].weight;
    }
    band->low = count ? num_quantile(values, weights, count, 0.1, scratch) : NAN;
    band->middle = count ? num_quantile(values, weights, count, 0.5, scratch) : NAN;
    band->high = count ? num_quantile(values, weights, count, 0.9, scratch) : NAN;
}

static fv_status try_then(fv_forecast_answer *a, const match_found *found, double *work)
{
    changing c = {.found = found, .changed = found->match};
    const study_match *m = &found->match;
    const study_work plan = {.threads = m->threads,
                             .progress = m->progress,
                             .from = 0.95,
                             .to = 1,
                             .what = "running what could be done",
                             .caches = &c.changed.caches};
    c.changed.caches = (study_caches){0};
    fv_plant *plant = fv_plant_copy(m->plant);
    c.hold = malloc((found->draws.count * m->plant->vessel_count + 1) * sizeof *c.hold);
    fv_status status = plant && c.hold ? FV_OK : FV_FAIL;
    if (status == FV_FAIL)
        fv_error(m->faults, FV_ERR_SYSTEM, m->plant->loc, "out of memory");
    for (size_t i = 0; i < a->options.then_count && status == FV_OK; i++)
        status =
            study_logged_action_add(plant, m->log, m->lit, m->lit + m->now, a->options.then[i], "--then", m->faults);
    if (status == FV_OK)
        status = fv_plant_link(plant, m->faults);
    c.changed.plant = plant;
    if (status == FV_OK && study_run(&plan, found->draws.count, run_changed, &c) != STUDY_DONE)
        status = FV_FAIL;
    for (size_t v = 0; v < a->plant->vessel_count && status == FV_OK; v++)
        difference(&c, v, work, &a->vessels[v].then_hold);
    study_caches_free(&c.changed.caches);
    fv_plant_free(plant);
    free(c.hold);
    return status;
}

/* ---- the answer ---- */

static void find_last(fv_forecast_answer *a, const match_found *found, double *share)
{
    for (size_t v = 0; v < a->plant->vessel_count; v++)
        share[v] = 0;
    for (size_t i = 0; i < found->draws.count; i++) {
        const match_draw *d = &found->draws.list[i];
        size_t last = 0;
        for (size_t v = 1; v < a->plant->vessel_count; v++)
            if (d->hold[v] > d->hold[last])
                last = v;
        share[last] += d->weight;
    }
    for (size_t v = 1; v < a->plant->vessel_count; v++)
        if (share[v] > share[a->last])
            a->last = (int)v;
}

/* Quantiles in the middles of as many equal parts. */
static bool fill_ends(fv_forecast_answer *a, const match_draws *draws, double *work)
{
    enum { ENDS = 64 };
    double *ends = fv_arena_alloc(a->arena, ENDS, sizeof *ends), *weights = work + draws->count;
    for (size_t i = 0; i < draws->count; i++) {
        work[i] = 0;
        weights[i] = draws->list[i].weight;
        for (size_t v = 0; v < a->plant->vessel_count; v++)
            if (a->vessels[v].chance > 0.5)
                work[i] = fmax(work[i], draws->list[i].hold[v]);
    }
    for (size_t k = 0; ends && k < ENDS; k++)
        ends[k] = num_quantile(work, weights, draws->count, ((double)k + 0.5) / ENDS, work + 2 * draws->count);
    a->ends = ends;
    a->end_count = ENDS;
    return ends != NULL;
}

static bool fill_vessels(fv_forecast_answer *a, const match_found *found, double *work)
{
    const size_t n = a->plant->vessel_count;
    fv_fit_vessel *bands = fv_arena_alloc(a->arena, n + 1, sizeof *bands);
    double last[3];
    a->vessels = fv_arena_alloc(a->arena, n + 1, sizeof *a->vessels);
    a->modes = fv_arena_alloc(a->arena, found->mode_count + 1, sizeof *a->modes);
    if (!bands || !a->vessels || !a->modes)
        return false;
    study_match_bands(&found->match, &found->draws, bands, last, work);
    const fv_band none = {NAN, NAN, NAN, NAN, NAN, NAN};
    for (size_t v = 0; v < n; v++) {
        double done = 0;
        for (size_t i = 0; i < found->draws.count; i++)
            done += found->draws.list[i].hold[v] <= found->match.now ? found->draws.list[i].weight : 0;
        a->vessels[v] =
            (fv_forecast_vessel){bands[v].core, bands[v].hold, bands[v].chance, NAN, done >= NEARLY_SURE, none};
    }
    a->mode_count = study_match_told(found, a->modes);
    a->last_low = last[0];
    a->last_middle = last[1];
    a->last_high = last[2];
    return fill_ends(a, &found->draws, work);
}

/* The core now, by the most probable plant. */
static void fill_now(fv_forecast_answer *a, match_found *found)
{
    fv_plant *plant;
    const match_mode *mode = &found->modes[0];
    study_match *m = &found->match;
    fv_heat_result *r = study_match_run(m, &mode->defect, mode->x, m->now + 60, false, NULL, NULL, NULL, &plant);
    for (size_t v = 0; r && v < r->vessel_count; v++)
        a->vessels[v].core_now = r->vessels[v].core_end;
    fv_heat_free(r);
    fv_plant_free(plant);
}

static bool fill(fv_forecast_answer *a, match_found *found)
{
    const size_t room = 4 * found->draws.count + a->plant->vessel_count + 4;
    double *work = malloc(room * sizeof *work);
    bool good = work && fill_vessels(a, found, work);
    if (!good)
        fv_error(found->match.faults, FV_ERR_SYSTEM, a->plant->loc, "out of memory");
    if (good) {
        find_last(a, found, work);
        fill_now(a, found);
        a->lit = found->match.lit;
        a->now = found->match.lit + found->match.now;
        a->effective = found->draws.effective;
        a->sampled = found->draws.sampled;
        a->stopped = found->match.stopped;
        a->draws = found->draws.count;
        a->used = found->match.residuals;
        good = a->options.then_count == 0 || try_then(a, found, work) == FV_OK;
        a->runs = found->match.runs;
    }
    free(work);
    return good;
}

fv_forecast_answer *fv_forecast_run(const fv_plant *plant, const fv_logfile *log, const fv_forecast_options *options,
                                    const fv_progress *progress, fv_faults *faults)
{
    if (!plant || !log || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_forecast_answer *a = study_answer_new(sizeof *a, plant->loc, &arena, faults);
    if (!a)
        return NULL;
    *a = (fv_forecast_answer){.plant = plant, .log = log, .options = *options, .arena = arena};
    a->options.fit.goes_on = true;
    match_found *found = study_match_find(plant, log, &a->options.fit, arena, progress, faults);
    const bool good = found && fill(a, found) && study_match_had_memory(&found->match);
    study_match_found_free(found);
    if (good)
        return a;
    fv_arena_free(arena);
    return NULL;
}

void fv_forecast_free(fv_forecast_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
