/* SPDX-License-Identifier: MIT */
/* Runs of changed plants, side by side. */
#ifndef STUDY_TRIES_H
#define STUDY_TRIES_H

#include "study/ideal.h"
#include "study/parallel.h"

enum { STUDY_REASON = 160 };

typedef struct {
    study_causes causes;     /* to take away, and */
    int only;                /* where, as in study_idealize; or */
    const fv_change *change; /* to make; NULL: none */
    double until;            /* s */
    /* what came of it, in room that the caller gives: by vessel */
    double *took;     /* s from its steam open to its core; NaN: not by then */
    double *core;     /* s from the start; NaN */
    double *chamber;  /* Pa gauge, highest in it */
    double pressure;  /* the same at any boiler */
    bool over_relief; /* above its relief pressure */
    bool failed;      /* the plant is not sound so, or no solution was found: */
    char reason[STUDY_REASON];
} study_try;

/* Room for the outcome of a try. False: out of memory. */
bool study_try_room(fv_arena *arena, size_t vessels, study_try *try);

/* A failed try is no failure of the whole. */
study_ending study_tries_run(const study_basis *basis, const study_work *plan, study_try *tries, size_t count);

/* What a run says of its vessels and boilers. */
void study_try_read(const fv_heat_result *result, study_try *try);

#endif
