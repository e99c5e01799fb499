/* SPDX-License-Identifier: MIT */
/* A handling as a schedule: actions of hands by the clock. */
#ifndef STUDY_SCHEDULE_H
#define STUDY_SCHEDULE_H

#include "farvessel/plan.h"
#include "study/evaluate.h"
#include "study/handling.h"

/* In the order of time, in `arena`; when what waits for an event is due comes from the outcome, which may be NULL.
 * False: out of memory. */
bool study_steps_of(const study_handling *handling, const int *point, const study_outcome *outcome, fv_arena *arena,
                    fv_plan_step **steps, size_t *count);

#endif
