/* SPDX-License-Identifier: MIT */
#ifndef STEADY_NEWTON_H
#define STEADY_NEWTON_H

#include "steady/assembly.h"

typedef struct {
    int iterations;
    double residual; /* scaled norm at the end */
    int singular;    /* column without a pivot, where the Jacobian was singular; -1 else */
} steady_newton_log;

/* Quick gives up early; patient does not; both take any step. Rough, for a guess, and fine take no wild ones; any is
 * for a guess and takes them. */
typedef enum {
    STEADY_NEWTON_QUICK,
    STEADY_NEWTON_PATIENT,
    STEADY_NEWTON_FINE,
    STEADY_NEWTON_ROUGH,
    STEADY_NEWTON_ANY
} steady_newton_how;

void steady_scale_rows(fv_solver *s);
/* From the guess in s->x to a root, conditions and forms already set. FV_FAIL: stalled; x is the last iterate. */
fv_status steady_newton(fv_solver *s, steady_newton_how how, steady_newton_log *log);

/* What an unknown's steps are measured by, at x. */
double steady_scale_of(const fv_solver *s, int unknown, double x);

/* continuation.c: what makes the problem easy: all corners rounded off, or nothing recovered of velocity heads. */
typedef enum { STEADY_SOFTNESS, STEADY_RECOVERY } steady_parameter;
/* From a root in s->x along the curve of roots to the one where the parameter is `end`, each step corrected to the
 * tolerance. FV_FAIL: the curve does not lead there or was lost; s->x is the last root on it. */
fv_status steady_follow(fv_solver *s, steady_parameter parameter, double end, double tolerance, steady_newton_log *log);

/* find_root.c: from the last solution or from scratch, by all ways there are; x is then the root or the last iterate.
 */
fv_status steady_find_root(fv_solver *s, steady_newton_log *log);

/* diagnose.c: says why there is none; s->x is lost. */
void steady_say_why(fv_solver *s, const steady_newton_log *log, fv_faults *faults);

#endif
