/* SPDX-License-Identifier: MIT */
/* Draws from the posterior: from the normal approximation at each mode, weighted by the true density; where the weights
 * leave too few of them, moved until their slope is what a draw's is to be (randomize-then-optimize; Bardsley, Solonen,
 * Haario & Laine, SIAM J. Sci. Comput. 36 (2014) A1895), and then alike. Weights and moves ask for runs up to the
 * last reading; a draw that stays is run whole. */
#include "num/posterior.h"
#include "num/sample.h"
#include "study/match.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double EFFECTIVE_LEAST = 50, SHARE_LEAST = 0.3; /* draws that must count; of few draws, that share */
static const double GOOD_ENOUGH = 0.1;                       /* of a slope, in units of its deviation, squared */
enum { CORRECTIONS = 4, FEWEST = 32 };                       /* FEWEST: draws, where the user stops them */

typedef struct {
    study_match *match;
    const match_mode *modes;
    match_draw *list;
    double *z;                  /* count x dim_most: standard normals of the draws */
    double *density, *proposal; /* logarithms, up to what all share; density NAN: not looked at yet */
    double *slopes;             /* count x dim_most, of the draws before they are moved */
    double until;
    size_t dim_most;
} drawing;

static double log_density(const match_mode *mode, size_t residuals, const double *f, const double *x)
{
    double sum = 0;
    for (size_t i = 0; i < residuals; i++)
        sum += f[i] * f[i];
    for (size_t i = 0; i < mode->dim; i++)
        sum += x[i] * x[i];
    return -0.5 * sum;
}

/* The run of a draw to its end, and what its readings say; f: residuals, in room for them. */
static void run_draw(const drawing *d, match_draw *draw, double *f, double *density, fv_heat_cache *cache,
                     const fv_progress *progress)
{
    const match_mode *mode = &d->modes[draw->mode];
    study_match *m = d->match;
    match_curves curves = {0};
    fv_plant *plant = NULL;
    fv_heat_result *r = study_match_run(m, &mode->defect, draw->x, d->until, true, cache, progress, &curves, &plant);
    *density = -INFINITY;
    if (r) {
        study_match_residuals(m, &curves, draw->x, f);
        *density = log_density(mode, m->residuals, f, draw->x);
        const double shift = draw->x[m->unknowns.count + m->series_count] * m->lit_error;
        for (size_t p = 0; p < m->readings.count; p++)
            for (size_t i = 0; i < FV_FIT_MOMENTS; i++)
                draw->curve[p * FV_FIT_MOMENTS + i] = study_match_at(&curves, p, study_match_moment(m, i) - shift);
        for (size_t v = 0; v < r->vessel_count; v++) {
            draw->core[v] = isnan(r->vessels[v].core) ? INFINITY : r->vessels[v].core;
            draw->hold[v] = isnan(r->vessels[v].hold) ? INFINITY : r->vessels[v].hold;
        }
    }
    study_match_curves_free(&curves);
    fv_heat_free(r);
    fv_plant_free(plant);
}

/* Where the readings would be with x; false: no solution. */
static bool residuals_at(const drawing *d, const match_mode *mode, const double *x, double *f, fv_heat_cache *cache,
                         const fv_progress *progress)
{
    match_curves curves = {0};
    fv_plant *plant;
    fv_heat_result *r =
        study_match_run(d->match, &mode->defect, x, d->match->now + 900, false, cache, progress, &curves, &plant);
    if (r)
        study_match_residuals(d->match, &curves, x, f);
    study_match_curves_free(&curves);
    fv_heat_free(r);
    fv_plant_free(plant);
    return r != NULL;
}

