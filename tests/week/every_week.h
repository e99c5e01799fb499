/* SPDX-License-Identifier: MIT */
/* The best week that repeats, by going through everything that can be done: from each state in which a week may begin,
 * the most kg to each state in which it may end, slot by slot. For a handful of slots and vessels. Shares no code with
 * what it checks. */
#ifndef TESTS_WEEK_EVERY_WEEK_H
#define TESTS_WEEK_EVERY_WEEK_H

#include "farvessel/week.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { EVERY_VESSELS = 3, EVERY_STATES = 60000 };

/* Where a vessel stands: 0 clean, 1 filling, 2 filled, 3 hanging, 4 hung, 5 steaming, 6 hot, 7 leaving, 8 off,
 * 9 emptying; slots left of that; slots until it is cool. */
typedef struct {
    unsigned char stage[EVERY_VESSELS], left[EVERY_VESSELS], cool[EVERY_VESSELS], boiler;
    unsigned char busy[4]; /* people at work now and in the next slots */
} every_state;

typedef struct {
    every_state state;
    double kg;
} every_entry;

typedef struct {
    every_entry *entries;
    size_t count;
} every_set;

static void every_sort(every_state *s, size_t n)
{
    for (size_t i = 0; i < n; i++)
        for (size_t k = i + 1; k < n; k++)
            if (s->stage[k] < s->stage[i] ||
                (s->stage[k] == s->stage[i] &&
                 (s->left[k] < s->left[i] || (s->left[k] == s->left[i] && s->cool[k] < s->cool[i])))) {
                unsigned char a = s->stage[i], b = s->left[i], c = s->cool[i];
                s->stage[i] = s->stage[k], s->left[i] = s->left[k], s->cool[i] = s->cool[k];
                s->stage[k] = a, s->left[k] = b, s->cool[k] = c;
            }
}

static void every_add(every_set *set, const every_state *state, double kg)
{
    for (size_t i = 0; i < set->count; i++)
        if (memcmp(&set->entries[i].state, state, sizeof *state) == 0) {
            if (kg > set->entries[i].kg)
                set->entries[i].kg = kg;
            return;
        }
    if (set->count == EVERY_STATES)
        abort();
    set->entries[set->count++] = (every_entry){*state, kg};
}

static size_t every_count(const every_state *s, size_t n, int from, int to)
{
    size_t count = 0;
    for (size_t i = 0; i < n; i++)
        count += s->stage[i] >= from && s->stage[i] <= to;
    return count;
}

static bool every_hands(const fv_week_problem *p, const every_state *s, size_t slot, fv_week_task task)
{
    for (size_t k = 0; k < task.slots; k++)
        if (p->people[(slot + k) % (FV_WEEK_DAYS * p->slots_a_day)] < s->busy[k] + task.people)
            return false;
    return true;
}

static void every_take(every_state *s, fv_week_task task)
{
    for (size_t k = 0; k < task.slots; k++)
        s->busy[k] = (unsigned char)(s->busy[k] + task.people);
}

static void every_next(const fv_week_problem *p, size_t slot, every_state s, double kg, every_set *after);

/* All tasks have one slot at least. */
static void every_begin(const fv_week_problem *p, size_t slot, const every_state *s, double kg, fv_week_what what,
                        int from, bool cool, every_set *after)
{
    if (!every_hands(p, s, slot, p->task[what]))
        return;
    for (size_t i = 0; i < p->vessels; i++) {
        if (s->stage[i] != from || (cool && s->cool[i] > 0))
            continue;
        every_state t = *s;
        t.stage[i] = (unsigned char)(what == FV_TASK_EMPTY ? 9 : from + 1);
        t.left[i] = (unsigned char)p->task[what].slots;
        every_take(&t, p->task[what]);
        every_next(p, slot, t, kg, after);
        return;
    }
}

