/* SPDX-License-Identifier: MIT */
/* Plants with one thing wrong that nobody knows of.
 *
 * For each the residuals change along u when the defect comes in at its middle size, by one run. With J the slopes and
 * C the covariance at the mode of the plant without, a size of s such steps changes half the sum of squares, all else
 * following, by s (u.f) + s^2 (u.u - (J'u)' C (J'u)) / 2: that and the size's own prior predict its mode. It is gone
 * to with the same J, and once more with slopes of its own where much is to be said for it. A defect of which the log
 * says nothing yet keeps the probability that it had: leaving it out would make bands too narrow (Hoeting, Madigan,
 * Raftery & Volinsky, Stat. Sci. 14 (1999) 382). */
#include "farvessel/constants.h"
#include "num/distribution.h"
#include "num/posterior.h"
#include "num/sample.h"
#include "study/match.h"
#include "study/ways.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double NO_DEFECT = 0.5; /* probability beforehand that nothing is wrong. Common practice, no source */
static const double MIDDLE = -0.6;   /* a little below the middle of a defect's sizes, as a standard normal */
static const double WORTH_KEEPING = 0.005; /* probability: about one draw */
static const double OF_ITS_OWN = 0.1;      /* probability from which a mode gets slopes of its own */

typedef struct {
    study_match *match;
    const match_mode *base;
    study_defect *list;
    double *u;    /* by defect: change of the residuals */
    double *g;    /* by defect: J'u */
    double *z;    /* by defect: where its size will be */
    double *rise; /* and half the sum of squares above the base's; infinite: no solution */
    match_mode *modes;
    size_t *which; /* defect of each mode */
} trying;

/* The hose that leads to a vessel only: the line of its own that resists most. */
static int own_line(const study_match *m, const study_ways *ways, size_t vessel)
{
    int best = -1;
    double most = 0;
    for (size_t i = 0; i < m->plant->line_count; i++) {
        const fv_line *line = m->plant->lines[i];
        const double resists = line->length.v / pow(line->bore.v, 5);
        if (study_on_way(ways, vessel, i) && ways->kind[i] == WAY_OWN && resists > most) {
            most = resists;
            best = (int)i;
        }
    }
    return best;
}

static size_t list_defects(const study_match *m, study_defect *list)
{
    study_ways ways;
    size_t count = 0;
    if (!study_ways_find(m->plant, m->arena, &ways))
        return 0;
    for (size_t v = 0; v < m->plant->vessel_count; v++) {
        const int line = own_line(m, &ways, v);
        list[count++] = (study_defect){FV_DEFECT_CLOGGED, (int)v, -1};
        if (line >= 0) {
            list[count++] = (study_defect){FV_DEFECT_NARROW, (int)v, line};
            list[count++] = (study_defect){FV_DEFECT_SAG, (int)v, line};
        }
    }
    return count;
}

/* Steps of u that a size is, and how many more for a little more of z. */
static double steps_at(double z)
{
    return num_normal_share(z) / num_normal_share(MIDDLE);
}

static double steps_rise(double z)
{
    return exp(-0.5 * z * z) / sqrt(2 * FV_PI) / num_normal_share(MIDDLE);
}

/* The size that explains most, from u. */
static void predict_mode(const trying *t, size_t defect)
{
    const size_t d = t->base->dim, n = t->match->residuals;
    const double *u = t->u + defect * n, *c = t->base->covariance;
    double *g = t->g + defect * d, along = 0, left = 0;
    for (size_t i = 0; i < n; i++) {
        along += u[i] * t->base->f[i];
        left += u[i] * u[i];
        for (size_t k = 0; k < d; k++)
            g[k] += t->base->j[i * d + k] * u[i];
    }
    for (size_t a = 0; a < d; a++)
        for (size_t b = 0; b < d; b++)
            left -= g[a] * c[a * d + b] * g[b];
    for (double z = -3; z < 3; z += 0.05) {
        const double s = steps_at(z), rise = 0.5 * z * z + s * along + 0.5 * s * s * left;
        if (rise < t->rise[defect]) {
            t->rise[defect] = rise;
            t->z[defect] = z;
        }
    }
}

