/* SPDX-License-Identifier: MIT */
/* Which batches, in which order? A week is a list of sizes, each lit as soon as it can be. Lists are gone through by
 * length: what a list has no time for, no longer one has. Where they are too many, the best list found is changed at
 * one and two places, lengthened and shortened, until nothing is better. */
#include "study/week/bounds.h"
#include "study/week/kinds.h"
#include "study/week/simulate.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { EVERY_MOST = 12000, TWO_MOST = 300 };

typedef struct {
    const fv_week_problem *problem;
    week_room *room;
    week_outcome best;
    week_choice best_choice;
    size_t tried, most; /* timetables looked at, and how many may be */
    bool cut;           /* not all lists were gone through */
} search;

const char *fv_week_word(fv_week_what what)
{
    static const char *const words[FV_TASK_KINDS] = {"fill", "hang on", "light", "take off", "empty"};
    return words[what];
}

const char *fv_week_limit_word(fv_week_limit limit)
{
    static const char *const words[] = {"boiler", "places", "vessels", "crew"};
    return words[limit];
}

/* More kg; then fewer hours of work, then less fuel, then fewer batches. */
static bool is_better(const week_outcome *a, const week_outcome *b)
{
    if (fabs(a->kg - b->kg) > 1e-9 * fmax(a->kg, b->kg))
        return a->kg > b->kg;
    if (a->crew_slots != b->crew_slots)
        return a->crew_slots < b->crew_slots;
    if (fabs(a->fuel - b->fuel) > 1e-9 * fmax(a->fuel, b->fuel))
        return a->fuel < b->fuel;
    return a->batches < b->batches;
}

/* How many of its batches are lit. */
static size_t try_choice(search *s, const week_choice *choice)
{
    const week_outcome outcome = week_simulate(s->room, choice);
    s->tried++;
    if (outcome.repeats && is_better(&outcome, &s->best)) {
        s->best = outcome;
        s->best_choice = *choice;
    }
    return outcome.batches;
}

/* All lists that begin with this one. */
static void try_every(search *s, week_choice *choice)
{
    if (choice->count == WEEK_BATCHES_MOST || s->tried >= s->most) {
        s->cut = true;
        return;
    }
    for (size_t k = fv_week_batches(s->problem); k >= 1; k--) {
        if (s->problem->batch[k].steam == 0)
            continue;
        choice->size[choice->count++] = (unsigned char)k;
        if (try_choice(s, choice) == choice->count)
            try_every(s, choice);
        choice->count--;
    }
}

/* The list with batch `at` of that size: 0 takes it out; at the end it is put on. False: the list stays as it is. */
static bool changed(week_choice *choice, size_t at, size_t size)
{
    if (at == choice->count && (size == 0 || at == WEEK_BATCHES_MOST))
        return false;
    if (size > 0) {
        choice->count += at == choice->count;
        choice->size[at] = (unsigned char)size;
        return true;
    }
    choice->count--;
    memmove(choice->size + at, choice->size + at + 1, choice->count - at);
    return true;
}

/* Changes at one place, or at two; true: something was better. */
static bool improve(search *s, bool two)
{
    const week_choice from = s->best_choice;
    const week_outcome was = s->best;
    for (size_t at = 0; at <= from.count; at++)
        for (size_t size = 0; size <= fv_week_batches(s->problem); size++) {
            week_choice one = from;
            if (!changed(&one, at, size))
                continue;
            try_choice(s, &one);
            for (size_t also = at; two && also <= one.count; also++)
                for (size_t other = 0; other <= fv_week_batches(s->problem); other++) {
                    week_choice both = one;
                    if (changed(&both, also, other))
                        try_choice(s, &both);
                }
        }
    return is_better(&s->best, &was);
}

/* The best list with hands going to tasks in every order; and with every list of its length or less but one. */
static bool reorder(search *s)
{
    const week_outcome was = s->best;
    week_choice choice = s->best_choice;
    for (choice.order = 0; choice.order < WEEK_ORDERS; choice.order++) {
        week_choice longer = choice;
        try_choice(s, &choice);
        for (size_t k = 1; k <= fv_week_batches(s->problem); k++)
            if (changed(&longer, choice.count, k)) {
                try_choice(s, &longer);
                longer.count = choice.count;
            }
        for (size_t at = 0; at < choice.count; at++)
            for (size_t k = 1; k <= fv_week_batches(s->problem); k++) {
                week_choice other = choice;
                other.size[at] = (unsigned char)k;
                try_choice(s, &other);
            }
    }
    return is_better(&s->best, &was);
}

