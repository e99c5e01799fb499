/* SPDX-License-Identifier: MIT */
#ifndef FV_STEADY_NEWTON_H
#define FV_STEADY_NEWTON_H

#include "steady/network.h"

typedef struct {
    int iterations;
    double residual; /* scaled norm at the end */
    int singular;    /* column without a pivot, where the Jacobian was singular; -1 else */
} fv_newton_log;

/* Quick gives up early; patient does not; both take any step. Rough, for a guess, and fine take no wild ones; any is
 * for a guess and takes them. */
typedef enum { FV_NEWTON_QUICK, FV_NEWTON_PATIENT, FV_NEWTON_FINE, FV_NEWTON_ROUGH, FV_NEWTON_ANY } fv_newton_how;

void fv_scale_rows(fv_solver *s);
/* From the guess in s->x to a root, conditions and forms already set. FV_FAIL: stalled; x is the last iterate. */
fv_status fv_newton(fv_solver *s, fv_newton_how how, fv_newton_log *log);

/* What an unknown's steps are measured by, at x. */
double fv_scale_of(const fv_solver *s, int unknown, double x);

/* follow.c: what makes the problem easy: all corners rounded off, or nothing recovered of velocity heads. */
typedef enum { FV_SOFTNESS, FV_RECOVERY } fv_parameter;
/* From a root in s->x along the curve of roots to the one where the parameter is `end`, each step corrected to the
 * tolerance. FV_FAIL: the curve does not lead there or was lost; s->x is the last root on it. */
fv_status fv_follow(fv_solver *s, fv_parameter parameter, double end, double tolerance, fv_newton_log *log);

/* find_root.c: from the last solution or from scratch, by all ways there are; x is then the root or the last iterate.
 */
fv_status fv_find_root(fv_solver *s, fv_newton_log *log);

/* refuse.c: says why there is none; s->x is lost. */
void fv_say_why(fv_solver *s, const fv_newton_log *log, fv_faults *faults);

#endif
