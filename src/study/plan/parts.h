/* SPDX-License-Identifier: MIT */
/* The pieces of `plan`: what could be mended or bought, with which hands, and what is shown. */
#ifndef STUDY_PLAN_PARTS_H
#define STUDY_PLAN_PARTS_H

#include "farvessel/plan.h"
#include "study/advise.h"
#include "study/bounds.h"
#include "study/schedule.h"
#include "study/robust.h"
#include "study/remedies.h"

/* A plan on its way: some moves and a handling. */
typedef struct {
    const fv_why_remedy *moves[3];
    size_t move_count;
    fv_change given;  /* of the moves, and what `left` is where it is left up */
    bool leaves;      /* the fire is left up */
    int *point;       /* of the handling */
    fv_change fire;   /* turned down in the end; empty: it is not */
    double fuel_full; /* J, were it not */
    study_scored score;
} plan_candidate;

typedef struct {
    fv_plan_answer *answer;
    study_adviser adviser;
    study_objective objective;
    plan_candidate *list; /* in the answer's arena; the first: nothing, the second: hands alone */
    size_t count, capacity;
    fv_change left; /* the fires as they are lit where the plant turns them down at a core and a hold breaks; empty */
    const fv_progress *progress;
    fv_faults *faults;
} plan_question;

/* ---- moves.c: things to mend and to buy, for the vessel that is last ---- */

/* Adds candidates with one, two and three moves, with the best handling found for each that promises most. */
study_ending plan_moves(plan_question *q, const study_advice_options *options);

/* Makes `given` anew from its moves and, where it `leaves` the fire up, from that. False: out of memory. */
bool plan_give(const plan_question *q, plan_candidate *candidate, bool leaves);
/* Classes of work count from the least bill of those that bring all in time. */
void plan_count_bills(plan_question *q);
study_effort plan_moves_effort(const plan_candidate *candidate);
/* What its moves and its handling take. */
void plan_add_effort(const plan_question *q, plan_candidate *candidate);

/* ---- candidates.c ---- */

/* NULL: out of memory. */
plan_candidate *plan_add(plan_question *q, const plan_candidate *candidate);
/* A point of the handling, kept. NULL: out of memory. */
int *plan_point(plan_question *q, const int *point);

/* ---- fire.c ---- */

/* Finds what `left` is, from the plant as it is. */
study_ending plan_leave_fire(plan_question *q);

/* Turns the fire down when the last core is there, or left up where the plant turns it down, as far as no hold breaks.
 */
study_ending plan_turn_down(plan_question *q, plan_candidate *candidate);

/* ---- rows.c ---- */

/* The best for the goal; the plant as it is where nothing is better. */
size_t plan_best(const plan_question *q);

/* Whether another candidate is as good in everything, but for what does not matter, and better in something. */
bool plan_is_beaten(const plan_question *q, size_t candidate);
/* The answer first, then what nothing beats in bill and last core at once. False: out of memory. */
bool plan_rows(plan_question *q, size_t best);

#endif
