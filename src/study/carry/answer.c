/* SPDX-License-Identifier: MIT */
/* carry from question to answer: all numbers of vessels, in each manner, then the one that was asked for. Equations and
 * units: farvessel/carry.h. */
#include "study/carry/parts.h"
#include "study/answer.h"

#include <math.h>

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
    fv_arena *arena;
    fv_carry_answer *answer = study_answer_new(sizeof *answer, plant->loc, &arena, faults);
    if (!answer)
        return NULL;
    answer->arena = arena;
    answer->plant = plant;
    answer->options = *options;
    answer->currency = plant->currency;
    answer->own = carry_count(plant);
    if (study_any_open(plant, faults) && carry_check(plant, options, faults) != FV_FAIL && open_rows(answer, faults))
        return answer;
    fv_carry_free(answer);
    return NULL;
}

typedef struct {
    fv_carry_answer *answer;
    study_caches *caches;
    carry_limits *limits;
} following;

enum { ONCE = 2 }; /* runs of a row before its handling is searched for: together, and the holding */

static fv_status follow(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const following *f = context;
    fv_carry_row *row = &f->answer->rows[index / ONCE];
    if (index % ONCE > 0)
        return carry_hold(row->plant, &row->holding);
    const carry_how how = {
        .follow = CARRY_TO_END, .fineness = 1, .until = NAN, .cache = study_cache(f->caches, worker)};
    return carry_batch(row->plant, NULL, &f->answer->options, &how, progress, &row->together);
}

/* What limits each row: a chain. */
static fv_status limit_prepare(void *context, size_t row, size_t stage, size_t *jobs)
{
    *jobs = carry_limit_jobs(((const following *)context)->limits, row, stage);
    return FV_OK;
}

static fv_status limit_job(void *context, const study_task *task)
{
    return carry_limit_job(((const following *)context)->limits, task);
}

static double best_a_day(const fv_carry_row *row)
{
    return fv_carry_batch_of(row, row->best)->mass_per_day;
}

static void find_asked(fv_carry_answer *answer)
{
    answer->asked = (int)answer->row_count - 1;
    for (int i = answer->asked; i >= answer->present; i--)
        if (!answer->rows[i].together.carries)
            answer->asked = i;
    answer->wanted = best_a_day(&answer->rows[answer->asked]);
    answer->most = -1;
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_carry_row *row = &answer->rows[i];
        if (fv_carry_batch_of(row, row->best)->carries &&
            (answer->most < 0 || best_a_day(row) > best_a_day(&answer->rows[answer->most])))
            answer->most = (int)i;
    }
}

/* How the asked number is best treated, and whether fewer treat more a day, who are given the same work. */
static void find_verdict(fv_carry_answer *answer)
{
    const fv_carry_row *asked = &answer->rows[answer->asked];
    const fv_carry_batch *hands = fv_carry_batch_of(asked, asked->best);
    const bool by_work = asked->work.count > 0 && !(hands->carries && hands->slowest <= asked->worked.slowest);
    answer->does = asked->together.carries ? FV_CARRY_TOGETHER : by_work ? FV_CARRY_WORKED : asked->best;
    answer->better = -1;
    double most = fv_carry_batch_of(asked, answer->does)->mass_per_day;
    for (int i = 0; i < answer->asked && answer->asked > answer->present; i++)
        for (fv_carry_manner m = FV_CARRY_TOGETHER; m < FV_CARRY_MANNERS; m++) {
            const fv_carry_batch *batch = fv_carry_batch_of(&answer->rows[i], m);
            const bool found = m == FV_CARRY_WORKED ? answer->rows[i].work.count > 0 : m == answer->rows[i].best;
            if (found && batch->carries && batch->mass_per_day > most) {
                most = batch->mass_per_day;
                answer->better = i;
                answer->better_manner = m;
            }
        }
}

static study_ending search_hands(fv_carry_answer *answer, study_work *work)
{
    study_ending ending = STUDY_DONE;
    carry_found before = {0};
    const double from = work->to, step = (0.8 - from) / (double)answer->row_count;
    for (size_t i = 0; i < answer->row_count && ending == STUDY_DONE; i++) {
        work->from = from + step * (double)i;
        work->to = work->from + step;
        ending = carry_hands(answer, &answer->rows[i], work, &before);
        answer->stopped = answer->stopped || ending == STUDY_STOPPED; /* the others are left as they are together */
        ending = ending == STUDY_STOPPED ? STUDY_DONE : ending;
    }
    return ending;
}

/* Stopped: what limits is not known. */
static void leave_limits(fv_carry_answer *answer)
{
    for (size_t i = 0; i < answer->row_count; i++) {
        fv_carry_row *row = &answer->rows[i];
        fv_carry_batch *batches[] = {&row->together, &row->staggered, &row->throttled};
        for (size_t k = 0; k < sizeof batches / sizeof *batches; k++) {
            batches[k]->limit = FV_CARRY_LIMIT_UNKNOWN;
            batches[k]->without_limit = NAN;
        }
    }
}

static study_ending answer_all(fv_carry_answer *answer, study_caches *caches, const fv_progress *progress,
                               fv_faults *faults)
{
    following f = {.answer = answer, .caches = caches, .limits = carry_limits_new(answer, caches)};
    if (!f.limits)
        return STUDY_FAILED;
    study_work plan = {.threads = answer->options.threads,
                       .progress = progress,
                       .from = 0,
                       .to = 0.1,
                       .what = "following each number of vessels, and what hands can do",
                       .caches = caches};
    study_ending outcome = study_run(&plan, ONCE * answer->row_count, follow, &f);
    if (outcome != STUDY_DONE) /* stopped here there is nothing to tell */
        return outcome;
    outcome = search_hands(answer, &plan);
    const study_chains rows = {
        .chains = answer->row_count, .stages = CARRY_LIMIT_STAGES, .prepare = limit_prepare, .job = limit_job};
    plan.from = 0.8;
    plan.to = 0.9;
    if (outcome == STUDY_DONE && !answer->stopped)
        outcome = study_run_chains(&plan, &rows, &f);
    answer->stopped = answer->stopped || outcome == STUDY_STOPPED;
    if (outcome == STUDY_FAILED)
        return outcome;
    if (answer->stopped)
        leave_limits(answer);
    else
        carry_limits_settle(f.limits);
    find_asked(answer);
    plan.from = plan.to;
    if (!answer->stopped)
        outcome = carry_slips(answer, &plan);
    if (outcome == STUDY_FAILED)
        return outcome;
    answer->stopped = answer->stopped || outcome == STUDY_STOPPED;
    plan.to = 1;
    plan.what = "trying what could be bought";
    if (answer->options.others && !answer->stopped && !answer->rows[answer->asked].together.carries) {
        outcome = carry_ways(answer, &plan, faults);
        if (outcome == STUDY_DONE)
            outcome = carry_works(answer, &plan);
        answer->stopped = outcome == STUDY_STOPPED;
    }
    find_verdict(answer);
    return answer->stopped && outcome != STUDY_FAILED ? STUDY_DONE : outcome;
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
    study_caches caches = {0};
    const study_ending outcome = answer_all(answer, &caches, progress, faults);
    study_caches_free(&caches);
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
}
