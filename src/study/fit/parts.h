/* SPDX-License-Identifier: MIT */
/* The question fit on its way to the answer. */
#ifndef STUDY_FIT_PARTS_H
#define STUDY_FIT_PARTS_H

#include "study/match.h"

/* probes.c: how well each probe is followed, and where not. False: out of memory. */
bool fit_fill_probes(fv_fit_answer *answer, const match_found *found);
/* What each probe would read by the draws; work: 4 x draws doubles. False: out of memory. */
bool fit_fill_bands(fv_fit_answer *answer, const match_found *found, double *work);
/* The most probable defect as settings of its own. False: out of memory. */
bool fit_add_defect(fv_fit_answer *answer, const match_found *found);

#endif
