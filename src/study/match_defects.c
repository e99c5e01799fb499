/* SPDX-License-Identifier: MIT */
/* Plants with one thing wrong that nobody knows of.
 *
 * For each the residuals change along u when the defect comes in at its middle size. What a full fit would gain is
 * foretold by linear algebra: with J the slopes and C the covariance at the mode, (u.f)^2 / (u.u - (J'u)' C (J'u)).
 * Those that promise most are fitted in full, and weighed by their evidence. */
#include "num/sample.h"
#include "study/match.h"
#include "study/ways.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double NO_DEFECT = 0.5;      /* probability beforehand that nothing is wrong. Common practice, no source */
static const double GAIN_LEAST = 2;       /* of the sum of squares, for a fit in full */
static const double WORTH_KEEPING = 0.03; /* probability */

typedef struct {
    study_match *match;
    const match_mode *base;
    const double *f; /* residuals at the base */
    study_defect *list;
    double *gain;
} trying;

/* The hose that leads to a vessel only: the longest line of its own. */
static int own_line(const study_match *m, const study_ways *ways, size_t vessel)
{
    int best = -1;
    for (size_t i = 0; i < m->plant->line_count; i++)
        if (study_on_way(ways, vessel, i) && ways->kind[i] == WAY_OWN &&
            (best < 0 || m->plant->lines[i]->length.v > m->plant->lines[best]->length.v))
            best = (int)i;
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

/* u.u - (J'u)' C (J'u), u having no part in the priors' rows. */
static double left_over(const trying *t, const double *u)
{
    const size_t d = t->base->dim, n = t->match->residuals;
    double *g = calloc(d, sizeof *g), sum = 0, taken = 0;
    for (size_t i = 0; g && i < n; i++) {
        sum += u[i] * u[i];
        for (size_t k = 0; k < d; k++)
            g[k] += t->base->j[i * d + k] * u[i];
    }
    for (size_t a = 0; g && a < d; a++)
        for (size_t b = 0; b < d; b++)
            taken += g[a] * t->base->covariance[a * d + b] * g[b];
    free(g);
    return sum - taken;
}

static fv_status try_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const trying *t = context;
    study_match *m = t->match;
    const study_defect *defect = &t->list[index];
    const size_t d = t->base->dim;
    double *x = calloc(d + 1, sizeof *x), *u = malloc((m->residuals + 1) * sizeof *u);
    match_curves curves = {0};
    fv_plant *plant = NULL;
    fv_heat_result *result = NULL;
    t->gain[index] = 0;
    if (x && u) {
        memcpy(x, t->base->x, d * sizeof *x);
        x[d] = -0.6; /* a little below the middle of its sizes */
        result =
            study_match_run(m, defect, x, m->now + 900, false, study_kit(&m->kits, worker), progress, &curves, &plant);
    }
    if (result) {
        double along = 0;
        study_match_residuals(m, &curves, x, u);
        for (size_t i = 0; i < m->residuals; i++) {
            u[i] -= t->f[i];
            along += u[i] * t->f[i];
        }
        const double left = left_over(t, u);
        if (along < 0 && left > 1e-6)
            t->gain[index] = along * along / left;
    }
    study_match_curves_free(&curves);
    fv_heat_free(result);
    fv_plant_free(plant);
    const bool room = x && u;
    free(x);
    free(u);
    return room ? FV_OK : FV_FAIL;
}

/* Gains of all, foretold at the base mode. */
static study_ending foretell(trying *t, size_t count, double *f)
{
    study_match *m = t->match;
    match_curves curves = {0};
    fv_plant *plant;
    const study_work plan = {.threads = m->threads,
                             .progress = m->progress,
                             .from = 0.6,
                             .to = 0.65,
                             .what = "trying what may be wrong",
                             .kits = &m->kits};
    fv_heat_result *result =
        study_match_run(m, &t->base->defect, t->base->x, m->now + 900, false, NULL, m->progress, &curves, &plant);
    study_ending outcome = result ? STUDY_DONE : STUDY_FAILED;
    if (result) {
        study_match_residuals(m, &curves, t->base->x, f);
        if (!t->base->sloped)
            outcome = study_match_jacobian(m, &t->base->defect, t->base->x, f, &curves, t->base->j, 0.55, 0.6);
    }
    if (outcome == STUDY_DONE)
        outcome = study_run(&plan, count, try_one, t);
    m->runs += count;
    study_match_curves_free(&curves);
    fv_heat_free(result);
    fv_plant_free(plant);
    return outcome;
}