static fv_status look_at_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const trying *t = context;
    study_match *m = t->match;
    const size_t d = t->base->dim;
    double *x = malloc((d + 1) * sizeof *x), *u = t->u + index * m->residuals;
    match_curves curves = {0};
    fv_plant *plant = NULL;
    if (!x)
        return FV_FAIL;
    memcpy(x, t->base->x, d * sizeof *x);
    x[d] = MIDDLE;
    fv_heat_result *result = study_match_run(m, &t->list[index], x, m->now + 900, false,
                                             study_cache(&m->caches, worker), progress, &curves, &plant);
    t->rise[index] = INFINITY;
    if (result) {
        study_match_residuals(m, &curves, x, u);
        for (size_t i = 0; i < m->residuals; i++)
            u[i] -= t->base->f[i];
        predict_mode(t, index);
    }
    study_match_curves_free(&curves);
    fv_heat_free(result);
    fv_plant_free(plant);
    free(x);
    return FV_OK;
}

/* From where it was predicted to the mode. */
static fv_status go_to_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const trying *t = context;
    const size_t defect = t->which[index], d = t->base->dim, n = t->match->residuals;
    const double *u = t->u + defect * n, *g = t->g + defect * d, z = t->z[defect];
    match_mode *mode = &t->modes[index];
    for (size_t i = 0; i < n; i++) {
        memcpy(mode->j + i * (d + 1), t->base->j + i * d, d * sizeof *g);
        mode->j[i * (d + 1) + d] = u[i] * steps_rise(z);
    }
    for (size_t a = 0; a < d; a++) {
        mode->x[a] = t->base->x[a];
        for (size_t b = 0; b < d; b++)
            mode->x[a] -= steps_at(z) * t->base->covariance[a * d + b] * g[b];
    }
    mode->x[d] = z;
    return study_match_walk(t->match, mode, study_cache(&t->match->caches, worker), progress);
}

/* The likeliest as predicted, as far as there are places for modes. */
static bool choose(const trying *t, size_t defects, size_t *chosen)
{
    for (*chosen = 0; *chosen < MATCH_MODES_MOST - 1; (*chosen)++) {
        size_t best = 0;
        for (size_t i = 1; i < defects; i++)
            best = t->rise[i] < t->rise[best] ? i : best;
        if (isinf(t->rise[best]))
            break;
        t->rise[best] = INFINITY;
        t->which[*chosen] = best;
        if (!study_match_mode_new(t->match, &t->list[best], &t->modes[*chosen]))
            return false;
        /* the prior of this very defect among all */
        t->modes[*chosen].supposed = log((1 - NO_DEFECT) / (double)defects);
    }
    return true;
}

/* After the plain one, all that have one thing wrong. */
static study_ending try_defects(study_match *m, match_mode *modes, size_t *count)
{
    const size_t most = 3 * m->plant->vessel_count + 1;
    trying t = {.match = m,
                .base = modes,
                .modes = modes + 1,
                .list = fv_arena_alloc(m->arena, most, sizeof *t.list),
                .u = fv_arena_alloc(m->arena, most * m->residuals, sizeof *t.u),
                .g = fv_arena_alloc(m->arena, most * modes->dim, sizeof *t.g),
                .z = fv_arena_alloc(m->arena, most, sizeof *t.z),
                .rise = fv_arena_alloc(m->arena, most, sizeof *t.rise),
                .which = fv_arena_alloc(m->arena, most, sizeof *t.which)};
    study_work plan = {.threads = m->threads,
                       .progress = m->progress,
                       .from = 0.6,
                       .to = 0.65,
                       .what = "trying what may be wrong",
                       .caches = &m->caches};
    if (!t.list || !t.u || !t.g || !t.z || !t.rise || !t.which)
        return STUDY_FAILED;
    const size_t listed = list_defects(m, t.list);
    size_t chosen;
    if (listed == 0)
        return STUDY_FAILED;
    study_ending outcome = study_run(&plan, listed, look_at_one, &t);
    if (outcome != STUDY_DONE)
        return outcome;
    if (!choose(&t, listed, &chosen))
        return STUDY_FAILED;
    plan.from = plan.to;
    plan.to = 0.75;
    m->runs += listed + chosen * (1 + MATCH_STEPS);
    outcome = study_run(&plan, chosen, go_to_one, &t);
    for (size_t k = 0; k < chosen; k++)
        if (t.modes[k].good)
            modes[(*count)++] = t.modes[k];
    return outcome;
}

