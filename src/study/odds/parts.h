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
    study_caches caches;
    study_unknowns unknowns;
    size_t vessels;
    double *z;                   /* runs x unknowns */
    bool *ran, *good;            /* by run: done, and with a solution */
    unsigned char *verdict;      /* runs x vessels */
    bool *relief;                /* by run */
    double *last;                /* by run, s, `until` where a core does not arrive */
    double moment[ODDS_MOMENTS]; /* s */
    double *curve;               /* runs x vessels x 2 (core, chamber) x moments, K */
} odds_question;

/* odds.c: a multiple of the sets, neither too few nor too many? False: said in faults. */
bool odds_runs_are_good(size_t runs, const fv_plant *plant, fv_faults *faults);

/* counts.c: what is counted of runs. */
/* Is it so in that run, of that vessel? */
typedef bool odds_is(const void *of, size_t run, size_t vessel);
/* Share of the good runs in which it is, and its standard error from the scatter of the sets (error may be NULL). */
double odds_chance(odds_is *is, const void *of, size_t vessel, const bool *good, size_t runs, double *error);
/* Of the good runs' values, `stride` apart, set by set as drawn; errors only where none failed. work: 3 x runs. */
void odds_band(const double *values, size_t stride, const bool *good, size_t runs, double *work, fv_band *band);

/* sample.c: runs of a plant with unknowns drawn: z is count x unknowns. */
study_ensemble odds_ensemble(const fv_plant *plant, const study_unknowns *unknowns, const double *z, size_t count,
                             double until);
/* The plant with nothing drawn. NULL: said in faults. */
fv_heat_result *odds_run_now(const fv_plant *plant, double fire, const fv_progress *progress, fv_faults *faults);
/* Its last core (NaN: one never arrives), and until when draws are followed. False: no vessel gets steam. */
bool odds_until(const fv_heat_result *now, double *last, double *until);
void odds_say_no_steam(const fv_plant *plant, fv_faults *faults);
/* The last core of a run, `until` where one does not arrive. */
double odds_last(const fv_heat_result *result, double until);
/* In its time from the opening of its steam? */
fv_verdict odds_verdict(const fv_heat_result *result, size_t vessel);

/* sample.c: the sample of the question. False: stopped, or said in faults. */
bool odds_run_sample(odds_question *q);
/* inputs.c: what matters, and what to measure. False: stopped, or said in faults. */
bool odds_weigh_inputs(odds_question *q);
/* places.c */
bool odds_place_probes(odds_question *q);
/* sample.c: runs samples in which z is count x unknowns, and gives the last core's time of each; NaN: failed. */
study_ending odds_run_last(odds_question *q, const double *z, size_t count, const study_work *plan, double *last);

#endif
