/* SPDX-License-Identifier: MIT */
/* Assumptions by what they move the last core: one run each, side by side. One at a time around what stands in the
 * file, so it says what to measure first, not how uncertain the whole is. */
#include "farvessel/assumed.h"
#include "study/assumed/rows.h"
#include "study/parallel.h"
#include "study/answer.h"

#include <math.h>
#include <stdlib.h>

typedef struct {
    const fv_plant *plant;
    fv_assumed_row *rows;
    study_caches *caches;
    double until;
} batch;

/* When the last core is there, s; NaN: one never is, or not until `until`. */
static double last_core(const fv_heat_result *result)
{
    double last = 0.0;
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        if (h->verdict != FV_SHUT_OFF)
            last = isnan(h->core) || isnan(last) ? (double)NAN : fmax(last, h->core);
    }
    return last;
}

static fv_heat_result *follow(const fv_plant *plant, double until, fv_heat_cache *cache, const fv_progress *progress,
                              fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.cache = cache;
    options.stop_at_core = true;
    options.until = fmin(options.until, until);
    return fv_heat_run(plant, &options, progress, faults);
}

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const batch *b = context;
    fv_assumed_row *row = &b->rows[index];
    fv_faults *faults = fv_faults_new(); /* a change that is not sound is no fault of the plant */
    fv_plant *plant = faults ? fv_plant_copy(b->plant) : NULL;
    fv_heat_result *result = NULL;
    if (plant && assumed_change(plant, row) && fv_plant_link(plant, faults) != FV_FAIL)
        result = follow(plant, b->until, study_cache(b->caches, worker), progress, faults);
    row->solved = result && !result->stopped;
    row->last_core = row->solved ? last_core(result) : (double)NAN;
    fv_heat_free(result);
    fv_plant_free(plant);
    /* A change that cannot be followed is left out; a run that memory ended is no such change. */
    const bool memory = faults && plant && (result || fv_faults_errors(faults) == 0 || !fv_faults_blame_system(faults));
    fv_faults_free(faults);
    return memory ? FV_OK : FV_FAIL;
}

static int by_shift(const void *a, const void *b)
{
    const fv_assumed_row *x = a, *y = b;
    const double more = fabs(y->shift) - fabs(x->shift);
    if (fabs(x->shift) == fabs(y->shift))
        return x < y ? -1 : x > y;
    return more > 0.0 ? 1 : -1;
}

/* What changes nothing, and what has no solution, is left out. */
static void rank(fv_assumed_answer *answer)
{
    size_t kept = 0;
    for (size_t i = 0; i < answer->row_count; i++) {
        fv_assumed_row *row = &answer->rows[i];
        row->shift = isnan(row->last_core) ? INFINITY : row->last_core - answer->last_core;
        if (row->solved && fabs(row->shift) >= 60.0)
            answer->rows[kept++] = *row;
    }
    answer->row_count = kept;
    qsort(answer->rows, kept, sizeof *answer->rows, by_shift);
}

static bool follow_all(fv_assumed_answer *answer, size_t threads, const fv_progress *progress, fv_faults *faults)
{
    study_caches caches = {{NULL}};
    batch b = {answer->plant, answer->rows, &caches, FV_ASSUMED_LONGEST * answer->last_core};
    const study_work work = {
        .threads = threads, .progress = progress, .from = 0.0, .to = 1.0, .what = "what matters", .caches = &caches};
    const study_ending ending = study_run(&work, answer->row_count, run_one, &b);
    study_caches_free(&caches);
    answer->runs = 1 + answer->row_count;
    if (ending == STUDY_DONE)
        rank(answer);
    else
        fv_error(faults, FV_ERR_SYSTEM, answer->plant->loc, ending == STUDY_STOPPED ? "stopped" : "out of memory");
    return ending == STUDY_DONE;
}

fv_assumed_answer *fv_assumed_run(const fv_plant *plant, size_t threads, const fv_progress *progress, fv_faults *faults)
{
    if (!plant) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_assumed_answer *answer = study_answer_new(sizeof *answer, plant->loc, &arena, faults);
    if (!answer)
        return NULL;
    *answer = (fv_assumed_answer){.plant = plant, .arena = arena, .last_core = (double)NAN};
    fv_faults *own = fv_faults_new();
    bool good = own && assumed_collect(plant, arena, &answer->rows, &answer->row_count);
    answer->too_many = answer->row_count * plant->vessel_count > FV_ASSUMED_MOST;
    fv_heat_result *now = good && !answer->too_many ? follow(plant, INFINITY, NULL, NULL, own) : NULL;
    answer->last_core = now ? last_core(now) : (double)NAN;
    good = good && (now || fv_faults_errors(own) == 0 || !fv_faults_blame_system(own));
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    fv_heat_free(now);
    fv_faults_free(own);
    if (good && answer->last_core > 0.0)
        good = follow_all(answer, threads, progress, faults);
    else
        answer->row_count = 0;
    if (good)
        return answer;
    fv_assumed_free(answer);
    return NULL;
}

void fv_assumed_free(fv_assumed_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
