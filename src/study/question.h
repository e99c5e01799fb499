/* SPDX-License-Identifier: MIT */
/* The question why on its way to the answer. */
#ifndef STUDY_QUESTION_H
#define STUDY_QUESTION_H

#include "study/tries.h"

typedef struct {
    fv_why_answer *answer;
    study_basis basis;
    study_ways ways;
    const fv_progress *progress;
    fv_faults *faults;
    bool *asked;          /* by vessel */
    double until;         /* s: later than that nothing is followed */
    study_causes present; /* causes that are there */
    study_try now, full;  /* as it is; with all causes taken away */
    study_try alone[FV_WHY_CAUSES], last[FV_WHY_CAUSES];
} study_question;

/* Time that counts for a vessel in a try: cap where its core does not arrive by then. */
double study_counted(const study_question *q, const study_try *try, size_t vessel);

/* Which causes are shared out, from the tries alone and last. */
void study_choose_causes(study_question *q);
/* Runs the subsets and fills the vessels' shares, ranks and first causes. */
study_outcome study_attribute(study_question *q, const study_plan *plan);

/* Names what each first cause is about. False: out of memory. */
bool study_name_parts(study_question *q);

#endif
