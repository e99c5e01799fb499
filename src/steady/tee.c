/* SPDX-License-Identifier: MIT */
/* A declared tee: the plant node is the end of the main leg; the run and the branch end at ports of their own, and the
 * pressure from the node to each port changes with the split (fv_flow_tee, kg/m3 Pa):
 *
 *   rho (p_node - p_port) = K(split, areas, angle) G|G|/2. */
#include "farvessel/flow.h"
#include "steady/equations.h"

void steady_tee_equations(const fv_solver *s, int tee, const double *x, double *residual, steady_stamps *stamps)
{
    const steady_net_tee *t = &s->net->tees[tee];
    const double f1 = x[t->unknown[0]], f2 = x[t->unknown[1]];
    const double into[3] = {f1 + f2, -f1, -f2};
    double drop[2], jacobian[2][3], slope;
    fv_flow_tee(t->area, t->angle, into, drop, jacobian);
    for (int i = 0; i < 2; i++) {
        drop[i] *= s->state.recovery;
        for (int j = 0; j < 3; j++)
            jacobian[i][j] *= s->state.recovery;
    }
    const double rho = fv_sat_rho_g(s->net->sat, s->net->site_pressure + x[t->node], &slope);
    residual[t->node] -= f1 + f2;
    for (int i = 0; i < 2; i++) {
        const int row = t->unknown[i];
        const double fall = x[t->node] - x[t->port[i]];
        residual[t->port[i]] += x[row];
        residual[row] = rho * fall - drop[i];
        if (!stamps)
            continue;
        steady_stamp(stamps, row, t->node, rho + slope * fall);
        steady_stamp(stamps, row, t->port[i], -rho);
        steady_stamp(stamps, row, t->unknown[0], -(jacobian[i][0] - jacobian[i][1]));
        steady_stamp(stamps, row, t->unknown[1], -(jacobian[i][0] - jacobian[i][2]));
        steady_stamp(stamps, t->port[i], row, 1);
        steady_stamp(stamps, t->node, row, -1);
    }
}
