/* SPDX-License-Identifier: MIT */
#include "study/carry/parts.h"

#include <math.h>
#include <stdlib.h>

void fv_carry_defaults(fv_carry_options *options)
{
    if (!options)
        return;
    *options = (fv_carry_options){.more = 3, .fewer = 1, .turnaround = 7200, .others = true, .matters = 0.03};
}

static bool open_rows(fv_carry_answer *answer, fv_faults *faults)
{
    const fv_carry_options *options = &answer->options;
    const size_t fewer = options->fewer < answer->own ? options->fewer : answer->own - 1;
    answer->rows = fv_arena_alloc(answer->arena, fewer + 1 + options->more, sizeof *answer->rows);
    bool good = answer->rows != NULL;
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, answer->plant->loc, "out of memory");
    for (size_t i = 0; i < fewer + 1 + options->more && good; i++) {
        fv_carry_row *row = &answer->rows[answer->row_count];
        row->added = (int)i - (int)fewer;
        row->count = answer->own - fewer + i;
        row->plant = carry_grow(answer->plant, options, row->added, faults);
        good = row->plant != NULL;
        answer->row_count += good;
        if (good && !carry_room(answer->arena, row->plant, &row->together)) {
            fv_error(faults, FV_ERR_SYSTEM, answer->plant->loc, "out of memory");
            good = false;
        }
    }
    answer->present = (int)fewer;
    return good;
}

static fv_carry_answer *open_answer(const fv_plant *plant, const fv_carry_options *options, fv_faults *faults)
{
    fv_carry_answer *answer = calloc(1, sizeof *answer);
    if (answer)
        answer->arena = fv_arena_new();
    if (!answer || !answer->arena) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        free(answer);
        return NULL;
    }
    answer->plant = plant;
    answer->options = *options;
    answer->currency = plant->currency;
    answer->own = carry_count(plant);
    if (answer->own == 0)
        fv_error(faults, FV_ERR_INPUT, plant->loc, "no vessel is open to the steam: phase=\"shut\" stands in all");
    else if (carry_check(plant, options, faults) != FV_FAIL && open_rows(answer, faults))
        return answer;
    fv_carry_free(answer);
    return NULL;
}

/* Each row is a chain: together and holding; its stagger; what limits. */
enum { STAGGER_FROM = 1, LIMITS_FROM = STAGGER_FROM + CARRY_STAGGER_STAGES, STAGES = LIMITS_FROM + CARRY_LIMIT_STAGES };

typedef struct {
    fv_carry_answer *answer;
    study_kits *kits;
    carry_search *search;
    carry_limits *limits;
} following;

static fv_status prepare(void *context, size_t row, size_t stage, size_t *jobs)
{
    following *f = context;
    if (stage >= LIMITS_FROM)
        *jobs = carry_limit_jobs(f->limits, row, stage - LIMITS_FROM);
    else if (stage >= STAGGER_FROM)
        return carry_stagger_prepare(f->search, row, stage - STAGGER_FROM, jobs);
    else
        *jobs = 2;
    return FV_OK;
}

/* Together, or the holding. */
static fv_status follow(const following *f, const study_task *task)
{
    fv_carry_row *row = &f->answer->rows[task->chain];
    if (task->index > 0)
        return carry_hold(row->plant, &row->holding);
    const carry_how how = {
        .follow = CARRY_TO_END, .fineness = 1, .until = NAN, .kit = study_kit(f->kits, task->worker)};
    return carry_batch(row->plant, NULL, &f->answer->options, &how, task->progress, &row->together);
}

static fv_status do_task(void *context, const study_task *task)
{
    following *f = context;
    study_task part = *task;
    if (task->stage >= LIMITS_FROM) {
        part.stage -= LIMITS_FROM;
        return carry_limit_job(f->limits, &part);
    }
    if (task->stage >= STAGGER_FROM) {
        part.stage -= STAGGER_FROM;
        return carry_stagger_job(f->search, &part);
    }
    return follow(f, task);
}

static void find_asked(fv_carry_answer *answer)
{
    answer->asked = (int)answer->row_count - 1;
    for (int i = answer->asked; i >= answer->present; i--)
        if (!answer->rows[i].together.carries)
            answer->asked = i;
    const fv_carry_row *row = &answer->rows[answer->asked];
    const bool together = carry_is_better(&row->together, &row->staggered);
    answer->wanted = together ? row->together.mass_per_day : row->staggered.mass_per_day;
}

static study_ending answer_all(fv_carry_answer *answer, study_kits *kits, const fv_progress *progress,
                               fv_faults *faults)
{
    following f = {.answer = answer,
                   .kits = kits,
                   .search = carry_search_new(answer, kits),
                   .limits = carry_limits_new(answer, kits)};
    if (!f.search || !f.limits)
        return STUDY_FAILED;
    study_work plan = {.threads = answer->options.threads,
                       .progress = progress,
                       .from = 0,
                       .to = 0.9,
                       .what = "following each number of vessels, together and staggered",
                       .kits = kits};
    const study_chains rows = {.chains = answer->row_count, .stages = STAGES, .prepare = prepare, .job = do_task};
    study_ending outcome = study_run_chains(&plan, &rows, &f);
    if (outcome != STUDY_DONE)
        return outcome;
    carry_limits_settle(f.limits);
    find_asked(answer);
    plan.from = plan.to;
    plan.to = 1;
    plan.what = "trying what could be bought";
    if (answer->options.others && !answer->rows[answer->asked].together.carries)
        outcome = carry_ways(answer, &plan, faults);
    return outcome;
}

fv_carry_answer *fv_carry_run(const fv_plant *plant, const fv_carry_options *options, const fv_progress *progress,
                              fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_carry_answer *answer = open_answer(plant, options, faults);
    if (!answer)
        return NULL;
    study_kits kits = {0};
    const study_ending outcome = answer_all(answer, &kits, progress, faults);
    study_kits_free(&kits);
    if (outcome == STUDY_FAILED && fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (outcome == STUDY_DONE)
        return answer;
    fv_carry_free(answer);
    return NULL;
}

void fv_carry_free(fv_carry_answer *answer)
{
    if (!answer)
        return;
    for (size_t i = 0; i < answer->row_count; i++)
        fv_plant_free(answer->rows[i].plant);
    for (size_t i = 0; i < answer->way_count; i++)
        fv_plant_free(answer->ways[i].plant);
    fv_arena_free(answer->arena);
    free(answer);
}
