/* SPDX-License-Identifier: MIT */
/* All equations in one fixed order, so that the k-th entry of the Jacobian always stands in the same place. */
#include "steady/assembly.h"

#include <string.h>

void steady_assemble(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    memset(residual, 0, (size_t)net->unknown_count * sizeof(double));
    for (int i = 0; i < net->node_count; i++)
        residual[i] = -s->layout.node_pinned[i] * x[i];
    for (int i = 0; stamps && i < net->node_count; i++)
        steady_stamp(stamps, i, i, -s->layout.node_pinned[i]);
    for (size_t i = 0; i < net->line_count; i++)
        steady_line_equation(s, (int)i, x, residual, stamps);
    for (size_t i = 0; i < net->tee_count; i++)
        steady_tee_equations(s, (int)i, x, residual, stamps);
    for (size_t i = 0; i < net->vessel_count; i++) {
        steady_coil_equations(s, (int)i, x, residual, stamps);
        steady_chamber_equation(s, (int)i, x, residual, stamps);
    }
    for (size_t i = 0; i < net->boiler_group_count; i++)
        steady_boiler_equation(s, (int)i, x, residual, stamps);
    steady_dryness_equations(s, x, residual, stamps);
    steady_node_water_equations(s, x, residual, stamps);
}
