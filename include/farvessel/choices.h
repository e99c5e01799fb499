/* SPDX-License-Identifier: MIT */
/* Floor 5: choices with all that is not known drawn at random (unknowns.h), the same draws for each of them: what
 * differs between two choices is then their own doing, and the band of the difference is far narrower than the two
 * bands.
 *
 * A choice is tied with the one that a study picked where the band of the difference between their last cores takes in
 * nought: eight draws in ten do not agree which of the two is earlier. A band counts what odds counts (odds.h), and
 * leaves out what odds leaves out. */
#ifndef FARVESSEL_CHOICES_H
#define FARVESSEL_CHOICES_H

#include "farvessel/odds.h"

FV_C_BEGIN

typedef struct {
    const char *name;
    const fv_plant *plant;
    const fv_change *change; /* on top of `plant`; NULL: none */
    size_t base;             /* index of the choice that it is to be better than; its own: none */
    size_t pick;             /* index of the one that was picked among its like */
} fv_choice;

typedef struct {
    size_t runs;        /* of each choice; a multiple of FV_ODDS_SETS, 64 at least; default 128 */
    unsigned long seed; /* default 1 */
    double fire;        /* share of full fire; default 1 */
    size_t threads;     /* 0: as many as there are processors; the answer is the same */
} fv_choices_options;
void fv_choices_defaults(fv_choices_options *options);

typedef struct {
    const char *id;
    double now;          /* s from the start to its core at the target, nothing drawn; NaN: never */
    fv_band core;        /* s */
    double within;       /* chance that it is there in its time */
    double within_error; /* standard error of that */
} fv_choice_vessel;

/* Times in s. */
typedef struct {
    const fv_choice *choice;
    fv_choice_vessel *vessels; /* those that get steam */
    size_t vessel_count;
    double now;        /* the last core, nothing drawn; NaN: some core never arrives */
    fv_band last;      /* the last core */
    fv_band gain;      /* by how much that is earlier than with `base`; NaN where the choice is its own */
    fv_band behind;    /* by how much later than with `pick`; NaN where the choice is the pick */
    bool tie;          /* with `pick`: that band takes in nought */
    double all_within; /* chance that all its vessels are there in their time */
    double all_within_error;
    size_t failed; /* runs without a solution */
} fv_choice_odds;

typedef struct fv_choices_answer {
    fv_choices_options options;
    fv_choice_odds *rows; /* by choice */
    size_t count;         /* rows that were finished: all of them, or those before the user stopped it */
    bool stopped;
    size_t unknown_count; /* of all choices together */
    fv_arena *arena;
} fv_choices_answer;

/* NULL: faults say why, or the user stopped it before the first row was finished. Choices and their plants must outlive
 * the answer. */
fv_choices_answer *fv_choices_run(const fv_choice *choices, size_t count, const fv_choices_options *options,
                                  const fv_progress *progress, fv_faults *faults);
void fv_choices_free(fv_choices_answer *answer);

FV_C_END

#endif
