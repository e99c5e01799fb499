/* SPDX-License-Identifier: MIT */
/* Floor 5: how sure is this, and what should be measured first? Whole runs of the plant in time, with its unknowns
 * (unknowns.h) drawn from their distributions: quasi-random, the same sample for the same seed, the same answer for any
 * number of threads.
 *
 * A band counts what the table of unknowns lists, as independent quantities. It leaves out what no file says: a coil
 * that clogs, a lid that somebody opens, a gap moved by hand, another load than was weighed, faults of the model. */
#ifndef FARVESSEL_ODDS_H
#define FARVESSEL_ODDS_H

#include "farvessel/heatup.h"
#include "farvessel/unknowns.h"

FV_C_BEGIN

enum { FV_ODDS_SETS = 8 }; /* independent sets in a sample, for its error */

typedef struct {
    size_t runs;        /* a multiple of FV_ODDS_SETS, 64 at least; default 512 */
    unsigned long seed; /* default 1 */
    bool exact;         /* also run the Saltelli and Jansen scheme: runs / 8 x (unknowns + 2) more */
    size_t places;      /* probes to find places for; default 3 */
    size_t threads;     /* 0: as many as there are processors; the answer is the same */
} fv_odds_options;
void fv_odds_defaults(fv_odds_options *options);

/* 10, 50 and 90 % of the runs lie below; infinite: so many do not arrive. Each with its sampling error (one standard
 * error from the sets' scatter; NaN where it is not to be had). */
typedef struct {
    double low, middle, high;
    double low_error, middle_error, high_error;
} fv_band;

typedef struct {
    fv_band core;        /* s from the start to the core at its target */
    double now;          /* s, of the plant as the file has it; NaN: does not arrive */
    double within;       /* chance that it arrives in the time allowed */
    double within_error; /* standard error of that */
    double verdict[3];   /* chances of FV_FED, FV_LAGGING and FV_STARVED */
    double last;         /* how often it is the last core of all */
    double *share;       /* of the variance of its core's time, by unknown, first order */
} fv_odds_vessel;

typedef struct {
    size_t unknown;                  /* in the list */
    double first, total;             /* shares of the variance of the last core's time */
    double exact_first, exact_total; /* by the exact scheme; NaN: not asked for */
    double narrows;                  /* s by which the 80 % band of the last core narrows once it is known */
    double worth;                    /* narrows / effort of the measurement, s */
} fv_odds_input;

/* Where a probe tells most, read during the first half of the time that the last core takes: after those before it in
 * the list. */
typedef struct {
    int vessel;
    bool core;      /* at its core, else in its chamber */
    double narrows; /* s by which the band of the last core narrows with this one and all before it */
} fv_odds_place;

typedef struct {
    const fv_plant *plant;
    fv_odds_options options;
    fv_heat_result *now; /* the plant as the file has it */
    const fv_unknown *unknowns;
    size_t unknown_count;
    double until;            /* s: what has not arrived by then counts as that late where an average is asked for */
    fv_odds_vessel *vessels; /* by vessel */
    fv_band last;            /* the last core of all */
    double last_now;         /* s, as the file has it; NaN */
    double all_within;       /* chance that every vessel arrives in its time */
    double all_within_error;
    double over_relief;    /* chance that some boiler goes above its relief pressure */
    fv_odds_input *inputs; /* by what they add to the variance, the largest first */
    size_t *first_measure; /* indices into inputs, by worth, the largest first */
    double explained;      /* share of the variance that the regression predicts */
    size_t never;          /* runs in which some core does not arrive by `until` */
    fv_odds_place *places;
    size_t place_count;
    double probe_error;       /* K, standard uncertainty of the probes placed */
    size_t runs, runs_failed; /* failed: no solution was found; left out of the counts */
    bool stopped;             /* by the user: the counts are of the runs so far */
    size_t runs_done;         /* those so far, good or failed; else all */
    double *core;             /* runs x vessels, s; infinite: not by `until`; NaN: failed */
    fv_arena *arena;
} fv_odds_answer;

/* NULL: faults say why, or the user asked to stop before 64 runs were done. The plant must outlive the answer. */
fv_odds_answer *fv_odds_run(const fv_plant *plant, const fv_odds_options *options, const fv_progress *progress,
                            fv_faults *faults);
void fv_odds_free(fv_odds_answer *answer);

FV_C_END

#endif
