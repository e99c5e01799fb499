/* SPDX-License-Identifier: MIT */
/* A thousand what-ifs in one go: the plant with each combination of values, or with values drawn at random, answered
 * row by row. Rows come in the order of the grid (the last axis runs fastest) or of the draw, whatever the number of
 * threads, and memory does not grow with their number but for the draw's inputs. What cannot be answered is a row too,
 * with its reason. */
#ifndef FARVESSEL_SWEEP_H
#define FARVESSEL_SWEEP_H

#include "farvessel/change.h"
#include "farvessel/heatup.h"

FV_C_BEGIN

/* One attribute and what it is given, or how many of the plant's vessels, from the first on, take part. Texts belong to
 * the caller. */
typedef struct {
    const char *path, *attribute; /* as in fv_setting; NULL: number of vessels */
    const double *values;         /* SI; words: their index */
    size_t count;
    bool range; /* a draw takes anything between first and last value; else one of the list */
} fv_sweep_axis;

typedef enum { FV_SWEEP_FLOW, FV_SWEEP_HEAT } fv_sweep_ask;
#define FV_SWEEP_ASK_WORDS "flow|heat"

enum { FV_SWEEP_AXES_MOST = 40, FV_SWEEP_ROWS_MOST = 10000000, FV_SWEEP_DRAWS_MOST = 1000000 };

typedef struct {
    fv_sweep_ask ask;   /* default heat */
    size_t draws;       /* 0: the full grid; else as many quasi-random combinations (Sobol', randomly shifted) */
    unsigned long seed; /* of the draw; default 1 */
    size_t part, parts; /* this share of all rows, 1 to parts; default 1 of 1 */
    size_t skip;        /* rows of this part that are there already */
    size_t threads;     /* 0: as many as there are processors */
    double fire;        /* multiplies every fire setting; default 1 */
} fv_sweep_options;
void fv_sweep_defaults(fv_sweep_options *options);

/* Rows of the whole; SIZE_MAX where they are more than FV_SWEEP_ROWS_MOST. */
size_t fv_sweep_rows(const fv_sweep_axis *axes, size_t axis_count, const fv_sweep_options *options);
/* First row of the part, and the one after its last: parts put together are the whole. */
void fv_sweep_part(size_t rows, const fv_sweep_options *options, size_t *first, size_t *end);

/* Of one vessel. NaN: it did not happen, or was not asked. */
typedef struct {
    double steam, heat;      /* flow: kg/s into it, W */
    double core, hold, took; /* heat: s since the first fire; s from its own opening to its core */
    fv_verdict verdict;
} fv_sweep_vessel;

typedef struct {
    size_t index;         /* from 0, in the whole */
    const double *inputs; /* by axis, SI */
    bool answered;
    const char *reason;        /* why not; NULL where answered */
    double steam, fuel, water; /* flow: kg/s of all boilers, W burnt; heat: kg of steam, J of fuel; kg of water */
    double last_core;          /* heat: s, NaN where one never arrives */
    fv_sweep_vessel *vessels;  /* as many as the plant has */
} fv_sweep_row;

/* Called with each row in order, by one thread. False ends the sweep: FV_FAIL comes back without a word. */
typedef bool fv_sweep_take(void *context, const fv_sweep_row *row);

/* FV_FAIL: said in faults, or the taker or the progress callback wished to stop. The plant is not changed. */
fv_status fv_sweep_run(const fv_plant *plant, const fv_sweep_axis *axes, size_t axis_count,
                       const fv_sweep_options *options, const fv_progress *progress, fv_sweep_take *take, void *context,
                       fv_faults *faults);

FV_C_END

#endif
