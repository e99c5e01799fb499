/* SPDX-License-Identifier: MIT */
/* The short table of good choices, each worked out in full. */
#include "study/size/parts.h"

#include <math.h>
#include <string.h>

enum { JOBS = 4 };

static bool open_row(const size_question *q, const size_solution *s, fv_size_row *row)
{
    fv_size_answer *answer = q->answer;
    const size_candidate *c = q->pool.list[s->candidate];
    study_settings settings = {.arena = answer->arena};
    *row = (fv_size_row){.cost = c->cost, .unpriced = c->unpriced, .minutes = s->score.effort.minutes};
    row->choice = fv_arena_alloc(answer->arena, answer->dimension_count + 1, sizeof *row->choice);
    row->sizes = fv_arena_alloc(answer->arena, answer->dimension_count + 1, sizeof *row->sizes);
    row->areas = fv_arena_alloc(answer->arena, answer->plant->vessel_count + 1, sizeof *row->areas);
    if (!row->choice || !row->sizes || !row->areas)
        return false;
    memcpy(row->choice, c->choice, answer->dimension_count * sizeof *row->choice);
    size_solution_settings(q, s, &settings);
    row->change = settings.change;
    return !settings.failed && study_steps_of(&q->adviser.handling, s->point, s->score.outcome, answer->arena,
                                              &row->steps, &row->step_count);
}

/* The sizes alone at one moment, once more for the coils' areas, and the vents. */
static fv_status work_moment(const size_question *q, fv_size_row *row)
{
    study_settings settings;
    size_candidate c = {0};
    int vessel;
    double pressure;
    study_settings_open(&settings);
    size_settings(q->answer, row->choice, &settings);
    fv_faults *faults = settings.failed ? NULL : fv_faults_new();
    bool good = faults && size_judge(&q->pool.basis, &settings.change, &c, row->areas) != FV_FAIL;
    memcpy(row->checks, c.checks, sizeof row->checks);
    fv_plant *changed = good ? fv_change_copy(&settings.change, q->answer->plant, faults) : NULL;
    for (size_t i = 0; changed && i < q->answer->dimension_count; i++)
        row->sizes[i] = q->answer->dimensions[i].part == FV_SIZE_WORK ? q->answer->dimensions[i].values[row->choice[i]]
                                                                      : size_common(changed, &q->answer->dimensions[i]);
    good = changed && size_vent_pressure(changed, &pressure, &vessel) != FV_FAIL;
    if (good)
        size_check_vent(&q->answer->options.limits, pressure, vessel, &row->checks[FV_LIMIT_VENT]);
    fv_plant_free(changed);
    fv_faults_free(faults);
    study_settings_free(&settings);
    return good ? FV_OK : FV_FAIL;
}

typedef struct {
    size_question *q;
    study_caches caches;
} working;

static fv_status work_out(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    static const size_manner manners[] = {SIZE_AS_DESIGNED, SIZE_CLOGGED, SIZE_HALF_FIRE};
    working *w = context;
    fv_size_row *row = &w->q->answer->rows[index / JOBS];
    fv_size_figures *figures[] = {&row->run, &row->clogged, &row->half_fire};
    const size_t job = index % JOBS;
    if (job == JOBS - 1)
        return work_moment(w->q, row);
    return size_follow(w->q->answer->plant, &row->change, manners[job], study_cache(&w->caches, worker), progress,
                       figures[job]);
}

static double number(double x)
{
    return isnan(x) ? INFINITY : x;
}

/* After the plant as it is, by time. */
static void sort_rows(fv_size_answer *answer)
{
    for (size_t i = 2; i < answer->row_count; i++)
        for (size_t j = i; j > 1 && number(answer->rows[j].run.slowest) < number(answer->rows[j - 1].run.slowest);
             j--) {
            const fv_size_row row = answer->rows[j];
            answer->rows[j] = answer->rows[j - 1];
            answer->rows[j - 1] = row;
        }
}

static double figure_of(const fv_size_row *row, fv_size_mark mark)
{
    switch (mark) {
    case FV_SIZE_IS_FASTEST:
        return number(row->run.slowest);
    case FV_SIZE_IS_MOST_EVEN:
        return row->run.spread;
    case FV_SIZE_IS_CHEAPEST:
        return number(row->cost);
    default:
        return number(row->run.fuel);
    }
}

