/* SPDX-License-Identifier: MIT */
/* The way through the choices: all of them where that can be afforded. Else, for each goal, one dimension after the
 * other is set to its best value, then two at a time, until nothing gets better; what looks best is followed in time,
 * and so are its neighbours as long as they are better. */
#include "study/size/parts.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum {
    NEAREST_FOLLOWED = 12, /* where nothing keeps the limits */
    CHUNK = 6              /* followed side by side beside the best */
};

static int by_number(double a, double b)
{
    a = isnan(a) ? INFINITY : a;
    b = isnan(b) ? INFINITY : b;
    return (a > b) - (a < b);
}

static int by_count(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int by_choice(const size_candidate *a, const size_candidate *b, size_t dimensions)
{
    int order = 0;
    for (size_t i = 0; i < dimensions && order == 0; i++)
        order = by_count(a->choice[i], b->choice[i]);
    return order;
}

static int first_of(const int *orders, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (orders[i] != 0)
            return orders[i];
    return 0;
}

int size_compare_judged(const size_candidate *a, const size_candidate *b, fv_size_goal goal, size_t dimensions)
{
    const int slow = by_number(a->slow, b->slow), ratio = by_number(a->ratio, b->ratio);
    const int sum = by_number(a->sum, b->sum), cost = by_number(a->cost, b->cost);
    const int late = (a->late > 1) - (b->late > 1), unpriced = by_count(a->unpriced, b->unpriced);
    const int keys[FV_SIZE_GOALS][4] = {[FV_SIZE_FOR_TIME] = {slow, sum, ratio, cost},
                                        [FV_SIZE_FOR_SPREAD] = {ratio, slow, sum, cost},
                                        [FV_SIZE_FOR_COST] = {late, cost, unpriced, slow},
                                        [FV_SIZE_FOR_FUEL] = {slow, sum, ratio, cost}};
    const int orders[] = {by_number(a->excess, b->excess), first_of(keys[goal], 4), by_choice(a, b, dimensions)};
    return first_of(orders, 3);
}

int size_compare_followed(const size_candidate *a, const size_candidate *b, fv_size_goal goal, size_t dimensions)
{
    const bool a_keeps = a->followed && size_keeps(a->checks), b_keeps = b->followed && size_keeps(b->checks);
    const double a_excess = a->followed ? size_excess(a->checks) : INFINITY;
    const double b_excess = b->followed ? size_excess(b->checks) : INFINITY;
    const int slow = by_number(a->run.slowest, b->run.slowest), spread = by_number(a->run.spread, b->run.spread);
    const int cost = by_number(a->cost, b->cost), unpriced = by_count(a->unpriced, b->unpriced);
    const int keys[FV_SIZE_GOALS][4] = {[FV_SIZE_FOR_TIME] = {slow, spread, cost, unpriced},
                                        [FV_SIZE_FOR_SPREAD] = {spread, slow, cost, unpriced},
                                        [FV_SIZE_FOR_COST] = {cost, unpriced, slow, spread},
                                        [FV_SIZE_FOR_FUEL] = {by_number(a->run.fuel, b->run.fuel), slow, cost, spread}};
    const int orders[] = {b_keeps - a_keeps, by_number(a_excess, b_excess), first_of(keys[goal], 4),
                          by_choice(a, b, dimensions)};
    return first_of(orders, 4);
}

/* ---- judging ---- */

typedef struct {
    size_pool *pool;
    fv_size_answer *answer;
    size_t *list; /* candidates of the batch at hand */
    size_t count, capacity;
    size_t *at; /* a choice that is being made up */
} search;

static bool add(search *s, const size_t *choice)
{
    void *list = s->list;
    const size_t index = size_pool_find(s->pool, choice);
    s->pool->failed = s->pool->failed || !fv_grow(&list, &s->capacity, s->count + 1, sizeof *s->list);
    s->list = list;
    if (!s->pool->failed)
        s->list[s->count++] = index;
    return !s->pool->failed;
}

/* The best of the batch. */
static size_t best_judged(const search *s, fv_size_goal goal)
{
    size_t best = s->list[0];
    for (size_t i = 1; i < s->count; i++)
        if (size_compare_judged(s->pool->list[s->list[i]], s->pool->list[best], goal, s->answer->dimension_count) < 0)
            best = s->list[i];
    return best;
}

static bool judge_all(search *s)
{
    const fv_size_answer *a = s->answer;
    bool more = true;
    memset(s->at, 0, a->dimension_count * sizeof *s->at);
    s->count = 0;
    while (more) {
        if (!add(s, s->at))
            return false;
        more = false;
        for (size_t d = 0; d < a->dimension_count && !more; d++) {
            more = ++s->at[d] < a->dimensions[d].value_count;
            s->at[d] = more ? s->at[d] : 0;
        }
    }
    return size_pool_judge(s->pool, s->list, s->count);
}

static size_t new_in_batch(const search *s)
{
    size_t count = 0;
    for (size_t i = 0; i < s->count; i++)
        count += s->pool->list[s->list[i]]->state == SIZE_NEW;
    return count;
}

/* All values of one dimension (d == e) or of two, the rest as in *at. Moves *at to the best; false: no better. */
static bool vary(search *s, fv_size_goal goal, size_t d, size_t e, size_t *at)
{
    const fv_size_dimension *dimensions = s->answer->dimensions;
    const size_t dimension_count = s->answer->dimension_count;
    s->count = 0;
    memcpy(s->at, s->pool->list[*at]->choice, dimension_count * sizeof *s->at);
    for (size_t i = 0; i < dimensions[d].value_count; i++)
        for (size_t j = 0; j < (d == e ? 1 : dimensions[e].value_count); j++) {
            s->at[d] = i;
            if (d != e)
                s->at[e] = j;
            if (!add(s, s->at))
                return false;
        }
    if (s->pool->judged + new_in_batch(s) > s->answer->options.screens_most ||
        !size_pool_judge(s->pool, s->list, s->count))
        return false;
    const size_t best = best_judged(s, goal);
    const bool better = size_compare_judged(s->pool->list[best], s->pool->list[*at], goal, dimension_count) < 0;
    *at = better ? best : *at;
    return better;
}

/* One dimension after the other, and with `pairs` two at a time where that helps no more. */
static void descend(search *s, fv_size_goal goal, bool pairs, size_t at)
{
    const size_t count = s->answer->dimension_count;
    for (bool better = true; better && !s->pool->stopped && !s->pool->failed;) {
        better = false;
        for (size_t d = 0; d < count; d++)
            better = vary(s, goal, d, d, &at) || better;
        for (size_t d = 0; d < count && !better && pairs; d++)
            for (size_t e = d + 1; e < count && !better; e++)
                better = vary(s, goal, d, e, &at);
    }
}

static bool is_of_use(const search *s, fv_size_goal goal)
{
    return goal != FV_SIZE_FOR_COST || s->answer->priced;
}

static size_t best_of_all(search *s, fv_size_goal goal)
{
    size_t best = 0;
    for (size_t i = 1; i < s->pool->count; i++)
        if (s->pool->list[i]->state != SIZE_NEW &&
            size_compare_judged(s->pool->list[i], s->pool->list[best], goal, s->answer->dimension_count) < 0)
            best = i;
    return best;
}

/* From the plant as it is, from the smallest of everything and from the largest; with what room is left, from the best
 * in pairs. */
static bool judge_some(search *s)
{
    const fv_size_answer *a = s->answer;
    for (int start = 0; start < 3; start++) {
        for (size_t d = 0; d < a->dimension_count; d++)
            s->at[d] = start == 0 ? 0 : start == 1 ? 1 : a->dimensions[d].value_count - 1;
        s->count = 0;
        if (!add(s, s->at) || !size_pool_judge(s->pool, s->list, 1))
            return false;
        const size_t at = s->list[0];
        for (fv_size_goal goal = 0; goal < FV_SIZE_GOALS; goal++)
            if (is_of_use(s, goal))
                descend(s, goal, false, at);
    }
    for (fv_size_goal goal = 0; goal < FV_SIZE_GOALS; goal++)
        if (is_of_use(s, goal) && !s->pool->stopped && !s->pool->failed)
            descend(s, goal, true, best_of_all(s, goal));
    return !s->pool->stopped && !s->pool->failed;
}

/* ---- following ---- */

/* Sorting with a goal in hand, without a place for it in qsort. */
static void sort_judged(const search *s, size_t *list, size_t count, fv_size_goal goal)
{
    for (size_t gap = count / 2; gap > 0; gap /= 2)
        for (size_t i = gap; i < count; i++) {
            const size_t moved = list[i];
            size_t j = i;
            while (j >= gap && size_compare_judged(s->pool->list[moved], s->pool->list[list[j - gap]], goal,
                                                   s->answer->dimension_count) < 0) {
                list[j] = list[j - gap];
                j -= gap;
            }
            list[j] = moved;
        }
}

/* Those judged, into the batch: only those that keep the limits of one moment, or all. */
static bool gather(search *s, bool keeping)
{
    void *list = s->list;
    s->count = 0;
    s->pool->failed = s->pool->failed || !fv_grow(&list, &s->capacity, s->pool->count + 1, sizeof *s->list);
    s->list = list;
    for (size_t i = 0; !s->pool->failed && i < s->pool->count; i++) {
        const size_candidate *c = s->pool->list[i];
        if (c->state == SIZE_JUDGED && (!keeping || c->excess <= 0))
            s->list[s->count++] = i;
    }
    return !s->pool->failed;
}

static bool follow_picks(search *s)
{
    const size_t most = s->answer->options.runs_most;
    const size_t each = most / (2 * FV_SIZE_GOALS) > 0 ? most / (2 * FV_SIZE_GOALS) : 1;
    for (fv_size_goal goal = 0; goal < FV_SIZE_GOALS; goal++) {
        if (!is_of_use(s, goal))
            continue;
        if (!gather(s, true))
            return false;
        sort_judged(s, s->list, s->count, goal);
        if (!size_pool_follow(s->pool, s->list, s->count < each ? s->count : each))
            return false;
    }
    return true;
}

static size_t best_followed(const search *s, fv_size_goal goal)
{
    size_t best = 0;
    for (size_t i = 1; i < s->pool->count; i++)
        if (s->pool->list[i]->followed &&
            size_compare_followed(s->pool->list[i], s->pool->list[best], goal, s->answer->dimension_count) < 0)
            best = i;
    return best;
}

static double size_at(const fv_size_dimension *d, size_t value)
{
    return value == 0 ? d->now : d->values[value];
}

/* The next larger or smaller value of a dimension; its own where there is none. */
static size_t next_value(const fv_size_dimension *d, size_t value, bool up)
{
    size_t next = value;
    for (size_t i = 0; i < d->value_count; i++) {
        const double gap = size_at(d, i) - size_at(d, value), best = size_at(d, next) - size_at(d, value);
        if ((up ? gap > 0 : gap < 0) && (next == value || fabs(gap) < fabs(best)))
            next = i;
    }
    return next;
}

/* Step `way` of dimension d from what stands in *at: larger, smaller, as it is now. */
static void step(const search *s, size_t d, int way)
{
    s->at[d] = way == 2 ? 0 : next_value(&s->answer->dimensions[d], s->at[d], way == 0);
}

/* Adds what lies one step beside a candidate, or one step in each of two dimensions. */
static bool add_beside(search *s, size_t at, bool pairs)
{
    enum { WAYS = 3 };
    const size_t count = s->answer->dimension_count;
    for (size_t d = 0; d < count; d++)
        for (size_t e = pairs ? d + 1 : d; e < (pairs ? count : d + 1); e++)
            for (int way = 0; way < (pairs ? WAYS * WAYS : WAYS); way++) {
                memcpy(s->at, s->pool->list[at]->choice, count * sizeof *s->at);
                step(s, d, way % WAYS);
                if (pairs)
                    step(s, e, way / WAYS);
                if (!add(s, s->at))
                    return false;
            }
    return true;
}

/* Puts those that keep the limits of one moment into the batch, what promises most first. */
static bool gather_beside(search *s, size_t at, fv_size_goal goal, bool pairs)
{
    s->count = 0;
    if (!add_beside(s, at, pairs))
        return false;
    if (s->pool->judged + new_in_batch(s) > s->answer->options.screens_most) {
        s->count = 0;
        return true;
    }
    if (!size_pool_judge(s->pool, s->list, s->count))
        return false;
    size_t keeping = 0;
    for (size_t i = 0; i < s->count; i++) {
        const size_candidate *c = s->pool->list[s->list[i]];
        if (c->state == SIZE_JUDGED && c->excess <= 0 && !c->followed)
            s->list[keeping++] = s->list[i];
    }
    s->count = keeping;
    sort_judged(s, s->list, s->count, goal);
    return true;
}

/* Follows the batch, a few at a time, until something is better than *at or there is no more room. */
static bool follow_batch(search *s, fv_size_goal goal, size_t *at, bool *better)
{
    for (size_t done = 0; done < s->count && !*better; done += CHUNK) {
        const size_t left = s->answer->options.runs_most - s->pool->followed;
        size_t count = s->count - done < CHUNK ? s->count - done : CHUNK;
        count = count < left ? count : left;
        if (count == 0)
            return true;
        if (!size_pool_follow(s->pool, s->list + done, count))
            return false;
        const size_t best = best_followed(s, goal);
        *better = best != *at;
        *at = best;
    }
    return true;
}

/* Follows what lies beside the best, then what lies two steps away, as long as that brings something better. */
static bool refine(search *s, fv_size_goal goal)
{
    size_t at = best_followed(s, goal);
    for (bool better = true; better;) {
        better = false;
        for (int pairs = 0; pairs < 2 && !better; pairs++)
            if (!gather_beside(s, at, goal, pairs == 1) || !follow_batch(s, goal, &at, &better))
                return false;
    }
    return true;
}

/* Where nothing keeps the limits, those that break least say what limits. */
static bool follow_nearest(search *s)
{
    if (!gather(s, false))
        return false;
    sort_judged(s, s->list, s->count, s->answer->options.goal);
    return size_pool_follow(s->pool, s->list, s->count < NEAREST_FOLLOWED ? s->count : NEAREST_FOLLOWED);
}

static bool follow(search *s, bool all_judged)
{
    const size_t now = 0;
    s->pool->to_the_end = s->answer->options.goal == FV_SIZE_FOR_FUEL;
    if (!size_pool_follow(s->pool, &now, 1) || !gather(s, true))
        return false;
    s->answer->kept = s->count;
    if (s->count == 0)
        return follow_nearest(s);
    if (s->count <= s->answer->options.runs_most) {
        s->answer->exhaustive = all_judged;
        return size_pool_follow(s->pool, s->list, s->count);
    }
    bool good = follow_picks(s);
    for (fv_size_goal goal = 0; goal < FV_SIZE_GOALS && good; goal++)
        if (is_of_use(s, goal))
            good = refine(s, goal);
    return good;
}

bool size_search(size_pool *pool, fv_size_answer *answer)
{
    search s = {.pool = pool, .answer = answer};
    s.at = fv_arena_alloc(pool->arena, answer->dimension_count + 1, sizeof *s.at);
    pool->failed = !s.at;
    bool good = s.at && add(&s, s.at);
    const bool all = answer->choices <= (double)answer->options.screens_most;
    good = good && size_pool_judge(pool, s.list, s.count) && (all ? judge_all(&s) : judge_some(&s)) && follow(&s, all);
    free(s.list);
    answer->screened = pool->judged;
    answer->ran = pool->followed;
    if (answer->kept == 0)
        answer->exhaustive = all;
    return good;
}
