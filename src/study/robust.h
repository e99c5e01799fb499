/* SPDX-License-Identifier: MIT */
/* A plan that bears what hands may miss is worth more than one that is a little earlier on paper.
 *
 * The rule: of plans with the same vessels in time, one where every slip (slips.h) keeps them so is taken before one
 * where a slip does not, if its last core comes at most 3 % later. */
#ifndef STUDY_ROBUST_H
#define STUDY_ROBUST_H

#include "study/advise.h"
#include "study/slips.h"

/* Where some slip of `advice` does harm, a search near it, valves wider and by single places, for a point where none
 * does. *found: advice then is such a point, followed in full; else it is as it was. */
study_ending study_make_robust(study_adviser *adviser, const study_objective *objective, study_advice *advice,
                               bool *found);

#endif
