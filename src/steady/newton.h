/* SPDX-License-Identifier: MIT */
#ifndef FV_STEADY_NEWTON_H
#define FV_STEADY_NEWTON_H

#include "steady/network.h"

typedef struct {
    int iterations;
    double residual; /* scaled norm at the end */
    int singular;    /* column without a pivot, where the Jacobian was singular; -1 else */
} fv_newton_log;

/* Quick gives up early; patient does not; both take any step. Rough, for a guess, and fine take no wild ones. */
typedef enum { FV_NEWTON_QUICK, FV_NEWTON_PATIENT, FV_NEWTON_FINE, FV_NEWTON_ROUGH } fv_newton_how;

void fv_scale_rows(fv_solver *s);
/* From the guess in s->x to a root, conditions and forms already set. FV_FAIL: stalled; x is the last iterate. */
fv_status fv_newton(fv_solver *s, fv_newton_how how, fv_newton_log *log);

/* find_root.c: from the last solution or from scratch, by all ways there are; x is then the root or the last iterate.
 */
fv_status fv_find_root(fv_solver *s, fv_newton_log *log);

/* refuse.c: says why there is none. */
void fv_say_why(const fv_solver *s, const fv_newton_log *log, fv_faults *faults);

#endif
