/* SPDX-License-Identifier: MIT */
/* The short table of good choices, each worked out in full. */
#include "study/size/parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ROWS_MOST = 8, BETWEEN_MOST = 3, JOBS = 4 };

typedef struct {
    size_pool *pool;
    fv_size_answer *answer;
    size_t chosen[ROWS_MOST]; /* candidates */
    unsigned marks[ROWS_MOST];
    size_t count;
} selection;

static void choose(selection *s, size_t candidate, unsigned mark)
{
    for (size_t i = 0; i < s->count; i++)
        if (s->chosen[i] == candidate) {
            s->marks[i] |= mark & ~(unsigned)FV_SIZE_IS_BETWEEN;
            return;
        }
    if (s->count == ROWS_MOST)
        return;
    s->chosen[s->count] = candidate;
    s->marks[s->count++] = mark;
}

static bool is_good(const size_candidate *c)
{
    return c->followed && c->run.ran && size_keeps(c->checks);
}

/* The best for a goal among those that keep all limits, or, with `all`, among all followed. */
static bool best_for(const selection *s, fv_size_goal goal, bool all, size_t *best)
{
    bool any = false;
    for (size_t i = 0; i < s->pool->count; i++) {
        const size_candidate *c = s->pool->list[i];
        if (!(all ? c->followed && c->run.ran : is_good(c)))
            continue;
        if (!any || size_compare_followed(c, s->pool->list[*best], goal, s->answer->dimension_count) < 0)
            *best = i;
        any = true;
    }
    return any;
}

static double number(double x)
{
    return isnan(x) ? INFINITY : x;
}

static bool dominates(const selection *s, const size_candidate *a, const size_candidate *b)
{
    const double x[] = {number(a->run.slowest), number(a->run.spread), s->answer->priced ? number(a->cost) : 0};
    const double y[] = {number(b->run.slowest), number(b->run.spread), s->answer->priced ? number(b->cost) : 0};
    bool better = false;
    for (size_t i = 0; i < 3; i++) {
        if (x[i] > y[i])
            return false;
        better = better || x[i] < y[i];
    }
    return better;
}

static bool is_on_front(const selection *s, size_t candidate)
{
    const size_candidate *c = s->pool->list[candidate];
    for (size_t i = 0; i < s->pool->count; i++)
        if (is_good(s->pool->list[i]) && dominates(s, s->pool->list[i], c))
            return false;
    for (size_t i = 0; i < s->count; i++)
        if (s->chosen[i] == candidate)
            return false;
    return is_good(c);
}

/* Some of the trade-off between the best, evenly by rank in time. */
static bool choose_between(selection *s)
{
    const size_t count = s->pool->count;
    size_t *front = calloc(count + 1, sizeof *front), found = 0;
    if (!front)
        return false;
    for (size_t i = 0; i < count; i++) {
        if (!is_on_front(s, i))
            continue;
        size_t j = found++;
        while (j > 0 && size_compare_followed(s->pool->list[i], s->pool->list[front[j - 1]], FV_SIZE_FOR_TIME,
                                              s->answer->dimension_count) < 0) {
            front[j] = front[j - 1];
            j--;
        }
        front[j] = i;
    }
    const size_t most = found < BETWEEN_MOST ? found : BETWEEN_MOST;
    for (size_t i = 0; i < most; i++)
        choose(s, front[(2 * i + 1) * found / (2 * most)], FV_SIZE_IS_BETWEEN);
    free(front);
    return true;
}

static bool select_rows(selection *s)
{
    static const unsigned marks[] = {FV_SIZE_IS_FASTEST, FV_SIZE_IS_MOST_EVEN, FV_SIZE_IS_CHEAPEST,
                                     FV_SIZE_IS_LEAST_FUEL};
    size_t best = 0;
    choose(s, 0, FV_SIZE_IS_NOW);
    const bool none = !best_for(s, FV_SIZE_FOR_TIME, false, &best);
    if (none && best_for(s, s->answer->options.goal, true, &best))
        choose(s, best, FV_SIZE_IS_NEAREST);
    for (fv_size_goal goal = 0; goal < FV_SIZE_GOALS && !none; goal++) {
        if ((goal == FV_SIZE_FOR_COST && !s->answer->priced) || (goal == FV_SIZE_FOR_FUEL && !s->pool->to_the_end))
            continue;
        if (best_for(s, goal, false, &best))
            choose(s, best, marks[goal]);
    }
    return none || choose_between(s);
}

/* After the plant as it is, by time. */
static void sort_rows(selection *s)
{
    for (size_t i = 2; i < s->count; i++)
        for (size_t j = i; j > 1; j--) {
            const size_candidate *a = s->pool->list[s->chosen[j]], *b = s->pool->list[s->chosen[j - 1]];
            if (number(a->run.slowest) >= number(b->run.slowest))
                break;
            const size_t chosen = s->chosen[j];
            const unsigned marks = s->marks[j];
            s->chosen[j] = s->chosen[j - 1];
            s->marks[j] = s->marks[j - 1];
            s->chosen[j - 1] = chosen;
            s->marks[j - 1] = marks;
        }
}

