/* SPDX-License-Identifier: MIT */
/* The last steps to a mode. Least squares stops where a step no longer pays, which along the ridges that readings leave
 * may be deviations away; draws and evidence ask for the place where the slope is nought. With a fresh Jacobian kept,
 * each further step costs one run. */
#include "num/posterior.h"
#include "study/match.h"

#include <stdlib.h>
#include <string.h>

static const double NEAR = 0.02; /* of the slope, in units of its deviation, squared */
enum { STEPS = 8 };

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

/* Residuals at x and half the sum of squares with the priors'; false: no solution there. */
static bool look(study_match *m, const match_mode *mode, const double *x, double *f, match_curves *curves, double *sum)
{
    fv_plant *plant;
    fv_heat_result *r =
        study_match_run(m, &mode->defect, x, m->now + 900, false, study_kit(&m->kits, 0), m->progress, curves, &plant);
    m->runs++;
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

/* Steps that lower the sum of squares, each halved until it does. room: residuals + 3 dim. */
static void walk(study_match *m, match_mode *mode, double *f, double *room)
{
    double *g = room + m->residuals, *step = g + mode->dim, *x = step + mode->dim, part = 1;
    study_match_slope(mode, m->residuals, f, mode->x, g);
    double off = study_match_step(mode, g, step);
    for (int k = 0; k < STEPS && off > NEAR && part > 0.1; k++) {
        match_curves curves = {0};
        double sum;
        for (size_t i = 0; i < mode->dim; i++)
            x[i] = mode->x[i] - part * step[i];
        const bool lower = look(m, mode, x, room, &curves, &sum) && sum < mode->sum;
        study_match_curves_free(&curves);
        if (!lower) {
            part *= 0.5;
            continue;
        }
        memcpy(mode->x, x, mode->dim * sizeof *x);
        memcpy(f, room, m->residuals * sizeof *f);
        mode->sum = sum;
        part = 1;
        study_match_slope(mode, m->residuals, f, mode->x, g);
        off = study_match_step(mode, g, step);
    }
}

study_ending study_match_settle(study_match *match, match_mode *mode, double from, double to)
{
    const size_t n = match->residuals, d = mode->dim;
    const double before = study_match_evidence(match, mode);
    match_curves curves = {0};
    double *f = malloc((2 * n + 3 * d + 1) * sizeof *f);
    study_ending outcome = !f                                                   ? STUDY_FAILED
                           : look(match, mode, mode->x, f, &curves, &mode->sum) ? STUDY_DONE
                                                                                : study_match_refuse(match);
    if (outcome == STUDY_DONE && !mode->sloped)
        outcome = study_match_jacobian(match, &mode->defect, mode->x, f, &curves, mode->j, from, to);
    study_match_curves_free(&curves);
    if (outcome == STUDY_DONE && (num_ridge_covariance(mode->j, n, d, mode->covariance) == FV_FAIL ||
                                  num_cholesky(mode->covariance, d, mode->factor) == FV_FAIL))
        outcome = study_match_refuse(match);
    if (outcome == STUDY_DONE) {
        walk(match, mode, f, f + n);
        mode->sloped = false;
        mode->evidence += study_match_evidence(match, mode) - before;
    }
    free(f);
    return outcome;
}
