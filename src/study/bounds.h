/* SPDX-License-Identifier: MIT */
/* What no handling can beat, and what perfect sharing would bring. Times in s from the lighting of the first fire.
 *
 * Conduction: each core takes at least its time with ample steam, from the moment that a boiler can give any at the
 * earliest. Energy: when the last core is there, every load is at least at its target throughout and every shell at it;
 * boilers bring that at no more than their full output, with what their water held when they came to steam, condensate
 * leaving as cold as the loads were. Walls, air and lines, which take more, are left out: a bound may be low, never
 * high.
 *
 * Perfect sharing is an estimate: the plant with lines, coils and seals that cost no pressure and holes in proportion
 * to what the vessels need, so that all are full together and nothing is vented while another one is short. */
#ifndef STUDY_BOUNDS_H
#define STUDY_BOUNDS_H

#include "study/advise.h"

typedef struct {
    double conduction, energy; /* s; NaN: not known */
    double sharing;            /* s, an estimate; NaN: not known */
} study_bounds;

/* `now`: the plant as it is. FV_FAIL: out of memory or stopped. */
fv_status study_bounds_find(const study_adviser *adviser, const study_outcome *now, const fv_progress *progress,
                            study_bounds *bounds);

#endif