static int by_evidence(const void *a, const void *b)
{
    const double x = ((const match_mode *)a)->evidence, y = ((const match_mode *)b)->evidence;
    return (x < y) - (x > y);
}

static void drop_unlikely(match_mode *modes, size_t *count)
{
    qsort(modes, *count, sizeof *modes, by_evidence);
    size_t kept = 1;
    while (kept < *count && modes[kept].evidence > modes[0].evidence + log(WORTH_KEEPING))
        kept++;
    *count = kept;
}

static study_ending settle_likely(study_match *match, match_mode *modes, size_t count)
{
    double sum = 0;
    study_ending outcome = STUDY_DONE;
    for (size_t k = 0; k < count; k++)
        sum += exp(modes[k].evidence - modes[0].evidence);
    const double least = modes[0].evidence + log(OF_ITS_OWN * sum);
    for (size_t k = 0; k < count && outcome == STUDY_DONE; k++)
        if (modes[k].defect.kind != FV_DEFECT_NONE && modes[k].evidence > least)
            outcome = study_match_settle(match, &modes[k], 0.75, 0.85);
    return outcome;
}

/* The most probable first; none: no plant near the start could be fitted. */
static study_ending fit_from(study_match *match, const double *start, bool defects, match_mode *modes, size_t *count)
{
    const study_defect none = {FV_DEFECT_NONE, -1, -1};
    memset(modes, 0, MATCH_MODES_MOST * sizeof *modes);
    *count = 0;
    study_match_use_readings(match, NULL);
    study_match_usual_errors(match);
    study_ending outcome = study_match_solve(match, &none, start, 4, 0.02, 0.35, &modes[0]);
    if (outcome == STUDY_DONE && modes[0].good && study_match_errors(match, &modes[0]) == FV_OK)
        outcome = study_match_solve(match, &none, modes[0].x, 3, 0.35, 0.55, &modes[0]);
    if (outcome != STUDY_DONE || !modes[0].good)
        return outcome;
    modes[0].supposed = log(NO_DEFECT);
    outcome = study_match_settle(match, &modes[0], 0.55, 0.6);
    *count = outcome == STUDY_DONE;
    const match_mode plain = modes[0];
    if (defects && outcome == STUDY_DONE) {
        outcome = try_defects(match, modes, count);
        if (outcome == STUDY_DONE) {
            drop_unlikely(modes, count);
            outcome = settle_likely(match, modes, *count);
        }
    }
    if (*count > 0 && (outcome == STUDY_STOPPED || atomic_load(match->halted))) {
        modes[0] = plain;
        *count = 1;
        outcome = STUDY_DONE;
        match->stopped = true;
        match->progress = NULL;
    }
    if (outcome == STUDY_DONE)
        drop_unlikely(modes, count);
    return outcome;
}

/* From the middle of what is known beforehand the fit may end in an optimum so far from it that nobody would believe
 * it, where a nearer one is: then it begins again at points of the prior. */
study_ending study_match_modes(study_match *match, bool defects, match_mode *modes, size_t *count)
{
    enum { STARTS = 2 };
    const size_t known = match->unknowns.count, d = known + match->series_count + 1;
    double *starts = fv_arena_alloc(match->arena, (1 + STARTS) * d, sizeof *starts);
    if (!starts || num_sample_normal(STARTS, d, 1, 1, starts + d) == FV_FAIL)
        return STUDY_FAILED;
    study_ending outcome = fit_from(match, starts, defects, modes, count);
    if (outcome == STUDY_DONE && *count == 0)
        return study_match_refuse(match);
    bool strained = outcome == STUDY_DONE && study_match_trust(match, &modes[0], NULL) == MATCH_STRAINED;
    for (size_t i = 1; i <= STARTS && strained && outcome == STUDY_DONE && !match->stopped; i++) {
        match_mode again[MATCH_MODES_MOST];
        size_t found;
        memset(starts + i * d + known, 0, (d - known) * sizeof *starts);
        outcome = fit_from(match, starts + i * d, defects, again, &found);
        strained = outcome != STUDY_DONE || found == 0 || study_match_trust(match, &again[0], NULL) != MATCH_BELIEVED;
        if (!strained) {
            memcpy(modes, again, sizeof again);
            *count = found;
        }
    }
    return outcome;
}
