/* SPDX-License-Identifier: MIT */
/* Floor 6: what keeps loads below the limit that the plant file sets them (at-most), where a run passed it. Free steam
 * is at the boiling point; only so little of it that air stays with it keeps a chamber below. The setting is found by
 * solving the plant with one after another, walls soaked through, and tried by a run. */
#ifndef FARVESSEL_OVERHEAT_H
#define FARVESSEL_OVERHEAT_H

#include "farvessel/heatup.h"

FV_C_BEGIN

#define FV_OVERHEAT_BELOW 0.5 /* K below the limit that the chamber is to stand */

typedef struct {
    bool asked;        /* its limit is said and was passed */
    double fire;       /* share of all boilers' own fires; NaN: none down to 5 %, or a bed, whose front is at boiling */
    double core;       /* s: when its core is there with that fire; NaN: never */
    bool kept;         /* none of its load passed the limit with that fire */
    const char *valve; /* of the plant: on the line to it alone; NULL: it has none */
    double open;       /* of that valve, the other fires as they are; NaN: none from 1 % on */
} fv_overheat_row;

typedef struct fv_overheat_answer fv_overheat_answer;
struct fv_overheat_answer {
    fv_overheat_row *vessels; /* one for each vessel of the plant */
};

/* `now`: the plant as it was followed, which must outlive the answer. NULL: out of memory, said in faults. A plant that
 * has no solution on the way leaves NaN. */
fv_overheat_answer *fv_overheat_run(const fv_heat_result *now, const fv_progress *progress, fv_faults *faults);
void fv_overheat_free(fv_overheat_answer *answer);

FV_C_END

#endif
