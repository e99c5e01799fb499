/* SPDX-License-Identifier: MIT */
/* What a small change of the chambers' back pressure would do to the steam, to first order: one more solve with the
 * factors of the last Newton step, which were made at the solution. Enthalpies and heat losses stay as they are. */
#include "steady/assembly.h"

#include <string.h>

bool fv_solver_sensitivity(fv_solver *s, const double *more, double *change)
{
    if (!s)
        return false;
    const fv_network *net = s->net;
    if (!s->state.warm)
        return false;
    memset(s->work.dx, 0, (size_t)net->unknown_count * sizeof(double));
    for (size_t i = 0; i < net->vessel_count; i++)
        if (s->given.chambers[i].kind == FV_CHAMBER_COLD)
            s->work.dx[net->vessels[i].chamber_unknown] = more[i];
    num_sparse_solve(s->work.sparse, s->work.dx);
    for (size_t i = 0; i < net->vessel_count; i++)
        change[i] = steady_coil_inflow(&net->vessels[i], s->work.dx);
    return true;
}