/* Density and slope where the mode's approximation puts a draw. */
static fv_status look_at_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const drawing *d = context;
    const match_draw *draw = &d->list[index];
    const match_mode *mode = &d->modes[draw->mode];
    const size_t n = d->match->residuals;
    double *f = malloc((n + 1) * sizeof *f);
    if (!f)
        return FV_FAIL;
    d->density[index] = -INFINITY;
    if (residuals_at(d, mode, draw->x, f, study_cache(&d->match->caches, worker), progress)) {
        d->density[index] = log_density(mode, n, f, draw->x);
        study_match_slope(mode, n, f, draw->x, d->slopes + index * d->dim_most);
    }
    free(f);
    return FV_OK;
}

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const drawing *d = context;
    double *f = malloc((d->match->residuals + 1) * sizeof *f);
    if (f)
        run_draw(d, &d->list[index], f, d->density + index, study_cache(&d->match->caches, worker), progress);
    free(f);
    return f ? FV_OK : FV_FAIL;
}

static bool room_for(study_match *m, const match_mode *modes, match_draw *list, size_t count)
{
    const size_t v = m->plant->vessel_count;
    for (size_t i = 0; i < count; i++) {
        list[i].x = fv_arena_alloc(m->arena, modes[list[i].mode].dim, sizeof(double));
        list[i].core = fv_arena_alloc(m->arena, v + 1, sizeof(double));
        list[i].hold = fv_arena_alloc(m->arena, v + 1, sizeof(double));
        list[i].curve = fv_arena_alloc(m->arena, m->readings.count * FV_FIT_MOMENTS + 1, sizeof(double));
        if (!list[i].x || !list[i].core || !list[i].hold || !list[i].curve)
            return false;
    }
    return true;
}

/* Draws in proportion to what the modes are thought to weigh, spread over the list. */
static void share_out(const match_mode *modes, size_t mode_count, size_t count, match_draw *list)
{
    double weight[MATCH_MODES_MOST], lacks[MATCH_MODES_MOST] = {0}, sum = 0;
    for (size_t k = 0; k < mode_count; k++)
        sum += weight[k] = exp(modes[k].evidence - modes[0].evidence);
    for (size_t i = 0; i < count; i++) {
        size_t most = 0;
        for (size_t k = 0; k < mode_count; k++) {
            lacks[k] += weight[k] / sum;
            most = lacks[k] > lacks[most] ? k : most;
        }
        list[i].mode = most;
        lacks[most]--;
    }
}

static void weigh(drawing *d, const match_mode *modes, size_t mode_count, size_t count, double *probability,
                  match_draws *out)
{
    double of_mode[MATCH_MODES_MOST] = {0};
    double *weights = d->proposal; /* has been used by then */
    for (size_t i = 0; i < count; i++)
        of_mode[d->list[i].mode]++;
    for (size_t i = 0; i < count; i++) {
        const match_mode *mode = &modes[d->list[i].mode];
        double log_q = 0, prior = 0;
        for (size_t k = 0; k < mode->dim; k++)
            log_q -= 0.5 * pow(d->z[i * d->dim_most + k], 2) + log(mode->factor[k * mode->dim + k]);
        /* what the evidence has beside the density: the prior of the defect */
        prior = mode->evidence + 0.5 * mode->sum;
        for (size_t k = 0; k < mode->dim; k++)
            prior -= log(mode->factor[k * mode->dim + k]);
        d->proposal[i] = log_q + log(of_mode[d->list[i].mode] / (double)count) - prior;
    }
    out->effective = num_importance_weights(d->density, d->proposal, count, weights);
    for (size_t k = 0; k < mode_count; k++)
        probability[k] = 0;
    for (size_t i = 0; i < count; i++) {
        d->list[i].weight = weights[i];
        probability[d->list[i].mode] += weights[i];
    }
}

/* ---- randomize, then optimize ---- */

/* The slope that a draw is to have: L^-T z, as much as readings and priors scatter along the mode's directions. */
static void wanted_slope(const match_mode *mode, const double *z, double *b)
{
    const size_t n = mode->dim;
    for (size_t i = n; i-- > 0;) {
        double sum = z[i];
        for (size_t k = i + 1; k < n; k++)
            sum -= mode->factor[k * n + i] * b[k];
        b[i] = sum / mode->factor[i * n + i];
    }
}

