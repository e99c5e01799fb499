/* SPDX-License-Identifier: MIT */
/* The most probable parameters, by trust-region least squares on whitened residuals and priors. */
#include "num/least_squares.h"
#include "num/posterior.h"
#include "study/match.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double STEP = 0.25; /* of a parameter, for slopes: runs are right to some 1e-4, so no finer */
static const double AHEAD = 900; /* s that a run goes on after the last reading */

/* ---- slopes ---- */

typedef struct {
    study_match *match;
    const study_defect *defect;
    const double *x, *f;
    const match_curves *base;
    double *j;
    size_t dim;
    bool failed;
} sloping;

static void fill_column(const sloping *s, const match_curves *curves, size_t column, double *x, double *f)
{
    study_match_residuals(s->match, curves, x, f);
    for (size_t i = 0; i < s->match->residuals; i++)
        s->j[i * s->dim + column] = (f[i] - s->f[i]) / STEP;
}

/* Columns that need a run: the plant's unknowns and the defect. */
static size_t column_of(const sloping *s, size_t job)
{
    return job < s->match->unknowns.count ? job : s->dim - 1;
}

static fv_status one_slope(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const sloping *s = context;
    const size_t column = column_of(s, index);
    double *x = malloc(s->dim * sizeof *x), *f = malloc((s->match->residuals + 1) * sizeof *f);
    match_curves curves = {0};
    fv_plant *plant = NULL;
    fv_heat_result *result = NULL;
    if (x && f) {
        memcpy(x, s->x, s->dim * sizeof *x);
        x[column] += STEP;
        result = study_match_run(s->match, s->defect, x, s->match->now + AHEAD, false,
                                 study_cache(&s->match->caches, worker), progress, &curves, &plant);
    }
    if (result)
        fill_column(s, &curves, column, x, f);
    else
        for (size_t i = 0; i < s->match->residuals; i++)
            s->j[i * s->dim + column] = 0; /* no solution there: nothing is learnt of it in this step */
    study_match_curves_free(&curves);
    fv_heat_free(result);
    fv_plant_free(plant);
    const bool room = x && f;
    free(x);
    free(f);
    return room ? FV_OK : FV_FAIL;
}

/* Offsets and time of lighting need none. */
static bool cheap_slopes(const sloping *s)
{
    const size_t first = s->match->unknowns.count, last = first + s->match->series_count;
    double *x = malloc(s->dim * sizeof *x), *f = malloc((s->match->residuals + 1) * sizeof *f);
    for (size_t c = first; c <= last && x && f; c++) {
        memcpy(x, s->x, s->dim * sizeof *x);
        x[c] += STEP;
        fill_column(s, s->base, c, x, f);
    }
    const bool room = x && f;
    free(x);
    free(f);
    return room;
}

study_ending study_match_jacobian(study_match *match, const study_defect *defect, const double *x, const double *f,
                                  const match_curves *base, double *j, double from, double to)
{
    sloping s = {match, defect, x, f, base, j, study_match_dim(match, defect), false};
    const size_t jobs = match->unknowns.count + (defect->kind != FV_DEFECT_NONE);
    const study_work plan = {.threads = match->threads,
                             .progress = match->progress,
                             .from = from,
                             .to = to,
                             .what = "fitting the plant to the log",
                             .caches = &match->caches};
    match->runs += jobs;
    match->shown = to;
    return cheap_slopes(&s) ? study_run(&plan, jobs, one_slope, &s) : STUDY_FAILED;
}

/* ---- least squares ---- */

typedef struct {
    study_match *match;
    const study_defect *defect;
    size_t dim;
    match_curves curves; /* at `at` */
    double *at, *slope_at;
    double *slopes;     /* the Jacobian of the readings last found, at slope_at */
    double from, to;    /* of the progress */
    size_t asked, most; /* Jacobians */
    study_ending outcome;
} solving;

/* Curves at x, kept: least squares asks for the slopes where it asked for the residuals before. */
static bool curves_at(solving *s, const double *x)
{
    if (s->curves.value && memcmp(s->at, x, s->dim * sizeof *x) == 0)
        return true;
    fv_plant *plant;
    study_match_curves_free(&s->curves);
    fv_heat_result *result = study_match_run(s->match, s->defect, x, s->match->now + AHEAD, false,
                                             study_cache(&s->match->caches, 0), s->match->progress, &s->curves, &plant);
    s->match->runs++;
    fv_heat_free(result);
    fv_plant_free(plant);
    memcpy(s->at, x, s->dim * sizeof *x);
    return result != NULL;
}

static fv_status residual(void *context, const double *x, double *f)
{
    solving *s = context;
    if (s->outcome != STUDY_DONE || !curves_at(s, x))
        return FV_FAIL;
    study_match_residuals(s->match, &s->curves, x, f);
    memcpy(f + s->match->residuals, x, s->dim * sizeof *x);
    return FV_OK;
}

static fv_status jacobian(void *context, const double *x, const double *f, double *j)
{
    solving *s = context;
    if (s->outcome != STUDY_DONE || !curves_at(s, x))
        return FV_FAIL;
    const double part = (s->to - s->from) / (double)s->most, at = s->from + part * (double)s->asked;
    s->asked += s->asked + 1 < s->most;
    memset(j, 0, (s->match->residuals + s->dim) * s->dim * sizeof *j);
    s->outcome = study_match_jacobian(s->match, s->defect, x, f, &s->curves, j, at, at + part);
    memcpy(s->slope_at, x, s->dim * sizeof *x);
    memcpy(s->slopes, j, s->match->residuals * s->dim * sizeof *j);
    for (size_t k = 0; k < s->dim; k++)
        j[(s->match->residuals + k) * s->dim + k] = 1;
    return s->outcome == STUDY_DONE ? FV_OK : FV_FAIL;
}

