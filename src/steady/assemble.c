/* SPDX-License-Identifier: MIT */
/* All equations in one fixed order, so that the k-th entry of the Jacobian always stands in the same place. */
#include "steady/network.h"

#include <stdlib.h>
#include <string.h>

void fv_stamp_grow(fv_stamps *stamps)
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

/* What stands on the diagonal of the nodes' rows beside their balance: the pin of an idle node, the pressure of a dry
 * one, which takes the place of all else in its row. */
static void stamp_nodes(const fv_solver *s, fv_stamps *stamps)
{
    for (int i = 0; i < s->net->node_count; i++)
        fv_stamp(stamps, i, i, s->shortage && s->held[i] ? -fv_dry_slope(s) : -s->node_pinned[i]);
    for (int i = 0; i < s->net->unknown_count; i++)
        fv_stamp(stamps, i, i, -s->inertia[i]);
    stamps->silent = s->shortage ? s->held : NULL;
    stamps->silent_count = s->net->node_count;
}

void fv_assemble(fv_solver *s, const double *x, double *residual, fv_stamps *stamps)
{
    const fv_network *net = s->net;
    memset(residual, 0, (size_t)net->unknown_count * sizeof(double));
    for (int i = 0; i < net->node_count; i++)
        residual[i] = -s->node_pinned[i] * x[i];
    if (stamps)
        stamp_nodes(s, stamps);
    if (s->shortage)
        memset(s->draw, 0, (size_t)net->node_count * sizeof(double));
    for (size_t i = 0; i < net->line_count; i++)
        fv_line_equation(s, (int)i, x, residual, stamps);
    for (size_t i = 0; i < net->tee_count; i++)
        fv_tee_equations(s, (int)i, x, residual, stamps);
    for (size_t i = 0; i < net->vessel_count; i++) {
        fv_coil_equations(s, (int)i, x, residual, stamps);
        fv_chamber_equation(s, (int)i, x, residual, stamps);
    }
    for (size_t i = 0; i < net->boiler_group_count; i++)
        fv_boiler_equation(s, (int)i, x, residual, stamps);
    if (s->shortage && !stamps)
        fv_decide_dryness(s, x, residual);
    if (s->shortage)
        fv_apply_dryness(s, x, residual);
}