typedef struct {
    double *f, *g, *b, *step, *x; /* of a draw */
} optimizing;

/* Moves a draw until its slope is the wanted one; each step is halved where that goes no nearer. */
static void move_draw(const drawing *d, size_t index, const optimizing *o, fv_heat_cache *cache,
                      const fv_progress *progress)
{
    match_draw *draw = &d->list[index];
    const match_mode *mode = &d->modes[draw->mode];
    const double *slope = d->slopes + index * d->dim_most;
    double best = INFINITY, part = 1;
    bool known = isfinite(d->density[index]);
    d->density[index] = NAN; /* from here on the slope is that of another place */
    wanted_slope(mode, d->z + index * d->dim_most, o->b);
    memcpy(o->x, draw->x, mode->dim * sizeof *o->x);
    for (int k = 0; k < CORRECTIONS; k++) {
        double off = INFINITY;
        if (known || residuals_at(d, mode, o->x, o->f, cache, progress)) {
            if (known)
                memcpy(o->g, slope, mode->dim * sizeof *o->g);
            else
                study_match_slope(mode, d->match->residuals, o->f, o->x, o->g);
            for (size_t i = 0; i < mode->dim; i++)
                o->g[i] -= o->b[i];
            off = study_match_step(mode, o->g, o->f); /* f is free again: there is room for both */
        }
        known = false;
        if (off < best) {
            best = off;
            memcpy(draw->x, o->x, mode->dim * sizeof *o->x);
            memcpy(o->step, o->f, mode->dim * sizeof *o->step);
            part = 1;
        } else {
            part *= 0.5;
        }
        if (best < GOOD_ENOUGH || isinf(best))
            break;
        for (size_t i = 0; i < mode->dim; i++)
            o->x[i] = draw->x[i] - part * o->step[i];
    }
}

static fv_status optimize_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const drawing *d = context;
    if (d->list[index].done)
        return FV_OK;
    const size_t n = d->match->residuals + d->dim_most + 1;
    fv_heat_cache *cache = study_cache(&d->match->caches, worker);
    match_draw *draw = &d->list[index];
    optimizing o = {malloc(n * sizeof(double)), malloc(n * sizeof(double)), malloc(n * sizeof(double)),
                    malloc(n * sizeof(double)), malloc(n * sizeof(double))};
    const bool room = o.f && o.g && o.b && o.step && o.x;
    if (room) {
        move_draw(d, index, &o, cache, progress);
        run_draw(d, draw, o.f, d->density + index, cache, progress);
        draw->done = isfinite(d->density[index]);
    }
    free(o.f);
    free(o.g);
    free(o.b);
    free(o.step);
    free(o.x);
    return room ? FV_OK : FV_FAIL;
}

static double effective_least(size_t count)
{
    return fmin(EFFECTIVE_LEAST, SHARE_LEAST * (double)count);
}

/* The draws that are done go first. */
static size_t keep_done(drawing *d, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (d->list[i].done)
            d->list[kept++] = d->list[i];
    return kept;
}

/* Each mode has its evidence, its draws even shares of that. Their published weights need the Jacobian at each of them;
 * what is known without, half of |F|^2 - |Q'F|^2, is of higher order than what is not, and alone makes bands narrow. */
static void weigh_moved(const match_mode *modes, size_t mode_count, double *probability, match_draws *out)
{
    double of_mode[MATCH_MODES_MOST] = {0}, all = 0, squares = 0;
    for (size_t i = 0; i < out->count; i++)
        of_mode[out->list[i].mode]++;
    for (size_t k = 0; k < mode_count; k++)
        all += probability[k] = of_mode[k] > 0 ? exp(modes[k].evidence - modes[0].evidence) : 0;
    for (size_t k = 0; k < mode_count; k++)
        probability[k] /= all;
    for (size_t i = 0; i < out->count; i++) {
        match_draw *draw = &out->list[i];
        draw->weight = probability[draw->mode] / of_mode[draw->mode];
        squares += draw->weight * draw->weight;
    }
    out->effective = 1 / squares;
}