static bool open_row(const selection *s, size_t i)
{
    fv_size_answer *answer = s->answer;
    const size_candidate *c = s->pool->list[s->chosen[i]];
    fv_size_row *row = &answer->rows[i];
    study_settings settings = {.arena = answer->arena};
    *row = (fv_size_row){.marks = s->marks[i], .cost = c->cost, .unpriced = c->unpriced};
    row->choice = fv_arena_alloc(answer->arena, answer->dimension_count + 1, sizeof *row->choice);
    row->sizes = fv_arena_alloc(answer->arena, answer->dimension_count + 1, sizeof *row->sizes);
    row->areas = fv_arena_alloc(answer->arena, answer->plant->vessel_count + 1, sizeof *row->areas);
    if (!row->choice || !row->sizes || !row->areas)
        return false;
    memcpy(row->choice, c->choice, answer->dimension_count * sizeof *row->choice);
    size_settings(answer, c->choice, &settings);
    row->change = settings.change;
    return !settings.failed;
}

/* The vents, and once more the moment, for the coils' areas. */
static fv_status work_moment(const size_pool *pool, fv_size_row *row)
{
    size_candidate c = {0};
    int vessel;
    if (size_judge(&pool->basis, &row->change, &c, row->areas) == FV_FAIL)
        return FV_FAIL;
    memcpy(row->checks, c.checks, sizeof row->checks);
    fv_faults *faults = fv_faults_new();
    fv_plant *changed = faults ? fv_change_copy(&row->change, pool->answer->plant, faults) : NULL;
    for (size_t i = 0; changed && i < pool->answer->dimension_count; i++)
        row->sizes[i] = size_common(changed, &pool->answer->dimensions[i]);
    double pressure;
    const bool good = changed && size_vent_pressure(changed, &pressure, &vessel) != FV_FAIL;
    if (good)
        size_check_vent(&pool->basis, pressure, vessel, &row->checks[FV_LIMIT_VENT]);
    fv_plant_free(changed);
    fv_faults_free(faults);
    return good ? FV_OK : FV_FAIL;
}

static fv_status work_out(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const selection *s = context;
    fv_size_row *row = &s->answer->rows[index / JOBS];
    const fv_plant *plant = s->answer->plant;
    fv_heat_kit *kit = study_kit(&s->pool->kits, worker);
    switch (index % JOBS) {
    case 0:
        return size_follow(plant, &row->change, SIZE_AS_DESIGNED, true, kit, progress, &row->run);
    case 1:
        return size_follow(plant, &row->change, SIZE_CLOGGED, true, kit, progress, &row->clogged);
    case 2:
        return size_follow(plant, &row->change, SIZE_HALF_FIRE, true, kit, progress, &row->half_fire);
    default:
        return work_moment(s->pool, row);
    }
}

/* Of those shown, by the runs to the end. */
static void mark_least_fuel(fv_size_answer *answer)
{
    int least = -1;
    for (size_t i = 0; i < answer->row_count; i++)
        if (answer->rows[i].keeps && answer->rows[i].run.fuel > 0 &&
            (least < 0 || answer->rows[i].run.fuel < answer->rows[least].run.fuel))
            least = (int)i;
    if (least >= 0)
        answer->rows[least].marks |= FV_SIZE_IS_LEAST_FUEL;
}

static void mark_answer(fv_size_answer *answer)
{
    static const unsigned marks[] = {FV_SIZE_IS_FASTEST, FV_SIZE_IS_MOST_EVEN, FV_SIZE_IS_CHEAPEST,
                                     FV_SIZE_IS_LEAST_FUEL};
    answer->best = answer->nearest = -1;
    for (size_t i = 0; i < answer->row_count; i++) {
        fv_size_row *row = &answer->rows[i];
        if (row->keeps && row->marks & marks[answer->options.goal])
            answer->best = (int)i;
        if (row->marks & FV_SIZE_IS_NEAREST)
            answer->nearest = (int)i;
    }
    if (answer->best >= 0)
        answer->rows[answer->best].marks |= FV_SIZE_IS_ANSWER;
}

static void count_states(const size_pool *pool, fv_size_answer *answer)
{
    for (size_t i = 0; i < pool->count; i++) {
        const size_candidate *c = pool->list[i];
        answer->unfit += c->state == SIZE_UNFIT;
        answer->unsolved += c->state == SIZE_UNSOLVED;
        for (int k = 0; k < FV_LIMITS; k++)
            answer->broken[k] += c->state == SIZE_JUDGED && !c->checks[k].kept;
    }
}

fv_status size_make_rows(size_pool *pool, fv_size_answer *answer, fv_faults *faults)
{
    selection s = {.pool = pool, .answer = answer};
    bool good = select_rows(&s);
    sort_rows(&s);
    answer->rows = good ? fv_arena_alloc(answer->arena, s.count + 1, sizeof *answer->rows) : NULL;
    good = answer->rows != NULL;
    for (size_t i = 0; i < s.count && good; i++)
        good = open_row(&s, i);
    if (good)
        answer->row_count = s.count;
    const study_work plan = {.threads = answer->options.threads,
                             .progress = pool->progress,
                             .from = pool->from,
                             .to = 1,
                             .what = "working out the choices"};
    const study_ending outcome = good ? study_run(&plan, s.count * JOBS, work_out, &s) : STUDY_FAILED;
    if (outcome == STUDY_STOPPED)
        return FV_FAIL;
    if (outcome == STUDY_FAILED) {
        fv_error(faults, FV_ERR_SYSTEM, answer->plant->loc, "out of memory");
        return FV_FAIL;
    }
    for (size_t i = 0; i < answer->row_count; i++) {
        fv_size_row *row = &answer->rows[i];
        size_check_run(&answer->options.limits, &row->run, row->checks);
        row->keeps = row->run.ran && size_keeps(row->checks);
    }
    count_states(pool, answer);
    mark_least_fuel(answer);
    mark_answer(answer);
    return FV_OK;
}
