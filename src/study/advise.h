/* SPDX-License-Identifier: MIT */
/* The best handling of a plant: candidates, then the search over all knobs of hands. */
#ifndef STUDY_ADVISE_H
#define STUDY_ADVISE_H

#include "study/search.h"

typedef struct {
    study_objective objective;
    bool valves, starts; /* may be touched; washers count as valves */
    bool turns;          /* valves may be turned in the course of the run */
    size_t most;         /* plans looked at */
} study_advice_options;

/* What was found for one plant with one change that is settled beforehand. */
typedef struct {
    const fv_change *given; /* settled; NULL: none */
    study_effort settled;   /* what that takes */
    int *point;             /* by knob of the handling */
    study_scored score;     /* at full fineness, followed to the end of the holds */
    size_t looked_at;
    bool stopped;
} study_advice;

typedef struct {
    const fv_plant *plant;
    fv_arena *arena;
    study_ways ways;
    study_handling handling;
    study_evaluator *evaluator;
} study_adviser;

/* The plant must outlive it. False: out of memory. */
bool study_adviser_open(study_adviser *adviser, const fv_plant *plant, const study_work *work);
void study_adviser_close(study_adviser *adviser);

/* `from`: points to start from beside the usual candidates, `count` rows. advice->given is read, the rest filled in;
 * advice->point in the adviser's arena. */
study_ending study_advise(study_adviser *adviser, const study_advice_options *options, const int *from, size_t count,
                          study_advice *advice);
/* A further search from what was found, which stays where that finds nothing better. */
study_ending study_advise_again(study_adviser *adviser, const study_advice_options *options, study_advice *advice);
/* The settled change and the handling together. */
void study_advice_settings(const study_adviser *adviser, const study_advice *advice, study_settings *settings);

#endif
