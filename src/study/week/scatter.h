/* SPDX-License-Identifier: MIT */
/* Batches as they might turn out, and weeks made of them. */
#ifndef STUDY_WEEK_SCATTER_H
#define STUDY_WEEK_SCATTER_H

#include "study/parallel.h"
#include "study/week/replay.h"

/* Plants, each on several days: the batch of every size on each. */
typedef struct {
    size_t plants, days, sizes;
    week_times *times; /* sizes x plants x days; infinite: its holds are not kept, it never cools */
} week_sample;

/* Draws `a->options.odds` runs of each size and sets a->odds.runs and spread. In the answer's arena. */
study_ending week_sample_draw(fv_week_answer *a, const study_work *work, week_sample *sample, fv_faults *faults);

/* Goes through weeks of the answer's plan; sets what a->odds says of them. FV_FAIL: out of memory. */
fv_status week_sample_replay(fv_week_answer *a, const week_sample *sample);

/* Time of one batch to plan with over that of its one predicted run: 1 where no odds are asked for. */
double week_margin_steam(const fv_week_answer *a, size_t size);
double week_margin_cool(const fv_week_answer *a, size_t size);

#endif
