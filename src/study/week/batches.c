/* SPDX-License-Identifier: MIT */
/* A batch is the plant with all but its vessels shut, followed from lighting until all is cool. */
#include "study/week/batches.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const fv_week_answer *answer;
    const fv_plant *plant;
    fv_week_run *runs;
    study_caches *caches;
    fv_faults **faults; /* by job */
    char (*why)[120];
} batches;

fv_plant *week_batch_plant(const fv_week_answer *a, const fv_plant *plant, size_t batch, fv_faults *faults)
{
    size_t left[FV_WEEK_KINDS_MOST];
    memcpy(left, a->problem.batch[batch].of, sizeof left);
    fv_plant *copy = fv_plant_copy(plant);
    if (!copy) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return NULL;
    }
    for (size_t i = 0; i < copy->vessel_count; i++) {
        if (left[a->kind_of[i]] > 0)
            left[a->kind_of[i]]--;
        else
            copy->vessels[i]->phase = (fv_value){.v = FV_PHASE_SHUT, .origin = FV_SETTING};
    }
    if (fv_plant_link(copy, faults) == FV_OK)
        return copy;
    fv_plant_free(copy);
    return NULL;
}

double week_attended(const fv_work *work, const fv_week_run *run)
{
    const bool alone = fv_word(work->fire) == 1;
    switch ((fv_unattended)fv_word(work->unattended)) {
    case FV_UNATTENDED_HOLD:
        return alone ? run->last_core : run->steam_end;
    case FV_UNATTENDED_ALL:
        return alone ? 0.0 : run->steam_end;
    default:
        return run->steam_end;
    }
}

double week_attended_share(const fv_work *work, const fv_week_run *run)
{
    return run->works && run->steam_end > 0 ? week_attended(work, run) / run->steam_end : 1;
}

static void say(char why[120], const fv_plant *plant, size_t vessel, const char *what)
{
    snprintf(why, 120, "%s %s", plant->vessels[vessel]->part.id, what);
}

double week_free_at(const fv_vessel *vessel, const fv_vessel_history *history)
{
    return fv_word(vessel->cooling) == FV_COOL_SHELVES ? history->hold : history->cool;
}

/* What the run says of one vessel that takes part. */
static void take_vessel(fv_week_run *run, const fv_heat_result *result, size_t i, char why[120])
{
    const fv_vessel_history *h = &result->vessels[i];
    const fv_vessel *vessel = result->plant->vessels[i];
    run->kg += fv_load_mass(&vessel->load);
    run->pieces += fv_is_set(vessel->load.count) ? (size_t)vessel->load.count.v : 0;
    run->last_core = fmax(run->last_core, h->core);
    run->cool = fmax(run->cool, week_free_at(vessel, h));
    if (why[0])
        return;
    if (h->verdict == FV_STARVED || isnan(h->core))
        say(why, result->plant, i, "misses its allowed time");
    else if (isnan(h->hold))
        say(why, result->plant, i, "does not keep its hold");
    else if (isnan(h->cool))
        say(why, result->plant, i, "does not cool down within a week");
}

static void take(fv_week_run *run, const fv_heat_result *result, char why[120])
{
    *run = (fv_week_run){.steam_end = result->steam_end};
    for (size_t i = 0; i < result->plant->vessel_count; i++)
        if (result->vessels[i].verdict != FV_SHUT_OFF)
            take_vessel(run, result, i, why);
    for (size_t i = 0; i < result->boiler_count; i++) {
        run->fuel += result->boilers[i].fuel;
        run->water += result->boilers[i].water;
    }
    if (run->kg == 0.0 && !why[0])
        snprintf(why, 120, "nothing is in it");
    run->works = !why[0];
}

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    batches *b = context;
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.cache = study_cache(b->caches, worker);
    fv_plant *plant = week_batch_plant(b->answer, b->plant, index + 1, b->faults[index]);
    fv_heat_result *result = plant ? fv_heat_run(plant, &options, progress, b->faults[index]) : NULL;
    if (result)
        take(&b->runs[index + 1], result, b->why[index]);
    const bool failed = !result || result->stopped;
    fv_heat_free(result);
    fv_plant_free(plant);
    return failed && fv_faults_errors(b->faults[index]) > 0 ? FV_FAIL : FV_OK;
}

static void tell(fv_faults *faults, fv_faults *const *of, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < fv_faults_count(of[i]); k++) {
            const fv_fault *fault = fv_faults_at(of[i], k);
            if (!fault->caution)
                fv_error(faults, fault->blame, (fv_loc){fault->file, fault->line}, "%s", fault->text);
        }
}

study_ending week_run_batches(const fv_week_answer *answer, const fv_plant *plant, const study_work *work,
                              fv_week_run *runs, fv_faults *faults)
{
    const size_t count = fv_week_batches(&answer->problem);
    batches b = {.answer = answer, .plant = plant, .runs = runs, .caches = work->caches};
    b.faults = calloc(count, sizeof *b.faults);
    b.why = calloc(count, sizeof *b.why);
    bool good = b.faults && b.why;
    for (size_t i = 0; good && i < count; i++) {
        b.faults[i] = fv_faults_new();
        good = b.faults[i] != NULL;
    }
    study_ending outcome = good ? study_run(work, count, run_one, &b) : STUDY_FAILED;
    if (outcome == STUDY_FAILED && good)
        tell(faults, b.faults, count);
    for (size_t i = 0; outcome == STUDY_DONE && i < count; i++) {
        runs[i + 1].why = b.why[i][0] ? fv_arena_copy(answer->arena, b.why[i]) : NULL;
        if (b.why[i][0] && !runs[i + 1].why)
            outcome = STUDY_FAILED;
    }
    if (outcome == STUDY_FAILED && fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    for (size_t i = 0; b.faults && i < count; i++)
        fv_faults_free(b.faults[i]);
    free(b.faults);
    free(b.why);
    return outcome;
}
