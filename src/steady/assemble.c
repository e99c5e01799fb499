/* SPDX-License-Identifier: MIT */
/* All equations in one fixed order, so that the k-th entry of the Jacobian always stands in the same place. */
#include "steady/network.h"

#include <stdlib.h>
#include <string.h>

void steady_stamp_grow(steady_stamps *stamps)
{
    size_t want = stamps->capacity < 64 ? 64 : stamps->capacity * 2;
    double *values = realloc(stamps->values, want * sizeof *values);
    if (values)
        stamps->values = values;
    int *rows = realloc(stamps->rows, want * sizeof *rows);
    if (rows)
        stamps->rows = rows;
    int *cols = realloc(stamps->cols, want * sizeof *cols);
    if (cols)
        stamps->cols = cols;
    if (values && rows && cols)
        stamps->capacity = want;
    else
        stamps->failed = true;
}

void steady_assemble(const fv_solver *s, const double *x, double *residual, steady_stamps *stamps)
{
    const fv_network *net = s->net;
    memset(residual, 0, (size_t)net->unknown_count * sizeof(double));
    for (int i = 0; i < net->node_count; i++)
        residual[i] = -s->node_pinned[i] * x[i];
    for (int i = 0; stamps && i < net->node_count; i++)
        steady_stamp(stamps, i, i, -s->node_pinned[i]);
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
