/* SPDX-License-Identifier: MIT */
/* From the plant to the network: numbers resolved, unknowns numbered, pattern analysed. */
#include "farvessel/constants.h"
#include "farvessel/flow.h"
#include "steady/compile.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

double fv_site_pressure(const fv_site *site)
{
    if (fv_is_set(site->pressure))
        return site->pressure.v;
    double p;
    fv_atmosphere_pressure(site->altitude.v, &p);
    return p;
}

static double square(double x)
{
    return x * x;
}

static double circle(double d)
{
    return 0.25 * FV_PI * d * d;
}

/* K of one fitting on the line's own bore; for a valve fully open. *friction: the share due to friction in a short
 * bore. */
static fv_status fitting_k(const fv_line *line, const fv_fitting *f, double roughness, double *k, double *friction)
{
    const double line_bore = line->bore.v, bore = fv_or(f->bore, line_bore),
                 to_line = square(circle(line_bore) / circle(bore));
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

static void compile_line(const fv_line *line, steady_net_line *l)
{
    const double roughness = line->roughness.v;
    *l = (steady_net_line){.line = line};
    l->duct = (steady_duct){.area = circle(line->bore.v),
                            .bore = line->bore.v,
                            .length = line->length.v,
                            .relative_roughness = roughness / line->bore.v,
                            .friction = line->friction.v};
    l->k = fv_or(line->k, 0);
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

static void compile_valves(fv_network *net)
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

static void compile_openings(const fv_vessel *vessel, steady_net_opening *openings)
{
    for (size_t j = 0; j < vessel->opening_count; j++) {
        const fv_opening *o = vessel->openings[j];
        const double area = fv_is_set(o->area) ? o->area.v : circle(o->diameter.v);
        openings[j] = (steady_net_opening){.opening = o, .cd_area = o->cd.v * area, .height = o->height.v};
    }
}

size_t steady_coil_hole_count(const fv_coil *coil)
{
    return coil->hole_count > 0 ? coil->hole_count : (size_t)coil->holes.v;
}

double steady_coil_hole_position(const fv_coil *coil, size_t k)
{
    if (coil->hole_count > 0)
        return coil->hole[k]->at.v;
    const double spacing = fv_or(coil->spacing, coil->length.v / coil->holes.v);
    return fv_or(coil->first, 0.5 * spacing) + (double)k * spacing;
}

/* Flow c of so many holes, kg/s: creeping flow through a hole in a thin plate, Q = r^3 dp/(3 mu) (R. A. Sampson, Phil.
 * Trans. R. Soc. A 182 (1891) 449; from memory), is as much as m = (Cd A)^2 2 rho dp/c. */
static double creeping(double cd, double viscosity, double diameter, double count)
{
    return 6 * FV_PI * FV_PI * cd * cd * viscosity * 0.5 * diameter * count;
}

static void compile_holes(const fv_coil *coil, double viscosity, steady_net_hole *holes, double *lengths)
{
    const size_t n = steady_coil_hole_count(coil);
    const double open = 1 - fv_or(coil->clogged, 0);
    double reached = 0;
    for (size_t k = 0; k < n; k++) {
        const bool listed = coil->hole_count > 0;
        const double diameter = listed ? fv_or(coil->hole[k]->drill, coil->drill.v) : coil->drill.v;
        const double count = listed ? fv_or(coil->hole[k]->count, 1) : 1;
        holes[k] = (steady_net_hole){.area = circle(diameter) * count * open,
                                     .diameter = diameter,
                                     .position = steady_coil_hole_position(coil, k),
                                     .cd = coil->cd.v,
                                     .fixed = fv_is_set(coil->cd)};
        if (!holes[k].fixed)
            holes[k].doubtful = fv_flow_hole_cd_still(coil->wall.v / diameter, &holes[k].cd) != FV_OK;
        holes[k].creeps = creeping(holes[k].cd, viscosity, diameter, count * open);
        lengths[k] = holes[k].position - reached;
        reached = holes[k].position;
    }
    if (fv_word(coil->shape) == FV_COIL_RING)
        lengths[n] = coil->length.v - reached;
}

static void compile_vessel(fv_network *net, int index, int first_hole, int first_opening)
{
    const fv_vessel *vessel = net->plant->vessels[index];
    const fv_coil *coil = &vessel->coil;
    const bool ring = fv_word(coil->shape) == FV_COIL_RING;
    steady_net_vessel *v = &net->vessels[index];
    *v = (steady_net_vessel){.vessel = vessel,
                             .node = vessel->node,
                             .first_hole = first_hole,
                             .hole_count = (int)steady_coil_hole_count(coil),
                             .first_opening = first_opening,
                             .opening_count = (int)vessel->opening_count,
                             .bore_area = circle(coil->bore.v),
                             .bore = coil->bore.v,
                             .relative_roughness = coil->roughness.v / coil->bore.v,
                             .friction = coil->friction.v,
                             .entry = fv_or(coil->entry, ring ? 1.0 : 0.5),
                             .regain = coil->regain.v};
    v->segment_count = v->hole_count + (ring ? 1 : 0);
    double slope;
    compile_holes(coil, fv_sat_mu_g(net->sat, net->site_pressure, &slope), net->holes + first_hole,
                  net->segment_length + first_hole + index);
    compile_openings(vessel, net->openings + first_opening);
}

static void *array(fv_network *net, size_t count, size_t size)
{
    return fv_arena_alloc(net->arena, count + 1, size);
}

static bool allocate(fv_network *net)
{
    const fv_plant *plant = net->plant;
    for (size_t i = 0; i < plant->line_count; i++)
        for (size_t j = 0; j < plant->lines[i]->fitting_count; j++)
            net->valve_count += plant->lines[i]->fittings[j]->kind == FV_FITTING_VALVE;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        net->hole_count += steady_coil_hole_count(&plant->vessels[i]->coil);
        net->opening_count += plant->vessels[i]->opening_count;
    }
    net->line_count = plant->line_count;
    net->tee_count = plant->tee_count;
    net->vessel_count = plant->vessel_count;
    net->node_count = (int)(plant->node_count + 2 * plant->tee_count);
    net->lines = array(net, net->line_count, sizeof *net->lines);
    net->tees = array(net, net->tee_count, sizeof *net->tees);
    net->vessels = array(net, net->vessel_count, sizeof *net->vessels);
    net->holes = array(net, net->hole_count, sizeof *net->holes);
    net->segment_length = array(net, net->hole_count + net->vessel_count, sizeof(double));
    net->openings = array(net, net->opening_count, sizeof *net->openings);
    net->valves = array(net, net->valve_count, sizeof *net->valves);
    net->boilers = array(net, plant->boiler_count, sizeof *net->boilers);
    net->boiler_order = array(net, plant->boiler_count, sizeof(int));
    net->drip = array(net, plant->node_count, sizeof(bool));
    net->plant_node = array(net, (size_t)net->node_count, sizeof(int));
    net->tee_at = array(net, plant->node_count, sizeof(int));
    net->height = array(net, plant->node_count, sizeof(double));
    net->touch_start = array(net, plant->node_count + 1, sizeof(int));
    net->touch_line = array(net, 2 * net->line_count, sizeof(int));
    return net->lines && net->tees && net->vessels && net->holes && net->segment_length && net->openings &&
           net->valves && net->boilers && net->boiler_order && net->drip && net->plant_node && net->tee_at &&
           net->height && net->touch_start && net->touch_line;
}

/* Lines end at plant nodes, save where a tee gives them a port. */
static void place_nodes(fv_network *net)
{
    const fv_plant *plant = net->plant;
    for (int i = 0; i < (int)plant->node_count; i++)
        net->plant_node[i] = i;
    for (size_t i = 0; i < net->line_count; i++) {
        net->lines[i].node_from = plant->lines[i]->node_from;
        net->lines[i].node_to = plant->lines[i]->node_to;
    }
    for (size_t i = 0; i < plant->node_count; i++)
        net->tee_at[i] = -1;
    for (size_t i = 0; i < net->tee_count; i++) {
        const fv_tee *tee = plant->tees[i];
        steady_net_tee *t = &net->tees[i];
        net->tee_at[tee->node] = (int)i;
        *t = (steady_net_tee){.tee = tee, .node = tee->node, .angle = tee->angle.v};
        for (int leg = 0; leg < 3; leg++) {
            steady_net_line *l = &net->lines[tee->line[leg]];
            t->area[leg] = l->duct.area;
            if (leg == 0)
                continue;
            const int port = (int)plant->node_count + 2 * (int)i + leg - 1;
            t->port[leg - 1] = port;
            net->plant_node[port] = tee->node;
            *(l->line->node_from == tee->node ? &l->node_from : &l->node_to) = port;
        }
    }
    for (size_t i = 0; i < plant->drip_count; i++)
        net->drip[plant->drips[i]->node] = true;
    for (size_t i = 0; i < net->line_count; i++) {
        net->touch_start[plant->lines[i]->node_from + 1]++;
        net->touch_start[plant->lines[i]->node_to + 1]++;
    }
    for (size_t i = 0; i < plant->node_count; i++)
        net->touch_start[i + 1] += net->touch_start[i];
}

/* Lines at each node, in the order of the file: places are counted down from the ends of the node's range. */
static void list_touching_lines(fv_network *net)
{
    const fv_plant *plant = net->plant;
    for (size_t i = net->line_count; i-- > 0;) {
        const int ends[2] = {plant->lines[i]->node_from, plant->lines[i]->node_to};
        for (int k = 0; k < 2; k++)
            net->touch_line[--net->touch_start[ends[k] + 1]] = (int)i;
    }
    /* The counting down has moved every range's end to its start; shift back. */
    for (size_t i = 0; i < plant->node_count; i++)
        net->touch_start[i] = net->touch_start[i + 1];
    net->touch_start[plant->node_count] = 2 * (int)net->line_count;
}

/* Heights from the rises, walking along the lines. false: out of memory. */
static bool find_heights(fv_network *net)
{
    const int n = (int)net->plant->node_count;
    int *queue = array(net, (size_t)n, sizeof(int));
    bool *known = array(net, (size_t)n, sizeof(bool));
    if (!queue || !known)
        return false;
    double low = 0, high = 0;
    for (int root = 0; root < n; root++) {
        int count = 0;
        if (!known[root])
            queue[count++] = root;
        known[root] = true;
        for (int head = 0; head < count; head++) {
            const int node = queue[head];
            low = fmin(low, net->height[node]);
            high = fmax(high, net->height[node]);
            for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
                const fv_line *line = net->lines[net->touch_line[j]].line;
                const int beyond = line->node_from == node ? line->node_to : line->node_from;
                if (known[beyond])
                    continue;
                known[beyond] = true;
                net->height[beyond] = net->height[node] + (line->node_from == node ? line->rise.v : -line->rise.v);
                queue[count++] = beyond;
            }
        }
    }
    net->height_range = high - low;
    return true;
}

