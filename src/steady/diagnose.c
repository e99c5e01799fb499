/* SPDX-License-Identifier: MIT */
/* Why no solution was found, in the user's terms as far as that is known. */
#include "steady/newton.h"

#include <math.h>

/* Less steam than the lines alone would condense has ways to spread that Newton's method may not find. Both as in the
 * first guess: where a last iterate stands says nothing. */
static bool say_short(fv_solver *s, fv_faults *faults)
{
    const fv_network *net = s->net;
    double made = 0, condensed = 0, slope;
    steady_start_guess(s);
    for (int g = 0; g < (int)net->boiler_group_count; g++)
        made += steady_boilers_most(s, g, 0, &slope);
    for (size_t i = 0; i < net->line_count; i++)
        condensed += s->layout.form[i] == FORM_SHUT ? 0 : s->state.flow[i].condensate;
    if (made >= condensed)
        return false;
    fv_error(
        faults, FV_ERR_NUMERICS, net->plant->loc,
        "no solution was found: the boilers make %.3g kg/h and the lines alone, filled with steam, would condense %.3g "
        "kg/h, so that steam reaches only some of them; more fire, insulation or a shut valve would help",
        3600 * made, 3600 * condensed);
    return true;
}

const char *steady_part_of(const fv_network *net, int unknown, fv_loc *loc)
{
    *loc = net->plant->loc;
    for (size_t i = 0; i < net->line_count; i++)
        if (unknown == net->lines[i].unknown || unknown == net->lines[i].head_unknown) {
            *loc = net->lines[i].line->part.loc;
            return net->lines[i].line->part.id;
        }
    for (size_t i = 0; i < net->vessel_count; i++) {
        const steady_net_vessel *v = &net->vessels[i];
        const int coil = unknown - v->flow_unknown;
        if (unknown == v->chamber_unknown || unknown == v->head_unknown ||
            (coil >= 0 && coil < v->hole_count + v->segment_count)) {
            *loc = v->vessel->part.loc;
            return v->vessel->part.id;
        }
    }
    for (size_t i = 0; i < net->boiler_group_count; i++)
        if (unknown == net->boilers[i].unknown) {
            const fv_boiler *boiler = net->plant->boilers[net->boiler_order[net->boilers[i].first]];
            *loc = boiler->part.loc;
            return boiler->part.id;
        }
    int node = unknown;
    for (size_t i = 0; i < net->tee_count; i++)
        if (unknown == net->tees[i].unknown[0] || unknown == net->tees[i].unknown[1])
            node = net->tees[i].node;
    if (node >= net->water_first)
        return net->plant->nodes[node - net->water_first];
    if (node >= net->share_first)
        node -= net->share_first;
    return net->plant->nodes[net->plant_node[node]];
}

void steady_diagnose(fv_solver *s, const steady_newton_log *log, fv_faults *faults)
{
    const fv_network *net = s->net;
    if (num_sparse_out_of_memory(s->work.sparse)) {
        fv_error(faults, FV_ERR_SYSTEM, net->plant->loc, "out of memory");
        return;
    }
    if (log->iterations >= s->given.steps_most || say_short(s, faults))
        return; /* whoever allows no more steps says so */
    int worst = 0;
    double most = -1;
    for (int i = 0; i < net->unknown_count; i++) {
        const double r = fabs(s->work.residual[i] * s->work.row_scale[i]);
        if (!(r <= most)) {
            most = r;
            worst = i;
        }
    }
    fv_loc loc;
    const char *at = steady_part_of(net, worst, &loc);
    fv_error(faults, FV_ERR_NUMERICS, loc,
             "no solution was found: after %d steps the worst equation, at '%s', is still off by %.2g of its scale",
             log->iterations, at, most);
}
