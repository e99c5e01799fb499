/* SPDX-License-Identifier: MIT */
/* A timetable gone through with batches that take other times than it was made for. */
#ifndef STUDY_WEEK_REPLAY_H
#define STUDY_WEEK_REPLAY_H

#include "farvessel/week.h"

/* s: from lighting until the last steam is shut; until nobody has to be there any more; from the steam's end until all
 * is cool. Infinite: never. */
typedef struct {
    double steam, attended, cool;
} week_times;

typedef struct {
    const fv_week_problem *problem;
    const fv_week_plan *plan;
    double slot; /* s */
} week_timetable;

typedef struct week_replay week_replay;
/* Vessels stand as the plan says that its week begins. NULL: out of memory. */
week_replay *week_replay_new(const week_timetable *timetable);
void week_replay_free(week_replay *replay);

/* That batch of the problem's is on the steam since `lit`, s from the first week's beginning, and it is `now`; it ends
 * as `batch` says. Bits of fv_week_slip, of people who then go home. */
unsigned week_replay_on_steam(week_replay *replay, size_t batch_on, double lit, double now, const week_times *batch);

/* The next week, with the week's batches in order; bits of fv_week_slip that happened in it. People then do what the
 * timetable says all the same, so that one slip is not counted as many. */
unsigned week_replay_next(week_replay *replay, const week_times *batches);

#endif
