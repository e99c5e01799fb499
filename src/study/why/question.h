/* SPDX-License-Identifier: MIT */
/* The question why on its way to the answer. */
#ifndef STUDY_QUESTION_H
#define STUDY_QUESTION_H

#include "study/why/tries.h"

typedef struct {
    fv_why_answer *answer;
    study_basis basis;
    study_ways ways;
    const fv_progress *progress;
    fv_faults *faults;
    study_caches caches;
    bool stopped;          /* by the user, while hands were tried */
    bool *asked;           /* by vessel */
    double until;          /* s: later than that nothing is followed */
    study_causes present;  /* causes that are there */
    study_try now, full;   /* as it is; with all causes taken away */
    fv_heat_result *whole; /* as it is, to the end of the holds; NULL: no solution */
    study_try alone[FV_WHY_CAUSES], last[FV_WHY_CAUSES];
} study_question;

/* ---- question.c ---- */
/* Time by the clock that counts: s from the start to the core, the end of the run where it does not arrive by then. */
double study_by_clock(const study_question *q, double core);
/* Whether steam is ever let into it, in the plant as it is. */
bool study_opens(const study_question *q, size_t vessel);

/* ---- screening.c ---- */
/* Time from its opening that counts for a vessel in a try: cap where its core does not arrive by then. */
double study_counted(const study_question *q, const study_try *try, size_t vessel);
bool study_find_present(study_question *q); /* false: said in faults */
/* Runs each cause alone, all, and the changes beside them; then those last of which that is to be known. */
study_ending study_screen(study_question *q, const study_work *plan, const fv_change *const *changes, size_t count,
                          study_try *outcomes);
void study_fill_vessels(study_question *q);

/* ---- attribution.c ---- */
/* Whether a cause, taken away alone, changes enough to be shared out. */
bool study_matters(const study_question *q, int cause);
/* Whether its delay is too small to be worth a cause. */
bool study_is_fast(const fv_why_vessel *vessel);
/* Which causes are shared out. */
void study_choose_causes(study_question *q);
/* Runs the subsets and fills the vessels' shares, ranks and first causes. */
study_ending study_attribute(study_question *q, const study_work *plan);

/* ---- steps.c ---- */
/* The remedies that could be tried, weighed and sorted. False: out of memory. */
bool study_weigh_remedies(study_question *q, const fv_why_remedy *list, const study_try *outcomes, size_t count);
void study_choose_steps(study_question *q);

/* ---- cause_parts.c ---- */
/* Names what each first cause is about. False: out of memory. */
bool study_name_parts(study_question *q);

#endif