/* The best of those that leave fewest starved. */
static void mark(fv_size_answer *answer, fv_size_mark what)
{
    const fv_size_row *best = NULL;
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_size_row *row = &answer->rows[i];
        if (!row->run.ran || !isfinite(figure_of(row, what)))
            continue;
        if (!best || row->run.starved < best->run.starved ||
            (row->run.starved == best->run.starved && figure_of(row, what) < figure_of(best, what)))
            best = row;
    }
    if (best)
        answer->rows[best - answer->rows].marks |= (unsigned)what;
}

static void mark_rows(fv_size_answer *answer)
{
    mark(answer, FV_SIZE_IS_FASTEST);
    mark(answer, FV_SIZE_IS_MOST_EVEN);
    mark(answer, FV_SIZE_IS_LEAST_FUEL);
    if (answer->priced)
        mark(answer, FV_SIZE_IS_CHEAPEST);
    answer->best = 0;
    answer->hands = -1;
    for (size_t i = 0; i < answer->row_count; i++) {
        fv_size_row *row = &answer->rows[i];
        if (row->marks & FV_SIZE_IS_ANSWER)
            answer->best = (int)i;
        if (i > 0 && answer->hands < 0 && !size_is_changed(answer, row->choice)) /* the earliest */
            answer->hands = (int)i;
        if (i > 0 && (row->marks & ~(unsigned)FV_SIZE_IS_ANSWER) == 0)
            row->marks |= FV_SIZE_IS_BETWEEN;
    }
}

/* Against the limits, and against what the plant does as it is. */
static void check_rows(fv_size_answer *answer)
{
    for (size_t i = 0; i < answer->row_count; i++)
        size_check_run(&answer->options.limits, &answer->rows[i].run, answer->rows[i].checks);
    const fv_size_row now = answer->rows[0];
    for (size_t i = 0; i < answer->row_count; i++) {
        fv_size_row *row = &answer->rows[i];
        for (int k = 0; k < FV_LIMITS; k++)
            size_allow(&now.checks[k], &row->checks[k]);
        row->keeps = row->run.ran && size_keeps(row->checks);
    }
}

/* Vents are looked at only here: a choice that sends more to a small one than now goes does not stay. Where that was
 * the answer, the last of the others, which gains most, takes its place. */
static void drop_worse(fv_size_answer *answer)
{
    size_t kept = 1;
    bool answered = false;
    for (size_t i = 1; i < answer->row_count; i++)
        if (answer->rows[i].keeps)
            answer->rows[kept++] = answer->rows[i];
    answer->row_count = kept;
    for (size_t i = 0; i < kept; i++)
        answered = answered || answer->rows[i].marks & FV_SIZE_IS_ANSWER;
    if (!answered)
        answer->rows[kept - 1].marks |= FV_SIZE_IS_ANSWER;
}

static void count_states(const size_pool *pool, fv_size_answer *answer)
{
    answer->screened = pool->count;
    for (size_t i = 0; i < pool->count; i++) {
        const size_candidate *c = pool->list[i];
        answer->unfit += c->state == SIZE_UNFIT;
        answer->unsolved += c->state == SIZE_UNSOLVED;
        answer->kept += !size_is_out(c);
        for (int k = 0; k < FV_LIMITS; k++)
            answer->broken[k] += c->state == SIZE_JUDGED && !c->checks[k].kept;
    }
}

study_ending size_make_rows(size_question *q)
{
    fv_size_answer *answer = q->answer;
    const size_t best = size_front_best(q);
    working w = {.q = q};
    answer->rows = fv_arena_alloc(answer->arena, q->count + 1, sizeof *answer->rows);
    bool good = answer->rows != NULL;
    for (size_t i = 0; i < q->count && good; i++)
        good = open_row(q, &q->list[i], &answer->rows[answer->row_count++]);
    const study_work work = {.threads = answer->options.threads,
                             .progress = q->work.progress,
                             .from = 0.9,
                             .to = 1,
                             .what = "working out the choices"};
    const study_ending ending = good ? study_run(&work, q->count * JOBS, work_out, &w) : STUDY_FAILED;
    study_caches_free(&w.caches);
    if (ending != STUDY_DONE)
        return ending;
    answer->rows[0].marks = FV_SIZE_IS_NOW;
    answer->rows[best].marks |= FV_SIZE_IS_ANSWER;
    check_rows(answer);
    drop_worse(answer);
    sort_rows(answer);
    count_states(&q->pool, answer);
    mark_rows(answer);
    return STUDY_DONE;
}
