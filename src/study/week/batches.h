/* SPDX-License-Identifier: MIT */
/* What the batches of a plant are like, by heat runs. */
#ifndef STUDY_WEEK_BATCHES_H
#define STUDY_WEEK_BATCHES_H

#include "farvessel/week.h"

#include "study/parallel.h"

/* Runs batches of 1 to count of vessels into runs[1] on. Why a batch does not work goes into the arena. STUDY_FAILED:
 * said in faults. */
study_ending week_run_batches(const fv_plant *plant, const study_work *work, fv_arena *arena, fv_week_run *runs,
                              fv_faults *faults);

/* The plant with all but its first `count` vessels shut. NULL: said in faults. */
fv_plant *week_batch_plant(const fv_plant *plant, size_t count, fv_faults *faults);

/* s of a batch from lighting that somebody has to be there, by what may run alone; and its share of the steam's time, 1
 * of a run that does not work. */
double week_attended(const fv_work *work, const fv_week_run *run);
double week_attended_share(const fv_work *work, const fv_week_run *run);

/* s since the start when a vessel can be emptied: its load is cool, or is unloaded onto shelves. NaN: never. */
double week_free_at(const fv_vessel *vessel, const fv_vessel_history *history);

#endif
