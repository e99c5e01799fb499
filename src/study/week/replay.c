/* SPDX-License-Identifier: MIT */
/* Vessels are of one kind and change places from week to week, so they have no names here: what was lit first is taken
 * off first, and what is cool first is emptied first. */
#include "study/week/replay.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* s from the first week's beginning: steam shut, cool; of one that is hung on: from when it may be lit. */
typedef struct {
    double ready, cool;
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

/* The one that is ready, or cool, first; of those alike the one put in first. False: there is none. */
static bool take(queue *q, bool by_cool, vessel *v)
{
    size_t first = 0;
    if (q->count == 0)
        return false;
    for (size_t i = 1; i < q->count; i++)
        if (by_cool ? q->list[i].cool < q->list[first].cool : q->list[i].ready < q->list[first].ready)
            first = i;
    *v = q->list[first];
    q->count--;
    memmove(q->list + first, q->list + first + 1, (q->count - first) * sizeof *q->list);
    return true;
}

week_replay *week_replay_new(const week_timetable *timetable)
{
    const vessel before = {-INFINITY, -INFINITY}; /* of the week before the first: it kept its times */
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
    for (size_t i = 0; i < timetable->plan->hung; i++)
        put(r, &r->hung, before);
    for (size_t i = 0; i < timetable->plan->hot; i++)
        put(r, &r->hot, before);
    for (size_t i = 0; i < timetable->plan->off; i++)
        put(r, &r->off, before);
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
    for (size_t i = 0; i < entry->vessel && take(&r->hung, false, &v); i++)
        put(r, &r->hot, (vessel){now + batch->steam, now + batch->steam + batch->cool});
    return slips;
}

unsigned week_replay_on_steam(week_replay *replay, size_t vessels, double lit, double now, const week_times *batch)
{
    const double slot = floor(now / replay->of.slot);
    replay->boiler_free = lit + batch->steam;
    for (size_t i = 0; i < vessels && i < replay->hot.count; i++)
        replay->hot.list[i] = (vessel){lit + batch->steam, lit + batch->steam + batch->cool};
    return bit(FV_WEEK_SLIP_ALONE,
               !somebody_is_there(replay, (size_t)slot, lit + batch->attended - slot * replay->of.slot));
}

static unsigned take_off(week_replay *r, double now)
{
    vessel v;
    if (!take(&r->hot, false, &v))
        return 0;
    put(r, &r->off, v);
    return bit(FV_WEEK_SLIP_HOT, now < v.ready);
}

/* Where nothing is taken off, out of those that were on the steam. */
static unsigned empty(week_replay *r, double now)
{
    vessel v;
    return take(r->of.problem->taken_off ? &r->off : &r->hot, true, &v) ? bit(FV_WEEK_SLIP_WARM, now < v.cool) : 0;
}

static unsigned follow(week_replay *r, const fv_week_entry *entry, const week_times **batch)
{
    const double now = r->begins + (double)entry->slot * r->of.slot;
    switch (entry->what) {
    case FV_TASK_HANG_ON:
        put(r, &r->hung, (vessel){now + (double)r->of.problem->task[FV_TASK_HANG_ON].slots * r->of.slot, -INFINITY});
        return 0;
    case FV_TASK_LIGHT:
        return light(r, entry, now, (*batch)++);
    case FV_TASK_TAKE_OFF:
        return take_off(r, now);
    case FV_TASK_EMPTY:
        return empty(r, now);
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
