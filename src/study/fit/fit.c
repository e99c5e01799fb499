/* SPDX-License-Identifier: MIT */
/* fit from question to answer: the posterior's draws (study/match.h) as bands of unknowns and times. Model of the
 * readings, method and units: farvessel/fit.h. */
#include "num/quantile.h"
#include "study/fit/parts.h"
#include "study/answer.h"

#include <math.h>
#include <stdlib.h>

void fv_fit_defaults(fv_fit_options *options)
{
    if (!options)
        return;
    *options = (fv_fit_options){.defects = true, .draws = 192, .seed = 1};
}

const char *fv_defect_word(fv_defect_kind kind)
{
    static const char *const words[] = {"none", "clogged_coil", "narrow_hose", "water_in_sag"};
    return words[kind];
}

const char *fv_learnt_word(fv_learnt learnt)
{
    static const char *const words[] = {"learnt", "a_little", "nothing"};
    return words[learnt];
}

/* ---- what the log taught ---- */

static const double LEARNT = 0.5, LITTLE = 0.85, ALIKE = 0.7;

static void find_pair(const match_mode *mode, size_t count, size_t i, fv_fit_unknown *u)
{
    const double *c = mode->covariance;
    u->pair = -1;
    u->pair_correlation = 0;
    for (size_t k = 0; k < count; k++) {
        const double r = c[i * mode->dim + k] / sqrt(c[i * mode->dim + i] * c[k * mode->dim + k]);
        if (k != i && fabs(r) > ALIKE && fabs(r) > fabs(u->pair_correlation)) {
            u->pair = (int)k;
            u->pair_correlation = r;
        }
    }
}

static bool fill_unknowns(fv_fit_answer *a, const match_found *found, double *work)
{
    const study_unknowns *list = &found->match.unknowns;
    const size_t n = found->draws.count;
    double *weights = work, *values = work + n, *scratch = work + 2 * n;
    a->unknown_list = list->list;
    a->unknown_count = list->count;
    a->unknowns = fv_arena_alloc(a->arena, list->count + 1, sizeof *a->unknowns);
    if (!a->unknowns)
        return false;
    for (size_t i = 0; i < n; i++)
        weights[i] = found->draws.list[i].weight;
    for (size_t k = 0; k < list->count; k++) {
        fv_fit_unknown *u = &a->unknowns[k];
        double mean = 0, variance = 0;
        for (size_t i = 0; i < n; i++)
            mean += weights[i] * found->draws.list[i].x[k];
        for (size_t i = 0; i < n; i++)
            variance += weights[i] * pow(found->draws.list[i].x[k] - mean, 2);
        for (size_t i = 0; i < n; i++)
            values[i] = fv_unknown_at(&list->list[k], found->draws.list[i].x[k]);
        *u = (fv_fit_unknown){.unknown = k, .narrower = sqrt(variance)};
        u->low = num_quantile(values, weights, n, 0.1, scratch);
        u->middle = num_quantile(values, weights, n, 0.5, scratch);
        u->high = num_quantile(values, weights, n, 0.9, scratch);
        u->prior_low = fv_unknown_at(&list->list[k], -1.2815515655446004);
        u->prior_high = fv_unknown_at(&list->list[k], 1.2815515655446004);
        u->learnt = u->narrower < LEARNT ? FV_LEARNT : u->narrower < LITTLE ? FV_LEARNT_LITTLE : FV_LEARNT_NOTHING;
        find_pair(&found->modes[0], list->count, k, u);
    }
    return true;
}

/* The most probable plant as settings on the file's. */
static bool fill_best(fv_fit_answer *a, const match_found *found)
{
    const study_unknowns *list = &found->match.unknowns;
    const double *x = found->modes[0].x;
    size_t count = 0;
    for (size_t k = 0; k < list->count; k++)
        count += list->list[k].target_count;
    a->best.settings = fv_arena_alloc(a->arena, count + 2, sizeof(fv_setting));
    if (!a->best.settings)
        return false;
    for (size_t k = 0; k < list->count; k++)
        for (size_t t = 0; t < list->list[k].target_count; t++) {
            const fv_setting *target = &list->list[k].targets[t];
            a->best.settings[a->best.count++] =
                (fv_setting){target->path, target->attribute, study_unknown_target(&list->list[k], t, x[k])};
        }
    return fit_add_defect(a, found);
}

static void fill_lit(fv_fit_answer *a, const match_found *found)
{
    const study_match *m = &found->match;
    const size_t at = m->unknowns.count + m->series_count;
    double mean = 0, variance = 0;
    for (size_t i = 0; i < found->draws.count; i++)
        mean += found->draws.list[i].weight * found->draws.list[i].x[at];
    for (size_t i = 0; i < found->draws.count; i++)
        variance += found->draws.list[i].weight * pow(found->draws.list[i].x[at] - mean, 2);
    a->lit = m->lit + mean * m->lit_error;
    a->lit_error = sqrt(variance) * m->lit_error;
    a->now = m->lit + m->now;
}

static bool fill(fv_fit_answer *a, match_found *found)
{
    double *work = malloc((4 * found->draws.count + 4) * sizeof *work), last[3];
    a->vessels = fv_arena_alloc(a->arena, a->plant->vessel_count + 1, sizeof *a->vessels);
    a->modes = fv_arena_alloc(a->arena, found->mode_count + 1, sizeof *a->modes);
    a->mode_count = a->modes ? study_match_told(found, a->modes) : 0;
    bool good = work && a->vessels && a->modes && fill_unknowns(a, found, work) && fill_best(a, found) &&
                fit_fill_probes(a, found) && fit_fill_bands(a, found, work);
    if (good) {
        study_match_bands(&found->match, &found->draws, a->vessels, last, work);
        a->last_low = last[0];
        a->last_middle = last[1];
        a->last_high = last[2];
        fill_lit(a, found);
        a->slow[0] = found->match.slow[0];
        a->slow[1] = found->match.slow[1];
        a->slow_time = found->match.slow_time;
        a->effective = found->draws.effective;
        a->sampled = found->draws.sampled;
        a->stopped = found->match.stopped;
        a->draws = found->draws.count;
        a->runs = found->match.runs;
    }
    free(work);
    if (!good)
        fv_error(found->match.faults, FV_ERR_SYSTEM, a->plant->loc, "out of memory");
    return good;
}

fv_fit_answer *fv_fit_run(const fv_plant *plant, const fv_logfile *log, const fv_fit_options *options,
                          const fv_progress *progress, fv_faults *faults)
{
    if (!plant || !log || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_fit_answer *a = study_answer_new(sizeof *a, plant->loc, &arena, faults);
    if (!a)
        return NULL;
    *a = (fv_fit_answer){.plant = plant, .log = log, .options = *options, .arena = arena};
    match_found *found = study_match_find(plant, log, options, arena, progress, faults);
    const bool good = found && fill(a, found) && study_match_had_memory(&found->match);
    study_match_found_free(found);
    if (good)
        return a;
    fv_arena_free(arena);
    return NULL;
}

void fv_fit_free(fv_fit_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