bool study_match_mode_new(study_match *m, const study_defect *defect, match_mode *mode)
{
    mode->defect = *defect;
    mode->dim = study_match_dim(m, defect);
    mode->good = mode->sloped = false;
    if (!mode->x) {
        mode->j = fv_arena_alloc(m->arena, m->residuals * mode->dim + 1, sizeof(double));
        mode->f = fv_arena_alloc(m->arena, m->residuals + 1, sizeof(double));
        mode->x = fv_arena_alloc(m->arena, mode->dim, sizeof(double));
        mode->covariance = fv_arena_alloc(m->arena, mode->dim * mode->dim, sizeof(double));
        mode->factor = fv_arena_alloc(m->arena, mode->dim * mode->dim, sizeof(double));
    }
    return mode->j && mode->f && mode->x && mode->covariance && mode->factor;
}

study_ending study_match_solve(study_match *match, const study_defect *defect, const double *start, size_t iterations,
                               double from, double to, match_mode *mode)
{
    if (!study_match_mode_new(match, defect, mode))
        return STUDY_FAILED;
    solving s = {.match = match,
                 .defect = defect,
                 .dim = mode->dim,
                 .slopes = mode->j,
                 .from = from,
                 .to = to,
                 .most = iterations + 1};
    const num_least_squares problem = {.residuals = match->residuals + mode->dim,
                                       .parameters = mode->dim,
                                       .residual = residual,
                                       .jacobian = jacobian,
                                       .context = &s,
                                       .x_tolerance = 3e-3,
                                       .g_tolerance = 1e-4,
                                       .f_tolerance = 1e-4,
                                       .iterations = iterations};
    num_least_squares_outcome outcome = {.no_memory = true};
    double *places = calloc(2 * mode->dim, sizeof *places);
    s.at = places;
    s.slope_at = places ? places + mode->dim : NULL;
    if (start && start != mode->x)
        memcpy(mode->x, start, mode->dim * sizeof *mode->x);
    fv_status status = s.at ? num_least_squares_solve(&problem, mode->x, mode->covariance, &outcome) : FV_FAIL;
    if (status == FV_OK && s.outcome == STUDY_DONE) {
        mode->sum = outcome.sum;
        mode->sloped = memcmp(s.slope_at, mode->x, mode->dim * sizeof *mode->x) == 0;
        mode->good = num_cholesky(mode->covariance, mode->dim, mode->factor) == FV_OK;
    }
    study_match_curves_free(&s.curves);
    free(places);
    return s.outcome == STUDY_DONE && status != FV_OK && outcome.no_memory ? STUDY_FAILED : s.outcome;
}

/* ---- the slow error ---- */

/* -2 ln likelihood of the departures at cores or in chambers for a size of the slow error. */
static double misfit(study_match *m, const double *departures, bool chamber, double *white)
{
    double sum = 0;
    for (size_t k = 0; k < m->series_count; k++) {
        const match_series *s = &m->series[k];
        const fv_probe_readings *r = &m->readings.list[s->probe];
        if (r->reads != FV_READS_TEMPERATURE || (r->at == FV_PROBE_CHAMBER) != chamber)
            continue;
        num_whiten(&s->white, departures + s->first, s->count, white);
        sum += s->log_norm;
        for (size_t i = 0; i < s->count; i++)
            sum += pow(study_huber(white[i]), 2);
    }
    return sum;
}

fv_status study_match_errors(study_match *match, const match_mode *mode)
{
    static const double sizes[] = {0.85, 1.2, 1.7, 2.4, 3.2}; /* K: no model of a plant is better than the first */
    double *departures = malloc((match->residuals + 1) * sizeof *departures);
    double *white = malloc((match->residuals + 1) * sizeof *white);
    match_curves curves = {0};
    fv_plant *plant = NULL;
    fv_heat_result *result = study_match_run(match, &mode->defect, mode->x, match->now + AHEAD, false, NULL,
                                             match->progress, &curves, &plant);
    double *holds = malloc((match->plant->vessel_count + 1) * sizeof *holds);
    const bool good = departures && white && holds && result;
    double best[2] = {match->slow[0], match->slow[1]};
    if (good) {
        /* Readings once a vessel's hold is done, and its steam is shut, tell of how it cools, which no forecast needs
         * and the model knows less well. */
        for (size_t v = 0; v < result->vessel_count; v++)
            holds[v] = result->vessels[v].hold;
        study_match_use_readings(match, holds);
        study_match_departures(match, &curves, mode->x, departures);
        for (int chamber = 0; chamber < 2; chamber++) {
            double least = INFINITY;
            for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
                match->slow[chamber] = sizes[k];
                study_match_whiten(match);
                const double now = misfit(match, departures, chamber, white);
                if (now < least) {
                    least = now;
                    best[chamber] = sizes[k];
                }
            }
            match->slow[chamber] = best[chamber];
        }
    }
    study_match_whiten(match);
    if (!departures || !white || !holds)
        atomic_store(match->no_memory, true);
    free(departures);
    free(white);
    free(holds);
    study_match_curves_free(&curves);
    fv_heat_free(result);
    fv_plant_free(plant);
    return good ? FV_OK : FV_FAIL;
}