static study_ending optimize(drawing *d, const match_mode *modes, size_t mode_count, size_t count, double *probability,
                             match_draws *out)
{
    study_work plan = {.threads = d->match->threads,
                       .progress = d->match->progress,
                       .from = 0.88,
                       .to = 1,
                       .what = "sampling what the plant may be",
                       .caches = &d->match->caches};
    study_ending outcome = study_run(&plan, count, optimize_one, d);
    if (outcome == STUDY_STOPPED) {
        d->match->stopped = true;
        plan.progress = d->match->progress = NULL;
        outcome = study_run(&plan, count < FEWEST ? count : FEWEST, optimize_one, d);
    }
    d->match->runs += count * CORRECTIONS;
    if (outcome == STUDY_DONE && (out->count = count = keep_done(d, count)) == 0)
        outcome = study_match_refuse(d->match);
    if (outcome == STUDY_DONE)
        weigh_moved(modes, mode_count, probability, out);
    return outcome;
}

static study_ending run_draws(drawing *d, size_t count, study_job *job, double from)
{
    const study_work plan = {.threads = d->match->threads,
                             .progress = d->match->progress,
                             .from = from,
                             .to = from + 0.015,
                             .what = "sampling what the plant may be",
                             .caches = &d->match->caches};
    d->match->runs += count;
    return study_run(&plan, count, job, d);
}

study_ending study_match_draw(study_match *match, const match_mode *modes, size_t mode_count, double *probability,
                              size_t count, unsigned long seed, double until, match_draws *out)
{
    drawing d = {.match = match, .modes = modes, .until = until};
    for (size_t k = 0; k < mode_count; k++)
        d.dim_most = modes[k].dim > d.dim_most ? modes[k].dim : d.dim_most;
    fv_arena *arena = match->arena;
    d.list = fv_arena_alloc(arena, count + 1, sizeof *d.list);
    d.z = fv_arena_alloc(arena, count * d.dim_most + 1, sizeof(double));
    d.slopes = fv_arena_alloc(arena, count * d.dim_most + 1, sizeof(double));
    d.density = fv_arena_alloc(arena, count + 1, sizeof(double));
    d.proposal = fv_arena_alloc(arena, count + 1, sizeof(double));
    if (!d.list || !d.z || !d.slopes || !d.density || !d.proposal)
        return STUDY_FAILED;
    share_out(modes, mode_count, count, d.list);
    if (!room_for(match, modes, d.list, count) || num_sample_normal(count, d.dim_most, 1, seed, d.z) == FV_FAIL)
        return STUDY_FAILED;
    for (size_t i = 0; i < count; i++) {
        const match_mode *mode = &modes[d.list[i].mode];
        d.density[i] = NAN;
        num_posterior_draw(mode->x, mode->factor, mode->dim, d.z + i * d.dim_most, d.list[i].x);
    }
    out->list = d.list;
    out->count = count = match->stopped && count > FEWEST ? FEWEST : count;
    study_ending outcome = run_draws(&d, count, look_at_one, 0.85);
    if (outcome == STUDY_DONE)
        weigh(&d, modes, mode_count, count, probability, out);
    if (outcome == STUDY_DONE && out->effective >= effective_least(count)) {
        outcome = run_draws(&d, count, run_one, 0.865);
        if (outcome == STUDY_DONE) {
            weigh(&d, modes, mode_count, count, probability, out);
            return outcome;
        }
    }
    if (outcome == STUDY_FAILED)
        return outcome;
    out->sampled = true;
    return optimize(&d, modes, mode_count, count, probability, out);
}
