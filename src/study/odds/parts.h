/* SPDX-License-Identifier: MIT */
/* The question odds on its way to the answer. */
#ifndef STUDY_ODDS_PARTS_H
#define STUDY_ODDS_PARTS_H

#include "farvessel/odds.h"
#include "study/ensemble.h"

#include <math.h>

enum { ODDS_MOMENTS = 6 }; /* times at which curves are kept, for the places of probes */

typedef struct {
    fv_odds_answer *answer;
    const fv_progress *progress;
    fv_faults *faults;
    study_kits kits;
    study_unknowns unknowns;
    size_t vessels;
    double *z;                   /* runs x unknowns */
    bool *good;                  /* by run */
    unsigned char *verdict;      /* runs x vessels */
    bool *relief;                /* by run */
    double *last;                /* by run, s, `until` where a core does not arrive */
    double moment[ODDS_MOMENTS]; /* s */
    double *curve;               /* runs x vessels x 2 (core, chamber) x moments, K */
} odds_question;

/* sample.c: the sample of the question. False: stopped, or said in faults. */
bool odds_run_sample(odds_question *q);
/* inputs.c: what matters, and what to measure. False: stopped, or said in faults. */
bool odds_weigh_inputs(odds_question *q);
/* places.c */
bool odds_place_probes(odds_question *q);
/* sample.c: runs samples in which z is count x unknowns, and gives the last core's time of each; NaN: failed. */
study_ending odds_run_last(odds_question *q, const double *z, size_t count, const study_work *plan, double *last);

#endif
