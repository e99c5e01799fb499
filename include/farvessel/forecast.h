/* SPDX-License-Identifier: MIT */
/* Floor 5: the log so far: when will each vessel be done? The fit (fit.h) to what was read up to now, and each draw
 * from it run on to the end. What was done meanwhile counts, if it is said; what could still be done is tried on the
 * same draws, so that its difference has a band of its own. Before there are readings `odds` answers. */
#ifndef FARVESSEL_FORECAST_H
#define FARVESSEL_FORECAST_H

#include "farvessel/fit.h"

FV_C_BEGIN

typedef struct {
    fv_fit_options fit;
    const char *const *then; /* what could be done from now on, as `did` of the fit */
    size_t then_count;
} fv_forecast_options;
void fv_forecast_defaults(fv_forecast_options *options);

typedef struct {
    fv_band core, hold; /* s from the lighting */
    double chance;      /* that its hold is ever done */
    double core_now;    /* K, the model's core at `now`, middle of the draws */
    bool done;          /* its hold was done by now, in nine draws of ten */
    fv_band then_hold;  /* s: hold done later by so much if that is done (negative: earlier); NaN: not asked */
} fv_forecast_vessel;

typedef struct {
    const fv_plant *plant;
    const fv_logfile *log;
    fv_forecast_options options;
    double lit, now; /* s of the log */
    fv_forecast_vessel *vessels;
    double last_low, last_middle, last_high; /* s from the lighting: the last hold done */
    int last;                                /* vessel that is last in most draws */
    /* s from the lighting, equally likely: when the last of those likelier than not to be done is; INFINITY where one
     * of them never is */
    const double *ends;
    size_t end_count;
    fv_fit_mode *modes;
    size_t mode_count;
    double effective;
    bool stopped; /* by the user: not all was tried, and fewer draws made */
    bool sampled;
    size_t draws, runs, used; /* used: readings */
    fv_arena *arena;
} fv_forecast_answer;

/* NULL: faults say why, or the user asked to stop. Plant and log must outlive the answer. */
fv_forecast_answer *fv_forecast_run(const fv_plant *plant, const fv_logfile *log, const fv_forecast_options *options,
                                    const fv_progress *progress, fv_faults *faults);
void fv_forecast_free(fv_forecast_answer *answer);

FV_C_END

#endif