static void every_light(const fv_week_problem *p, size_t slot, const every_state *s, double kg, every_set *after)
{
    if (s->boiler > 0 || !every_hands(p, s, slot, p->task[FV_TASK_LIGHT]))
        return;
    for (size_t k = 1; k <= p->places; k++) {
        bool there = every_count(s, p->vessels, 4, 4) >= k;
        for (size_t a = 0; a < p->batch[k].attended; a++)
            there = there && p->people[(slot + a) % (FV_WEEK_DAYS * p->slots_a_day)] > 0;
        if (!there)
            continue;
        every_state t = *s;
        t.boiler = (unsigned char)p->batch[k].steam;
        for (size_t i = 0, lit = 0; i < p->vessels && lit < k; i++)
            if (t.stage[i] == 4) {
                t.stage[i] = 5;
                t.left[i] = (unsigned char)p->batch[k].steam;
                t.cool[i] = (unsigned char)(p->batch[k].steam + p->batch[k].cool);
                lit++;
            }
        every_take(&t, p->task[FV_TASK_LIGHT]);
        every_next(p, slot, t, kg + p->batch[k].kg, after);
    }
}

/* Everything that can be begun in this slot, in any combination; then time goes on by one. */
static void every_next(const fv_week_problem *p, size_t slot, every_state s, double kg, every_set *after)
{
    const size_t places_held =
        every_count(&s, p->vessels, 3, 7) + (p->taken_off ? 0 : every_count(&s, p->vessels, 9, 9));
    every_light(p, slot, &s, kg, after);
    if (p->taken_off)
        every_begin(p, slot, &s, kg, FV_TASK_TAKE_OFF, 6, false, after);
    if (places_held < p->places)
        every_begin(p, slot, &s, kg, FV_TASK_HANG_ON, 2, false, after);
    every_begin(p, slot, &s, kg, FV_TASK_EMPTY, p->taken_off ? 8 : 6, true, after);
    if (every_count(&s, p->vessels, 1, 4) < p->places)
        every_begin(p, slot, &s, kg, FV_TASK_FILL, 0, false, after);
    for (size_t i = 0; i < p->vessels; i++) {
        static const unsigned char then[10] = {0, 2, 2, 4, 4, 6, 6, 8, 8, 0};
        s.cool[i] = (unsigned char)(s.cool[i] - (s.cool[i] > 0));
        if (s.left[i] > 0 && --s.left[i] == 0)
            s.stage[i] = then[s.stage[i]];
    }
    s.boiler = (unsigned char)(s.boiler - (s.boiler > 0));
    memmove(s.busy, s.busy + 1, sizeof s.busy - 1);
    s.busy[sizeof s.busy - 1] = 0;
    every_sort(&s, p->vessels);
    every_add(after, &s, kg);
}

static void every_week_from(const fv_week_problem *p, const every_state *begin, every_set *sets)
{
    sets[0].count = 0;
    every_add(&sets[0], begin, 0.0);
    for (size_t slot = 0; slot < FV_WEEK_DAYS * p->slots_a_day; slot++) {
        const every_set *now = &sets[slot % 2];
        sets[1 - slot % 2].count = 0;
        for (size_t i = 0; i < now->count; i++)
            every_next(p, slot, now->entries[i].state, now->entries[i].kg, &sets[1 - slot % 2]);
    }
}

/* kg of the best week that ends as it began. */
static double every_week_best(const fv_week_problem *p)
{
    every_set sets[2], begins = {calloc(EVERY_STATES, sizeof(every_entry)), 0};
    double best = 0.0;
    for (int i = 0; i < 2; i++)
        sets[i] = (every_set){calloc(EVERY_STATES, sizeof(every_entry)), 0};
    every_add(&begins, &(every_state){0}, 0.0);
    for (size_t i = 0; i < begins.count; i++) {
        every_week_from(p, &begins.entries[i].state, sets);
        const every_set *end = &sets[FV_WEEK_DAYS * p->slots_a_day % 2];
        for (size_t k = 0; k < end->count; k++) {
            every_add(&begins, &end->entries[k].state, 0.0);
            if (memcmp(&end->entries[k].state, &begins.entries[i].state, sizeof(every_state)) == 0)
                best = fmax(best, end->entries[k].kg);
        }
    }
    free(begins.entries);
    free(sets[0].entries);
    free(sets[1].entries);
    return best;
}

#endif
