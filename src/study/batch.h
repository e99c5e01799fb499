/* SPDX-License-Identifier: MIT */
/* Several changes that are evaluated in one go. */
#ifndef STUDY_BATCH_H
#define STUDY_BATCH_H

#include "study/evaluate.h"

typedef struct {
    study_settings *settings;       /* one for each change, opened; the caller fills them in */
    const study_outcome **outcomes; /* once evaluated; they belong to the evaluator */
    size_t count;
} study_batch;

/* False: out of memory. Close it in any case. */
bool study_batch_open(study_batch *batch, size_t count);
/* STUDY_FAILED also where settings have failed. Times as long as it takes. */
study_ending study_batch_evaluate(study_evaluator *evaluator, study_batch *batch, bool follow, double fineness);
void study_batch_close(study_batch *batch);

#endif
