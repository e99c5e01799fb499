/* SPDX-License-Identifier: MIT */
/* Which plan is better. First of all the one with fewer boilers over their relief pressure or dry and fewer lids
 * lifted; then with fewer vessels late; then with fewer limits broken; then by less lateness; among plans that bring
 * all in time, by the goal. */
#ifndef STUDY_OBJECTIVE_H
#define STUDY_OBJECTIVE_H

#include "farvessel/plan.h"
#include "study/evaluate.h"
#include "study/handling.h"

#define STUDY_HOLD_BROKEN 1.02 /* times the end of a hold as predicted: one that comes later was broken */
#define STUDY_EACH 60.0        /* s: a thing to do that gains less is not worth doing */

typedef struct {
    fv_plan_goal goal;
    double wage;        /* money for an hour of work */
    double turnaround;  /* s between the end of a batch and the next fire */
    bool by_end;        /* the end of the last hold counts in place of the last core */
    double spread_most; /* slowest / fastest; beyond it a limit is broken; 0: no limit */
    double each;        /* s that each thing to do must gain; 0 while a search is on its way */
    double least;       /* bill from which classes of half an hour's work count; 0: none is known */
    double span;        /* s: the last hold should have ended by then; INFINITY: whenever */
} study_objective;

typedef struct {
    const study_outcome *outcome; /* NULL: not known */
    study_effort effort;
} study_scored;

/* -1: a is better, 1: b is, 0: neither. Outcomes of different fineness must not be mixed. */
int study_compare(const study_objective *objective, const study_scored *a, const study_scored *b);
/* Money and work together; INFINITY where a price is missing. */
double study_bill(const study_objective *objective, const study_effort *effort);
/* Lowers `least` to the bill of what brings all in time, where money and work decide first. */
void study_count_bill(study_objective *objective, const study_scored *scored);
/* Hours of work that go into minding the fire until the last core, at `last` s. */
double study_attended(double last);
/* kg that reach the end of their hold, by day. */
double study_mass_per_day(const study_objective *objective, const study_outcome *outcome);
/* What a run of a plan that takes this effort must not pass if it is to be better than the best so far, as far as that
 * is known beforehand: the time of its last core, and how many cores are late. */
typedef struct {
    double until;     /* s; 0: it cannot be better at all */
    size_t late_ends; /* 0: any number of them */
} study_limits;
study_limits study_limits_to_win(const study_objective *objective, const study_scored *best,
                                 const study_effort *effort);
/* As it may be where its times are wrong by this part of themselves. */
study_outcome study_outcome_hopeful(const study_outcome *outcome, double part);
/* Whether no hold breaks, by an outcome that was followed to the end of the holds; true where some core never comes. */
bool study_holds_unbroken(const study_outcome *outcome);
/* Whether the goal needs runs to the end of the holds. */
bool study_goal_follows(fv_plan_goal goal);

#endif