/* Changes at two places can be gone through. */
static bool few_changes(const search *s)
{
    return (s->best_choice.count + 1) * (fv_week_batches(s->problem) + 1) <= TWO_MOST;
}

static void look_everywhere(search *s)
{
    week_choice choice = {.count = 0};
    for (choice.order = 0; choice.order < 2; choice.order++) { /* emptying or filling first, once places are served */
        for (size_t k = 1; k <= fv_week_batches(s->problem);
             k++) { /* so that a search that is cut has seen the plain ones */
            choice.count = WEEK_BATCHES_MOST;
            memset(choice.size, (int)k, sizeof choice.size);
            choice.count = try_choice(s, &choice);
            try_choice(s, &choice);
        }
        choice.count = 0;
        const size_t before = s->tried;
        s->most = before + EVERY_MOST / 2;
        try_every(s, &choice);
    }
    for (bool better = true; better;)
        better = (s->cut && (improve(s, false) || (few_changes(s) && improve(s, true)))) || reorder(s);
}

static fv_status keep(search *s, fv_week_plan *plan)
{
    const fv_week_entry *entries;
    const week_outcome outcome = week_simulate(s->room, &s->best_choice);
    plan->entry_count = outcome.repeats ? week_entries(s->room, &entries) : 0;
    plan->entries = calloc(plan->entry_count + 1, sizeof *plan->entries);
    if (!plan->entries)
        return FV_FAIL;
    if (plan->entry_count > 0)
        memcpy(plan->entries, entries, plan->entry_count * sizeof *entries);
    for (size_t k = 0; k < week_kind_count(s->problem); k++)
        week_begins(s->room, k, &plan->hung[k], &plan->hot[k], &plan->off[k]);
    plan->kg = s->best.kg;
    plan->fuel = s->best.fuel;
    plan->batches = s->best.batches;
    plan->order = s->best_choice.order;
    plan->crew_slots = s->best.crew_slots;
    plan->steam_slots = s->best.steam_slots;
    plan->tried = s->tried;
    return FV_OK;
}

static void find_limit(fv_week_plan *plan)
{
    for (int i = 1; i < 4; i++)
        if (plan->bound[i] < plan->bound[plan->limit])
            plan->limit = (fv_week_limit)i;
}

size_t fv_week_batch_near(const fv_week_plan *week, size_t slot)
{
    size_t nearest = 0, least = SIZE_MAX, batch = 0;
    for (size_t i = 0; week && i < week->entry_count; i++) {
        const size_t lit = week->entries[i].slot, apart = lit > slot ? lit - slot : slot - lit;
        if (week->entries[i].what != FV_TASK_LIGHT)
            continue;
        if (apart < least) {
            least = apart;
            nearest = batch;
        }
        batch++;
    }
    return nearest;
}

/* week, stand: NULL for a week that begins anew. */
static fv_status find_best(const fv_week_problem *problem, const fv_week_plan *week, const fv_week_stand *stand,
                           fv_week_plan *plan)
{
    search s = {.problem = problem, .room = week_room_new(problem)};
    fv_status status = s.room ? FV_OK : FV_FAIL;
    *plan = (fv_week_plan){0};
    if (s.room && stand) {
        week_choice choice = {.order = week->order};
        for (size_t i = 0; i < week->entry_count; i++)
            if (week->entries[i].what == FV_TASK_LIGHT)
                choice.size[choice.count++] = (unsigned char)week->entries[i].vessel;
        status = week_stand(s.room, &choice, fv_week_batch_near(week, stand->lit), stand) ? FV_OK : FV_FAIL;
    }
    if (status == FV_OK) {
        look_everywhere(&s);
        plan->every = !s.cut;
        status = keep(&s, plan);
        week_bounds(problem, plan->bound);
        find_limit(plan);
    }
    week_room_free(s.room);
    return status;
}

fv_status fv_week_search(const fv_week_problem *problem, fv_week_plan *plan)
{
    return problem && plan ? find_best(problem, NULL, NULL, plan) : FV_FAIL;
}

fv_status fv_week_search_rest(const fv_week_problem *problem, const fv_week_plan *week, const fv_week_stand *stand,
                              fv_week_plan *rest)
{
    return problem && week && stand && rest ? find_best(problem, week, stand, rest) : FV_FAIL;
}

void fv_week_plan_free(fv_week_plan *plan)
{
    if (!plan)
        return;
    free(plan->entries);
    *plan = (fv_week_plan){0};
}
