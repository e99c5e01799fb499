/* SPDX-License-Identifier: MIT */
/* Lines and valves: bores, fittings as loss coefficients on the line's own bore, what the heat loss needs. */
#include "farvessel/flow.h"
#include "steady/compile.h"

#include <math.h>

/* K of one fitting on the line's own bore; for a valve fully open. *friction: the share due to friction in a short
 * bore. */
static fv_status fitting_k(const fv_line *line, const fv_fitting *f, double roughness, double *k, double *friction)
{
    const double line_bore = line->bore.v, bore = fv_or(f->bore, line_bore),
                 areas = steady_circle(line_bore) / steady_circle(bore), to_line = areas * areas;
    const fv_fitting_entry *entry = fv_fitting_entry_of(f);
    double f_t, count = f->kind == FV_FITTING_VALVE ? 1 : fv_or(f->count, 1);
    fv_status status = FV_OK;
    *friction = 0;
    if (fv_is_set(f->k)) {
        *k = f->k.v * to_line;
    } else if (fv_is_set(f->kv)) {
        status = fv_flow_k_from_kv(f->kv.v, line_bore, k);
    } else if (f->kind == FV_FITTING_BARB || f->kind == FV_FITTING_UNION) {
        fv_flow_rough_factor(roughness / bore, &f_t);
        const double factor = isnan(line->friction.v) ? f_t : line->friction.v;
        status = fv_flow_short_bore(bore, fv_or(f->length, 0), line_bore, factor, k);
        *friction = factor * fv_or(f->length, 0) / bore * to_line * count;
    } else if (entry && !isnan(entry->k)) {
        *k = entry->k * to_line;
    } else if (entry) {
        status = fv_flow_rough_factor(roughness / bore, &f_t);
        *k = entry->n * f_t * to_line;
    } else {
        *k = 0;
    }
    *k *= count;
    return status;
}

/* On the line's own bore; 0 where there is none. */
static double washer_k(const fv_line *line)
{
    double k = 0;
    if (fv_is_set(line->washer))
        fv_flow_diaphragm(steady_circle(line->washer.v) / steady_circle(line->bore.v), &k);
    return k;
}

void steady_compile_line(const fv_line *line, steady_net_line *l)
{
    const double roughness = line->roughness.v;
    *l = (steady_net_line){.line = line};
    l->duct = (steady_duct){.area = steady_circle(line->bore.v),
                            .bore = line->bore.v,
                            .length = line->length.v,
                            .relative_roughness = roughness / line->bore.v,
                            .friction = line->friction.v};
    l->k = fv_or(line->k, 0) + washer_k(line);
    l->rise = line->rise.v;
    l->sag = line->sag.v;
    l->wind = line->wind.v;
    l->air = line->air.v;
    l->emissivity = line->emissivity.v;
    l->h_outside = fv_or(line->outside, 0);
    l->heat_loss = line->heat_loss.v;
    l->pipe = (fv_heat_pipe){.bore = line->bore.v,
                             .wall = line->wall.v,
                             .k_wall = line->wall_conductivity.v,
                             .lagging = line->lagging.v,
                             .k_lagging = line->lagging_conductivity.v};
    for (size_t i = 0; i < line->fitting_count; i++) {
        double k, friction;
        if (line->fittings[i]->kind == FV_FITTING_VALVE)
            continue;
        if (fitting_k(line, line->fittings[i], roughness, &k, &friction) != FV_OK)
            l->doubtful = true;
        l->k += k;
        l->k_friction += friction;
    }
}

void steady_compile_valves(fv_network *net)
{
    size_t n = 0;
    for (size_t i = 0; i < net->line_count; i++) {
        const fv_line *line = net->lines[i].line;
        for (size_t j = 0; j < line->fitting_count; j++) {
            const fv_fitting *f = line->fittings[j];
            if (f->kind != FV_FITTING_VALVE)
                continue;
            const fv_fitting_entry *entry = fv_fitting_entry_of(f);
            double friction;
            steady_net_valve *valve = &net->valves[n++];
            *valve = (steady_net_valve){.line = (int)i, .fitting = f, .curve = entry ? entry->curve : FV_VALVE_LINEAR};
            if (fitting_k(line, f, line->roughness.v, &valve->k_open, &friction) != FV_OK)
                net->lines[i].doubtful = true;
        }
    }
}

/* Static pressures meet at a joint, so a narrow line pays there for the speed it takes up, and gets it back, less what
 * the widening costs (Bernoulli; Crane TP-410 for the losses, area_change.c), in heads of its own bore:
 *   narrowing by s = A_narrow/A_wide  0.5 (1 - s) + 1 - s^2,  widening  (1 - s)^2 - (1 - s^2) = -2 s (1 - s). */
void steady_compile_reducers(fv_network *net)
{
    for (size_t i = 0; i < net->plant->node_count; i++) {
        const fv_joint *joint = &net->joints[i];
        if (joint->kind != FV_JOINT_REDUCER)
            continue;
        steady_net_line *narrow = &net->lines[joint->line[1]];
        const double s = narrow->duct.area / net->lines[joint->line[0]].duct.area;
        const bool begins = narrow->line->node_from == (int)i;
        double in, out;
        if (fv_flow_contraction(s, &in) == FV_FAIL || fv_flow_enlargement(s, &out) == FV_FAIL)
            continue;
        narrow->narrowing[begins ? 0 : 1] += in + 1 - s * s;
        narrow->widening[begins ? 1 : 0] += 1 - s * s - out;
    }
}
