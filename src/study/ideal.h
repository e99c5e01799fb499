/* SPDX-License-Identifier: MIT */
/* The plant with some causes of slow heating taken away, as farvessel/why.h defines each. */
#ifndef STUDY_IDEAL_H
#define STUDY_IDEAL_H

#include "farvessel/why.h"
#include "study/ways.h"

/* What the definitions need to know of the plant as it is. */
typedef struct {
    const fv_plant *plant;
    const study_ways *ways;
    const double *need;  /* by vessel, W: heat that its load needs in its allowed time */
    const double *ample; /* by vessel, s: its load with ample steam; NaN: unknown */
    const double *vent;  /* by vessel, m: what its vent should be; NaN: wide enough */
} study_basis;

typedef unsigned study_causes; /* bit by fv_why_cause */
static inline study_causes study_cause_bit(fv_why_cause cause)
{
    return 1u << cause;
}

/* Takes `causes` away in `copy`, a copy of basis->plant, and links it. only >= 0: only at this vessel and on the lines
 * that are its own. *changed, which may be NULL: the causes that were there. */
fv_status study_idealize(const study_basis *basis, study_causes causes, int only, fv_plant *copy, study_causes *changed,
                         fv_faults *faults);

/* Hole area of a coil, m2: as drilled, and as far as it is not clogged. */
double study_drilled_area(const fv_coil *coil);
/* Its first vent; NULL: it has none. */
fv_opening *study_vent_of(const fv_vessel *vessel);

#endif