static bool same_control(const fv_plant *plant, int a, int b)
{
    return plant->boilers[a]->node == plant->boilers[b]->node &&
           plant->boilers[a]->holds.v == plant->boilers[b]->holds.v;
}

static void group_boilers(fv_network *net)
{
    const fv_plant *plant = net->plant;
    int placed = 0;
    for (int i = 0; i < (int)plant->boiler_count; i++) {
        bool first = true;
        for (int j = 0; j < i && first; j++)
            first = !same_control(plant, i, j);
        if (!first)
            continue;
        steady_net_boilers *b = &net->boilers[net->boiler_group_count++];
        *b =
            (steady_net_boilers){.node = plant->boilers[i]->node, .holds = plant->boilers[i]->holds.v, .first = placed};
        for (int j = i; j < (int)plant->boiler_count; j++)
            if (same_control(plant, i, j))
                net->boiler_order[placed++] = j;
        b->count = placed - b->first;
    }
}

static bool number_unknowns(fv_network *net)
{
    int n = net->node_count;
    for (size_t i = 0; i < net->vessel_count; i++) {
        steady_net_vessel *v = &net->vessels[i];
        v->chamber_unknown = n++;
        v->head_unknown = n++;
        v->flow_unknown = n;
        n += v->hole_count + v->segment_count;
    }
    for (size_t i = 0; i < net->line_count; i++) {
        net->lines[i].unknown = n++;
        net->lines[i].head_unknown = net->lines[i].sag > 0 ? n++ : -1;
    }
    for (size_t i = 0; i < net->tee_count; i++)
        for (int leg = 0; leg < 2; leg++)
            net->tees[i].unknown[leg] = n++;
    for (size_t i = 0; i < net->boiler_group_count; i++)
        net->boilers[i].unknown = n++;
    net->gives_first = n;
    net->water_first = n + net->node_count;
    net->unknown_count = net->water_first + (int)net->plant->node_count;
    net->measure = array(net, (size_t)net->unknown_count, sizeof *net->measure);
    if (!net->measure)
        return false;
    for (int i = 0; i < net->unknown_count; i++)
        net->measure[i] = i < net->node_count    ? STEADY_A_PRESSURE
                          : i < net->gives_first ? STEADY_A_FLOW
                          : i < net->water_first ? STEADY_A_SHARE
                                                 : STEADY_A_RATIO;
    for (size_t i = 0; i < net->line_count; i++)
        if (net->lines[i].head_unknown >= 0)
            net->measure[net->lines[i].head_unknown] = STEADY_A_PRESSURE;
    for (size_t i = 0; i < net->vessel_count; i++) {
        const steady_net_vessel *v = &net->vessels[i];
        net->measure[v->chamber_unknown] = net->measure[v->head_unknown] = STEADY_A_PRESSURE;
        for (int k = 0; k < v->hole_count; k++)
            net->measure[v->flow_unknown + 2 * k + 1] = STEADY_A_PRESSURE;
    }
    return true;
}

