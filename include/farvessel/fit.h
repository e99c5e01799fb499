/* SPDX-License-Identifier: MIT */
/* Floor 5: what must the plant be like, given a log? The most probable values of its unknowns (unknowns.h), the probes'
 * offsets and the time at which the fire was lit, and how far the log pins them down.
 *
 * A reading is the model at the probe's place through the probe's lag, plus its offset, plus a slow error (an
 * Ornstein-Uhlenbeck process, whose size is estimated), plus noise. Readings a minute apart are so not taken as
 * independent, which would make bands ten times too narrow. Large departures count in proportion, not squared (Huber),
 * so that a lid that was opened does not bend the answer.
 *
 * Beside the plant as the file has it, plants with one thing wrong that nobody knows of are tried: a coil that is
 * partly clogged, a hose that is narrower, water in a sag; each weighed by how well it explains the log, so that what
 * the log does not show yet stays as likely as it was.
 *
 * Bands: draws from the posterior (Laplace's approximation at each mode, corrected by importance weights; below an
 * effective size of 50, or 0.3 of fewer draws, moved by randomize-then-optimize and then alike), each a whole run. They
 * count what odds counts, and leave out what it leaves out, and more than one such fault at a time. */
#ifndef FARVESSEL_FIT_H
#define FARVESSEL_FIT_H

#include "farvessel/datafile.h"
#include "farvessel/log.h"
#include "farvessel/odds.h"

FV_C_BEGIN

typedef enum { FV_DEFECT_NONE, FV_DEFECT_CLOGGED, FV_DEFECT_NARROW, FV_DEFECT_SAG, FV_DEFECTS } fv_defect_kind;
const char *fv_defect_word(fv_defect_kind kind); /* "none", "clogged_coil", "narrow_hose", "water_in_sag" */

typedef struct {
    const char *lit;        /* when the fire was lit, as fv_logfile_when takes it; NULL: at the first row */
    const char *now;        /* later readings are not used; NULL: all are */
    const char *const *did; /* what was done: "14:10 v1 open 50 %", "14:10 boiler fire 60 %", "14:10 bench1 shut" */
    size_t did_count;
    bool goes_on;       /* the run does: meters, which are of the whole of it, are not used; forecasts set it */
    bool defects;       /* also try plants with one thing wrong; default */
    size_t draws;       /* from the posterior; default 192 */
    unsigned long seed; /* default 1 */
    size_t threads;     /* 0: as many as there are processors; the answer is the same */
} fv_fit_options;
void fv_fit_defaults(fv_fit_options *options);

/* One way to explain the log. */
typedef struct {
    fv_defect_kind kind;
    int vessel, line;   /* which; -1 */
    double probability; /* among all tried */
    double size;        /* share of the holes' area, share of the bore, m of water; most probable */
} fv_fit_mode;

typedef enum { FV_LEARNT, FV_LEARNT_LITTLE, FV_LEARNT_NOTHING } fv_learnt;
const char *fv_learnt_word(fv_learnt learnt);

typedef struct {
    size_t unknown;           /* in the list */
    double low, middle, high; /* 10, 50, 90 % of the posterior, SI of the first value */
    double prior_low, prior_high;
    double narrower; /* posterior deviation / prior deviation, on the scale where that is normal */
    fv_learnt learnt;
    int pair; /* the unknown that the log can hardly tell from this one; -1 */
    double pair_correlation;
} fv_fit_unknown;

/* A stretch that the model cannot follow. */
typedef struct {
    size_t probe;
    double from, to; /* s of the log */
    double departs;  /* K, mean of reading - model there */
} fv_fit_stretch;

enum {
    FV_FIT_MOMENTS = 61
}; /* evenly from the lighting as supposed to `now`, or to when about the last hold is done */

typedef struct {
    size_t used;                 /* readings */
    double rms;                  /* reading - model - offset; K, of gauges Pa, of meters kg */
    double offset, offset_error; /* posterior */
    double others, others_error; /* the offset, its own prior left out: what the plant and all other probes say; NaN:
                                  * they say nothing */
    double departs;              /* that, against its prior, as a standard normal score */
    double noise;                /* from reading to reading */
    double
        autocorrelation; /* of the whitened residuals, from one to the next: near 0 where the errors are as assumed */
    double runs;         /* standard normal score of the number of runs of their signs */
    double *model;       /* K by row of the log, most probable; NaN before and after the run */
    double *low, *middle, *high; /* K by moment: 10, 50 and 90 % of the draws are below, offset apart */
} fv_fit_probe;

typedef struct {
    fv_band core, hold; /* s from the lighting of the fire: core at its target, hold done */
    double chance;      /* that it is ever done */
    double within;      /* chance that its core is there in its time */
} fv_fit_vessel;

typedef struct {
    const fv_plant *plant;
    const fv_logfile *log;
    fv_fit_options options;
    double lit, lit_error;         /* s of the log; posterior mean and deviation */
    double now;                    /* s of the log: the last reading used */
    double moment[FV_FIT_MOMENTS]; /* s of the log */
    const fv_unknown *unknown_list;
    size_t unknown_count;
    fv_fit_unknown *unknowns;
    fv_log_probe *cleaned; /* as of log: readings and what was left out */
    fv_fit_probe *probes;
    size_t probe_count;
    size_t instrument_count;                 /* gauges and meters: they follow the probes in both, in their own units */
    fv_fit_vessel *vessels;                  /* by vessel */
    double last_low, last_middle, last_high; /* s: the last hold done */
    fv_fit_mode *modes; /* the most probable first, of at least 3 %: what lacks in 1 is in many less likely ones */
    size_t mode_count;
    fv_fit_stretch *stretches;
    size_t stretch_count;
    double slow[2];     /* K, size of the slow error at cores and in chambers, estimated */
    double slow_time;   /* s */
    double effective;   /* effective number of draws */
    bool stopped;       /* by the user: fewer draws were made */
    bool sampled;       /* weights alone left too few draws: they were moved */
    size_t draws, runs; /* runs: at most, where a fit settles early */
    fv_change best;     /* settings that make the plant the most probable one */
    fv_arena *arena;
} fv_fit_answer;

/* NULL: faults say why, or the user asked to stop. A log of another plant, with columns exchanged, of the other unit or
 * off by an hour is said, not fitted. Plant and log must outlive the answer. */
fv_fit_answer *fv_fit_run(const fv_plant *plant, const fv_logfile *log, const fv_fit_options *options,
                          const fv_progress *progress, fv_faults *faults);
void fv_fit_free(fv_fit_answer *answer);

FV_C_END

#endif
