/* SPDX-License-Identifier: MIT */
#include "study/week/replay.h"

#include <math.h>
#include <stdlib.h>

/* One vessel; times in s from the first week's beginning. */
typedef struct {
    double hung;       /* from when it may be lit; NaN: it is not hung on */
    double done, cool; /* steam shut, cool */
} vessel;

struct week_replay {
    week_timetable of;
    vessel *vessels;
    double begins;      /* of this week */
    double boiler_free; /* from when */
};

const char *fv_week_slip_word(fv_week_slip slip)
{
    static const char *const words[FV_WEEK_SLIPS] = {"lit", "hot", "warm", "alone"};
    return words[slip];
}

week_replay *week_replay_new(const week_timetable *timetable)
{
    week_replay *r = calloc(1, sizeof *r);
    vessel *vessels = calloc(timetable->problem->vessels + 1, sizeof *vessels);
    if (!r || !vessels) {
        free(r);
        free(vessels);
        return NULL;
    }
    *r = (week_replay){.of = *timetable, .vessels = vessels};
    for (size_t i = 0; i < timetable->problem->vessels; i++)
        vessels[i].hung = NAN;
    return r;
}

void week_replay_free(week_replay *replay)
{
    if (!replay)
        return;
    free(replay->vessels);
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
    r->boiler_free = now + batch->steam;
    for (size_t i = 0, lit = 0; i < r->of.problem->vessels && lit < entry->vessel; i++) {
        vessel *v = &r->vessels[i];
        if (isnan(v->hung) || v->hung > now)
            continue;
        *v = (vessel){.hung = NAN, .done = now + batch->steam, .cool = now + batch->steam + batch->cool};
        lit++;
    }
    return slips;
}

static unsigned follow(week_replay *r, const fv_week_entry *entry, const week_times **batch)
{
    const double now = r->begins + (double)entry->slot * r->of.slot;
    vessel *v = &r->vessels[entry->what == FV_TASK_LIGHT ? 0 : entry->vessel];
    switch (entry->what) {
    case FV_TASK_HANG_ON:
        v->hung = now + (double)r->of.problem->task[FV_TASK_HANG_ON].slots * r->of.slot;
        return 0;
    case FV_TASK_LIGHT:
        return light(r, entry, now, (*batch)++);
    case FV_TASK_TAKE_OFF:
        return bit(FV_WEEK_SLIP_HOT, now < v->done);
    case FV_TASK_EMPTY:
        return bit(FV_WEEK_SLIP_WARM, now < v->cool);
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