/* The line at a coil's node, where there is no other line and no other coil. */
static bool find_only_lines(fv_network *net)
{
    int *coils = array(net, net->plant->node_count, sizeof(int));
    for (size_t i = 0; coils && i < net->vessel_count; i++)
        coils[net->vessels[i].node]++;
    for (size_t i = 0; coils && i < net->vessel_count; i++) {
        steady_net_vessel *v = &net->vessels[i];
        const int begin = net->touch_start[v->node], end = net->touch_start[v->node + 1];
        v->only_line = coils[v->node] == 1 && end - begin == 1 ? net->touch_line[begin] : -1;
    }
    return coils;
}

bool steady_compile(fv_network *net)
{
    const fv_plant *plant = net->plant;
    net->arena = fv_arena_new();
    if (!net->arena || !allocate(net))
        return false;
    net->site_pressure = fv_site_pressure(&plant->site);
    for (size_t i = 0; i < net->line_count; i++)
        compile_line(plant->lines[i], &net->lines[i]);
    compile_valves(net);
    place_nodes(net);
    list_touching_lines(net);
    int hole = 0, opening = 0;
    for (size_t i = 0; i < net->vessel_count; i++) {
        compile_vessel(net, (int)i, hole, opening);
        hole += net->vessels[i].hole_count;
        opening += net->vessels[i].opening_count;
    }
    group_boilers(net);
    return find_only_lines(net) && find_heights(net) && number_unknowns(net);
}
