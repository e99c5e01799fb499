/* SPDX-License-Identifier: MIT */
/* What the batches of a plant are like, by heat runs. */
#ifndef STUDY_WEEK_BATCHES_H
#define STUDY_WEEK_BATCHES_H

#include "farvessel/week.h"

#include "study/parallel.h"
#include "study/week/kinds.h"

/* Runs the answer's batches into runs[1] on, of the plant, which is the answer's or another with the same vessels. Why
 * a batch does not work goes into the arena. STUDY_FAILED: said in faults. */
study_ending week_run_batches(const fv_week_answer *answer, const fv_plant *plant, const study_work *work,
                              fv_week_run *runs, fv_faults *faults);

/* The plant with all vessels shut but the first of each kind, as many as the batch has. NULL: said in faults. */
fv_plant *week_batch_plant(const fv_week_answer *answer, const fv_plant *plant, size_t batch, fv_faults *faults);

/* s of a batch from lighting that somebody has to be there, by what may run alone; and its share of the steam's time, 1
 * of a run that does not work. */
double week_attended(const fv_work *work, const fv_week_run *run);
double week_attended_share(const fv_work *work, const fv_week_run *run);

/* s since the start when a vessel can be emptied: its load is cool, or is unloaded onto shelves. NaN: never. */
double week_free_at(const fv_vessel *vessel, const fv_vessel_history *history);

#endif
