/* SPDX-License-Identifier: MIT */
/* Floor 5: what is not known of a plant, as independent quantities with their distributions. One table
 * (study/unknowns_rows.c) has a row for each sort of quantity: attribute, distribution, source. `known=` and `spread=`
 * of the plant file set how wide it is. What vessels share through a kind is one unknown, and so is what one
 * correlation supplies for many parts. */
#ifndef FARVESSEL_UNKNOWNS_H
#define FARVESSEL_UNKNOWNS_H

#include "farvessel/change.h"

FV_C_BEGIN

typedef enum {
    FV_SPREAD_LOG_NORMAL,   /* a positive quantity: median, share of it up for one deviation */
    FV_SPREAD_NORMAL,       /* a temperature: mean and K */
    FV_SPREAD_LOGIT_NORMAL, /* a share: median and points */
    FV_SPREAD_EVEN_FACTOR   /* anything from so many times less to so many times more, evenly in the logarithm */
} fv_spread_shape;

/* What finding a value out takes, in units of an easy half hour with a tape: 1. Common practice, no source. */
typedef struct {
    const char *how; /* "tape", "scale", "bucket and clock", ... */
    double effort;
} fv_measurement;

typedef struct {
    const char *path, *attribute; /* of the first value that it sets */
    const char *name;             /* "conductivity of the load of chest" */
    fv_dim dim;
    double centre; /* SI, of the first value */
    fv_spread_shape shape;
    double spread;      /* share, K, points, or factor */
    bool said;          /* by the user: spread= */
    fv_known known;     /* as the file has it */
    const char *source; /* of the spread */
    bool of_day;        /* belongs to a day: air, load */
    fv_measurement measurement;
    fv_setting *targets; /* all values that it sets, with what they are now */
    size_t target_count;
} fv_unknown;

/* The value of the first target, SI, at a standard normal z. */
double fv_unknown_at(const fv_unknown *unknown, double z);
/* Nine in ten of what odds draws where the plant file leaves an attribute to its default `now`, and on what ground.
 * False: it is not drawn, and nothing is written. */
bool fv_unknown_band(const char *element, const char *attribute, double now, double *low, double *high,
                     const char **source);
const char *fv_spread_shape_word(fv_spread_shape shape); /* "log_normal", ... */

FV_C_END

#endif
