/* SPDX-License-Identifier: MIT */
/* How a run is judged: the one place where a plan's outcome is made of what heat says. */
#ifndef STUDY_OUTCOME_H
#define STUDY_OUTCOME_H

#include "study/evaluate.h"

/* Room for the arrays. False: out of memory. */
bool study_outcome_room(fv_arena *arena, size_t vessels, study_outcome *outcome);
/* s: the least that a core takes however much steam there is; nothing where steam percolates. */
double study_conduction(const fv_heat_result *result, size_t vessel);
/* The vessel that has its core last, or never; those that are shut off are passed over. */
size_t study_last_vessel(const study_outcome *outcome, size_t vessels);
/* `lids`: by vessel, Pa, pressure above which the lid lifts. `until`, `fineness` stay as they are. */
void study_outcome_read(const fv_heat_result *result, const double *lids, study_outcome *outcome);

#endif
