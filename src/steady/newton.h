/* SPDX-License-Identifier: MIT */
#ifndef STEADY_NEWTON_H
#define STEADY_NEWTON_H

#include "steady/assembly.h"

typedef struct {
    int iterations;
    double residual; /* scaled norm at the end */
    int singular;    /* column without a pivot, where the Jacobian was singular; -1 else */
} steady_newton_log;

/* Memory is out, or a solve has taken all the steps that it may: no other attempt. */
static inline bool steady_gives_up(const fv_solver *s, const steady_newton_log *log)
{
    return num_sparse_out_of_memory(s->work.sparse) || log->iterations >= s->given.steps_most;
}

/* Damping policies. QUICK ends early where steps stay long, PATIENT does not; both take the full step where no damping
 * serves, FINE ends there. ROUGH and ANY look for a guess only, ANY with full steps. */
typedef enum {
    STEADY_NEWTON_QUICK,
    STEADY_NEWTON_PATIENT,
    STEADY_NEWTON_FINE,
    STEADY_NEWTON_ROUGH,
    STEADY_NEWTON_ANY
} steady_newton_policy;

void steady_scale_rows(fv_solver *s);
/* From the guess in s->state.x to a root, conditions and forms already set. FV_FAIL: no convergence; x is the last
 * iterate. */
fv_status steady_newton(fv_solver *s, steady_newton_policy policy, steady_newton_log *log);

/* What an unknown's steps are measured by, at x. */
double steady_scale_of(const fv_solver *s, int unknown, double x);

/* continuation.c: what makes the problem easy: smoothing, or no recovery of velocity heads. */
typedef enum { STEADY_SMOOTHING, STEADY_RECOVERY } steady_parameter;
/* From a root in s->state.x along the curve of roots to the one where the parameter is `end`, each step corrected to
 * the tolerance. FV_FAIL: the curve does not lead there or was lost; s->state.x is the last root on it. */
fv_status steady_continue(fv_solver *s, steady_parameter parameter, double end, double tolerance,
                          steady_newton_log *log);

/* find_root.c: from the last solution or from scratch, by all methods; x is then the root or the last iterate. */
fv_status steady_find_root(fv_solver *s, steady_newton_log *log);

/* diagnose.c: says why there is no root; s->state.x is lost. */
/* The part or node that an unknown and its equation belong to: its id and place. */
const char *steady_part_of(const fv_network *net, int unknown, fv_loc *loc);
void steady_diagnose(fv_solver *s, const steady_newton_log *log, fv_faults *faults);

#endif
