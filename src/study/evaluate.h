/* SPDX-License-Identifier: MIT */
/* What a run says of a changed plant, judged in one place; several changes at a time, each only once. */
#ifndef STUDY_EVALUATE_H
#define STUDY_EVALUATE_H

#include "study/parallel.h"
#include "study/settings.h"

/* Pa in a chamber that a plan may bring about: what a lid held by its own weight bears; where it is lifted already at
 * `now`, in the plant as it is, a quarter more, for that harm is not the plan's. Common practice, no source. */
static inline double study_lid_bears(double now)
{
    const double own_weight = 200, more = 1.25;
    return now > own_weight ? more * now : own_weight;
}

/* Whether a pressure in a chamber, Pa, lifts its lid, but for rounding. */
static inline bool study_lifts_lid(double pressure, double bears)
{
    return pressure > 1.001 * bears;
}

/* Times in s from the lighting of the first fire. Arrays by vessel. */
/* Fineness while a search is on its way: most last cores within 1 % of a full run's. */
#define STUDY_ROUGH 0.4

typedef struct {
    bool ran;                  /* false: not sound, or no solution was found; nothing below counts then */
    bool cut;                  /* was ended, at `until` or given up, before every core was there */
    bool followed;             /* to the end of the holds; else only to the cores */
    double until;              /* the latest time that it was followed to, as asked */
    size_t late_ends;          /* as asked */
    double fineness;           /* as asked */
    size_t unsafe;             /* boilers above their relief pressure or dry, lids lifted more than they are now */
    size_t lifted;             /* lids that it lifts no more than they are lifted now */
    size_t late;               /* vessels that are starved: not in time, or whose hold is not kept */
    double lateness;           /* s, by all of them */
    double first, last;        /* cores; last: INFINITY where one does not arrive */
    double sum;                /* of all cores; a tie of two last cores is none where the others are earlier */
    double done;               /* end of the last hold; NaN: not followed, or some hold never ends */
    double expected;           /* end of the last hold if none breaks; INFINITY: some core does not arrive */
    double hold_least;         /* s, the shortest that is asked for */
    double spread;             /* longest / shortest time from opening to core */
    double fuel;               /* J; NaN: no fuel named */
    double water, steam, mass; /* kg; mass: that reached the end of its hold */
    double boiler_pressure, chamber_pressure; /* Pa gauge, highest */
    double *core, *opened, *full, *hold, *ample;
    double *chamber; /* Pa gauge, highest */
    double *walls;   /* of the heat that it got, what its walls took */
    fv_verdict *verdicts;
} study_outcome;

typedef struct {
    const fv_change *change; /* NULL: the plant as it is */
    bool follow;             /* to the end of the holds */
    double fineness;         /* of the steps, as in fv_heat_options */
    double until;            /* s; INFINITY: as long as it takes */
    bool give_up;            /* once some core cannot be there by `until` */
    size_t late_ends;        /* given up once so many cores cannot be there in time; 0: never */
} study_ask;

/* Lives as long as what it evaluated. The plant must outlive it. NULL: out of memory. */
typedef struct study_evaluator study_evaluator;
study_evaluator *study_evaluator_new(const fv_plant *plant, const study_work *work);
void study_evaluator_free(study_evaluator *evaluator);
/* Share of the user's progress for what is evaluated from now on. */
void study_evaluator_progress(study_evaluator *evaluator, double from, double to, const char *what);
/* The user has asked to stop: what is still evaluated closes the best answer so far, and asks no more. */
void study_evaluator_close_up(study_evaluator *evaluator);
size_t study_evaluator_runs(const study_evaluator *evaluator);  /* of the plant in time */
size_t study_evaluator_plans(const study_evaluator *evaluator); /* different changes looked at */

/* outcomes[i]: of asks[i]; belongs to the evaluator. */
study_ending study_evaluate(study_evaluator *evaluator, const study_ask *asks, size_t count,
                            const study_outcome **outcomes);

#endif
