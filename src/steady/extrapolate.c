/* SPDX-License-Identifier: MIT */
/* A first guess for another fire: it sends its steam the same ways, flows in proportion and what they lose with the
 * square. Only a guess, but nearer by up to half of Newton's steps than the last solution is. */
#include "steady/assembly.h"

/* A fire that much larger or smaller tells nothing of the other. */
static const double LIKE_MOST = 10;

void fv_solver_turn_fires(fv_solver *solver, double ratio)
{
    if (!solver->warm || !(ratio > 1 / LIKE_MOST && ratio < LIKE_MOST))
        return;
    for (int i = 0; i < solver->net->unknown_count; i++)
        if (solver->net->measure[i] == STEADY_A_FLOW)
            solver->x[i] *= ratio;
        else if (solver->net->measure[i] == STEADY_A_PRESSURE)
            solver->x[i] *= ratio * ratio;
}
