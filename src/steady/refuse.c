/* SPDX-License-Identifier: MIT */
/* Why no solution was found, in the user's terms as far as that is known. */
#include "steady/newton.h"

#include <math.h>

/* Less steam than the lines alone would condense has ways to spread that Newton's method may not find. */
static bool say_short(const fv_solver *s, fv_faults *faults)
{
    const fv_network *net = s->net;
    double made = 0, condensed = 0, slope;
    for (int g = 0; g < (int)net->boiler_group_count; g++)
        made += fv_boilers_most(s, g, 0, &slope);
    for (size_t i = 0; i < net->line_count; i++)
        condensed += s->form[i] == FORM_SHUT ? 0 : s->flow[i].condensate;
    if (made >= condensed)
        return false;
    fv_error(
        faults, FV_ERR_NUMERICS, net->plant->loc,
        "no solution was found: the boilers make %.3g kg/h and the lines alone, filled with steam, would condense %.3g "
        "kg/h, so that steam reaches only some of them; more fire, insulation or a shut valve would help",
        3600 * made, 3600 * condensed);
    return true;
}

void fv_say_why(const fv_solver *s, const fv_newton_log *log, fv_faults *faults)
{
    const fv_network *net = s->net;
    if (fv_sparse_out_of_memory(s->sparse)) {
        fv_error(faults, FV_ERR_SYSTEM, net->plant->loc, "out of memory");
        return;
    }
    if (say_short(s, faults))
        return;
    int worst = 0;
    double most = -1;
    for (int i = 0; i < net->unknown_count; i++) {
        const double r = fabs(s->residual[i] * s->row_scale[i]);
        if (!(r <= most)) {
            most = r;
            worst = i;
        }
    }
    fv_loc loc = net->plant->loc;
    const char *what = "the network";
    for (size_t i = 0; i < net->line_count; i++)
        if (net->lines[i].unknown == worst) {
            loc = net->lines[i].line->part.loc;
            what = net->lines[i].line->part.id;
        }
    for (size_t i = 0; i < net->vessel_count; i++) {
        const fv_net_vessel *v = &net->vessels[i];
        if (worst >= v->chamber_unknown && worst < v->flow_unknown + v->hole_count + v->segment_count) {
            loc = v->vessel->part.loc;
            what = v->vessel->part.id;
        }
    }
    if (worst < net->node_count)
        what = net->plant->nodes[net->plant_node[worst]];
    fv_error(faults, FV_ERR_NUMERICS, loc,
             "no solution was found: after %d steps the worst equation, at '%s', is still off by %.2g of its scale",
             log->iterations, what, most);
}
