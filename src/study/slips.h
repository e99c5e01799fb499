/* SPDX-License-Identifier: MIT */
/* Sensitivity of a plan to errors in its execution, one at a time (slips, as human reliability analysis calls them):
 * each of its valves narrower and wider, each thing later. */
#ifndef STUDY_SLIPS_H
#define STUDY_SLIPS_H

#include "study/evaluate.h"

/* Of one change: what can be missed, each as a whole change; in `arena`. */
typedef struct {
    fv_slip *list;
    fv_change *changes;
    size_t count;
} study_slips;

/* False: out of memory. */
bool study_slips_list(const fv_change *change, fv_arena *arena, study_slips *slips);
/* Outcomes of the slips, followed with `fineness`, to the end of the holds where something is done in the course of the
 * run. */
study_ending study_slips_evaluate(study_evaluator *evaluator, const study_slips *slips, double fineness,
                                  const study_outcome **outcomes);
/* Vessels out of time, holds broken, lids and relief valves lifted that would not be; of rough runs also vessels so
 * near their time that a full run may find them late. */
size_t study_slip_harm(const fv_plant *plant, const study_outcome *slipped, const study_outcome *planned);
/* Whether a does more harm than b. */
bool study_slip_is_worse(const fv_plant *plant, const study_outcome *a, const study_outcome *b,
                         const study_outcome *planned);

/* The worst of a change whose outcome, in full, is known: found by rough runs, told by a full one. Texts in `arena`. */
study_ending study_slips_worst(study_evaluator *evaluator, const fv_plant *plant, const fv_change *change,
                               const study_outcome *planned, fv_arena *arena, fv_slip *worst);

#endif
