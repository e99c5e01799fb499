/* SPDX-License-Identifier: MIT */
/* Vessels of one kind change places from week to week, so they have no names here: of a kind, what was lit first is
 * taken off first, and what is cool first is emptied first. */
#include "study/week/replay.h"
#include "study/week/kinds.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* s from the first week's beginning: steam shut, cool; of one that is hung on: from when it may be lit. */
typedef struct {
    double ready, cool;
    size_t kind;
} vessel;

typedef struct {
    vessel *list;
    size_t count;
} queue;

struct week_replay {
    week_timetable of;
    queue hung, hot, off;
    double begins;      /* of this week */
    double boiler_free; /* from when */
};

const char *fv_week_slip_word(fv_week_slip slip)
{
    static const char *const words[FV_WEEK_SLIPS] = {"lit", "hot", "warm", "alone"};
    return words[slip];
}

static void put(const week_replay *r, queue *q, vessel v)
{
    if (q->count < r->of.problem->vessels)
        q->list[q->count++] = v;
}

/* The one of a kind that is ready, or cool, first; of those alike the one put in first. False: there is none. */
static bool take(queue *q, bool by_cool, size_t kind, vessel *v)
{
    size_t first = q->count;
    for (size_t i = 0; i < q->count; i++)
        if (q->list[i].kind == kind && (first == q->count || (by_cool ? q->list[i].cool < q->list[first].cool
                                                                      : q->list[i].ready < q->list[first].ready)))
            first = i;
    if (first == q->count)
        return false;
    *v = q->list[first];
    q->count--;
    memmove(q->list + first, q->list + first + 1, (q->count - first) * sizeof *q->list);
    return true;
}

week_replay *week_replay_new(const week_timetable *timetable)
{
    const size_t most = timetable->problem->vessels + 1;
    week_replay *r = calloc(1, sizeof *r);
    vessel *vessels = calloc(3 * most, sizeof *vessels);
    if (!r || !vessels) {
        free(r);
        free(vessels);
        return NULL;
    }
    *r = (week_replay){
        .of = *timetable, .hung.list = vessels, .hot.list = vessels + most, .off.list = vessels + 2 * most};
    for (size_t k = 0; k < week_kind_count(timetable->problem); k++) {
        const vessel before = {-INFINITY, -INFINITY, k}; /* of the week before the first: it kept its times */
        for (size_t i = 0; i < timetable->plan->hung[k]; i++)
            put(r, &r->hung, before);
        for (size_t i = 0; i < timetable->plan->hot[k]; i++)
            put(r, &r->hot, before);
        for (size_t i = 0; i < timetable->plan->off[k]; i++)
            put(r, &r->off, before);
    }
    return r;
}

void week_replay_free(week_replay *replay)
{
    if (!replay)
        return;
    free(replay->hung.list);
    free(replay);
}

static unsigned bit(fv_week_slip slip, bool happens)
{
    return happens ? 1u << slip : 0;
}

/* Somebody is there in every slot that the time reaches into. */
static bool somebody_is_there(const week_replay *r, size_t slot, double attended)
{
    const fv_week_problem *p = r->of.problem;
    const size_t week = FV_WEEK_DAYS * p->slots_a_day;
    const double slots = ceil(attended / r->of.slot - 1e-9);
    for (size_t s = 0; (double)s < fmin(slots, (double)week); s++)
        if (p->people[(slot + s) % week] == 0)
            return false;
    return true;
}

static unsigned light(week_replay *r, const fv_week_entry *entry, double now, const week_times *batch)
{
    const unsigned slips = bit(FV_WEEK_SLIP_LIT, now < r->boiler_free) |
                           bit(FV_WEEK_SLIP_ALONE, !somebody_is_there(r, entry->slot, batch->attended));
    vessel v;
    r->boiler_free = now + batch->steam;
    for (size_t k = 0; k < week_kind_count(r->of.problem); k++)
        for (size_t i = 0; i < week_batch_of(r->of.problem, entry->vessel, k) && take(&r->hung, false, k, &v); i++)
            put(r, &r->hot, (vessel){now + batch->steam, now + batch->steam + batch->cool, k});
    return slips;
}

unsigned week_replay_on_steam(week_replay *replay, size_t batch_on, double lit, double now, const week_times *batch)
{
    const double slot = floor(now / replay->of.slot);
    replay->boiler_free = lit + batch->steam;
    for (size_t k = 0; k < week_kind_count(replay->of.problem); k++) {
        size_t left = week_batch_of(replay->of.problem, batch_on, k);
        for (size_t i = 0; i < replay->hot.count && left > 0; i++)
            if (replay->hot.list[i].kind == k) {
                replay->hot.list[i] = (vessel){lit + batch->steam, lit + batch->steam + batch->cool, k};
                left--;
            }
    }
    return bit(FV_WEEK_SLIP_ALONE,
               !somebody_is_there(replay, (size_t)slot, lit + batch->attended - slot * replay->of.slot));
}

static unsigned take_off(week_replay *r, size_t kind, double now)
{
    vessel v;
    if (!take(&r->hot, false, kind, &v))
        return 0;
    put(r, &r->off, v);
    return bit(FV_WEEK_SLIP_HOT, now < v.ready);
}

/* Where nothing is taken off, out of those that were on the steam. */
static unsigned empty(week_replay *r, size_t kind, double now)
{
    vessel v;
    return take(r->of.problem->taken_off ? &r->off : &r->hot, true, kind, &v) ? bit(FV_WEEK_SLIP_WARM, now < v.cool)
                                                                              : 0;
}

static unsigned follow(week_replay *r, const fv_week_entry *entry, const week_times **batch)
{
    const double now = r->begins + (double)entry->slot * r->of.slot;
    const size_t kind = entry->what == FV_TASK_LIGHT ? 0 : fv_week_kind_of(r->of.problem, entry->vessel);
    switch (entry->what) {
    case FV_TASK_HANG_ON:
        put(r, &r->hung,
            (vessel){now + (double)r->of.problem->task[FV_TASK_HANG_ON].slots * r->of.slot, -INFINITY, kind});
        return 0;
    case FV_TASK_LIGHT:
        return light(r, entry, now, (*batch)++);
    case FV_TASK_TAKE_OFF:
        return take_off(r, kind, now);
    case FV_TASK_EMPTY:
        return empty(r, kind, now);
    default:
        return 0;
    }
}

unsigned week_replay_next(week_replay *replay, const week_times *batches)
{
    unsigned slips = 0;
    for (size_t i = 0; i < replay->of.plan->entry_count; i++)
        slips |= follow(replay, &replay->of.plan->entries[i], &batches);
    replay->begins += (double)(FV_WEEK_DAYS * replay->of.problem->slots_a_day) * replay->of.slot;
    return slips;
}
