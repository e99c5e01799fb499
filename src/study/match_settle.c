/* SPDX-License-Identifier: MIT */
/* The last steps to a mode. Least squares stops where a step no longer pays, which along the ridges that readings leave
 * may be deviations away; draws and evidence ask for the place where the slope is nought. With a fresh Jacobian kept,
 * each further step costs one run. */
#include "num/posterior.h"
#include "study/match.h"

#include <stdlib.h>
#include <string.h>

static const double NEAR = 0.02; /* of the slope, in units of its deviation, squared */

void study_match_slope(const match_mode *mode, size_t residuals, const double *f, const double *x, double *g)
{
    memcpy(g, x, mode->dim * sizeof *g);
    for (size_t i = 0; i < residuals; i++)
        for (size_t k = 0; k < mode->dim; k++)
            g[k] += mode->j[i * mode->dim + k] * f[i];
}

double study_match_step(const match_mode *mode, const double *g, double *step)
{
    double sum = 0;
    for (size_t i = 0; i < mode->dim; i++) {
        step[i] = 0;
        for (size_t k = 0; k < mode->dim; k++)
            step[i] += mode->covariance[i * mode->dim + k] * g[k];
        sum += g[i] * step[i];
    }
    return sum;
}

/* Residuals at x and the sum of squares with the priors'; false: no solution there. */
static bool look(const study_match *m, const match_mode *mode, const double *x, double *f, double *sum,
                 fv_heat_cache *cache, const fv_progress *progress, match_curves *curves)
{
    fv_plant *plant;
    fv_heat_result *r = study_match_run(m, &mode->defect, x, m->now + 900, false, cache, progress, curves, &plant);
    if (!r)
        return false;
    study_match_residuals(m, curves, x, f);
    *sum = 0;
    for (size_t i = 0; i < m->residuals; i++)
        *sum += f[i] * f[i];
    for (size_t i = 0; i < mode->dim; i++)
        *sum += x[i] * x[i];
    fv_heat_free(r);
    fv_plant_free(plant);
    return true;
}

/* Covariance and its factor from the Jacobian. */
static bool shape(const study_match *m, match_mode *mode)
{
    return num_ridge_covariance(mode->j, m->residuals, mode->dim, mode->covariance) == FV_OK &&
           num_cholesky(mode->covariance, mode->dim, mode->factor) == FV_OK;
}

/* Steps that lower the sum of squares, each halved until it does. room: residuals + 3 dim. */
static void walk(const study_match *m, match_mode *mode, double *room, fv_heat_cache *cache,
                 const fv_progress *progress)
{
    double *g = room + m->residuals, *step = g + mode->dim, *x = step + mode->dim, part = 1;
    study_match_slope(mode, m->residuals, mode->f, mode->x, g);
    double off = study_match_step(mode, g, step);
    for (int k = 0; k < MATCH_STEPS && off > NEAR && part > 0.1; k++) {
        match_curves curves = {0};
        double sum;
        for (size_t i = 0; i < mode->dim; i++)
            x[i] = mode->x[i] - part * step[i];
        const bool lower = look(m, mode, x, room, &sum, cache, progress, &curves) && sum < mode->sum;
        study_match_curves_free(&curves);
        if (!lower) {
            part *= 0.5;
            continue;
        }
        memcpy(mode->x, x, mode->dim * sizeof *x);
        memcpy(mode->f, room, m->residuals * sizeof *room);
        mode->sum = sum;
        mode->sloped = false;
        part = 1;
        study_match_slope(mode, m->residuals, mode->f, mode->x, g);
        off = study_match_step(mode, g, step);
    }
    mode->evidence = study_match_evidence(m, mode);
}

static double *walking_room(const study_match *m, const match_mode *mode)
{
    return malloc((m->residuals + 3 * mode->dim + 1) * sizeof(double));
}

fv_status study_match_walk(const study_match *match, match_mode *mode, fv_heat_cache *cache,
                           const fv_progress *progress)
{
    match_curves curves = {0};
    double *room = walking_room(match, mode);
    if (!room)
        return FV_FAIL;
    mode->good = shape(match, mode) && look(match, mode, mode->x, mode->f, &mode->sum, cache, progress, &curves);
    study_match_curves_free(&curves);
    if (mode->good)
        walk(match, mode, room, cache, progress);
    free(room);
    return FV_OK;
}

study_ending study_match_settle(study_match *match, match_mode *mode, double from, double to)
{
    match_curves curves = {0};
    fv_heat_cache *cache = study_cache(&match->caches, 0);
    double *room = walking_room(match, mode);
    study_ending outcome = !room ? STUDY_FAILED
                           : look(match, mode, mode->x, mode->f, &mode->sum, cache, match->progress, &curves)
                               ? STUDY_DONE
                               : study_match_refuse(match);
    if (outcome == STUDY_DONE && !mode->sloped)
        outcome = study_match_jacobian(match, &mode->defect, mode->x, mode->f, &curves, mode->j, from, to);
    study_match_curves_free(&curves);
    if (outcome == STUDY_DONE && !shape(match, mode))
        outcome = study_match_refuse(match);
    if (outcome == STUDY_DONE) {
        mode->sloped = true;
        walk(match, mode, room, cache, match->progress);
        match->runs += MATCH_STEPS;
    }
    free(room);
    return outcome;
}