static study_ending fit_best(trying *t, size_t defects, match_mode *modes, size_t *count)
{
    study_match *m = t->match;
    for (size_t tried = 0; tried < MATCH_MODES_MOST - 1 && *count < MATCH_MODES_MOST; tried++) {
        size_t best = 0;
        for (size_t i = 1; i < defects; i++)
            if (t->gain[i] > t->gain[best])
                best = i;
        if (t->gain[best] < GAIN_LEAST)
            break;
        t->gain[best] = 0;
        match_mode *mode = &modes[*count];
        const size_t d = t->base->dim;
        double *start = fv_arena_alloc(m->arena, d + 1, sizeof *start);
        if (!start)
            return STUDY_FAILED;
        memcpy(start, t->base->x, d * sizeof *start);
        start[d] = -0.6;
        *mode = (match_mode){0};
        const double from = 0.65 + 0.06 * (double)tried;
        const study_ending outcome = study_match_solve(m, &t->list[best], start, 3, from, from + 0.06, mode);
        if (outcome != STUDY_DONE)
            return outcome;
        /* the prior of this very defect among all */
        mode->evidence += log((1 - NO_DEFECT) / (double)defects);
        *count += mode->good;
    }
    return STUDY_DONE;
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

/* All of them with one thing wrong, after the plain one. */
static study_ending try_defects(study_match *match, match_mode *modes, size_t *count)
{
    const match_mode base = modes[0];
    trying t = {.match = match,
                .base = &base,
                .list = fv_arena_alloc(match->arena, 3 * match->plant->vessel_count + 1, sizeof *t.list),
                .gain = fv_arena_alloc(match->arena, 3 * match->plant->vessel_count + 1, sizeof *t.gain)};
    double *f = malloc((match->residuals + 1) * sizeof *f);
    t.f = f;
    study_ending outcome = f && t.list && t.gain ? STUDY_DONE : STUDY_FAILED;
    const size_t listed = outcome == STUDY_DONE ? list_defects(match, t.list) : 0;
    if (listed > 0)
        outcome = foretell(&t, listed, f);
    modes[0].sloped = modes[0].sloped || (listed > 0 && outcome == STUDY_DONE);
    if (listed > 0 && outcome == STUDY_DONE)
        outcome = fit_best(&t, listed, modes, count);
    free(f);
    return outcome;
}

/* The most probable first; none: no plant near the start could be fitted. */
static study_ending fit_from(study_match *match, const double *start, bool defects, match_mode *modes, size_t *count)
{
    const study_defect none = {FV_DEFECT_NONE, -1, -1};
    memset(modes, 0, MATCH_MODES_MOST * sizeof *modes);
    *count = 0;
    study_match_usual_errors(match);
    study_ending outcome = study_match_solve(match, &none, start, 4, 0.02, 0.35, &modes[0]);
    if (outcome == STUDY_DONE && modes[0].good && study_match_errors(match, &modes[0]) == FV_OK)
        outcome = study_match_solve(match, &none, modes[0].x, 3, 0.35, 0.55, &modes[0]);
    if (outcome != STUDY_DONE || !modes[0].good)
        return outcome;
    *count = 1;
    modes[0].evidence += log(NO_DEFECT);
    if (defects)
        outcome = try_defects(match, modes, count);
    if (outcome == STUDY_STOPPED || atomic_load(match->halted)) {
        *count = 1;
        outcome = STUDY_DONE;
        match->stopped = true;
        match->progress = NULL;
    }
    if (outcome == STUDY_DONE)
        drop_unlikely(modes, count);
    for (size_t k = 0; k < *count && outcome == STUDY_DONE; k++)
        outcome = study_match_settle(match, &modes[k], 0.84, 0.85);
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
