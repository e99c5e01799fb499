/* SPDX-License-Identifier: MIT */
/* From the plant to the network: numbers resolved, unknowns numbered, pattern analysed. */
#include "steady/compile.h"

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
    net->joints = steady_array(net, plant->node_count, sizeof *net->joints);
    if (!net->joints || !fv_plant_joints(plant, net->joints))
        return false;
    net->tee_count = plant->tee_count;
    for (size_t i = 0; i < plant->node_count; i++)
        net->tee_count += net->joints[i].kind == FV_JOINT_TEE;
    net->vessel_count = plant->vessel_count;
    net->node_count = (int)(plant->node_count + 2 * net->tee_count);
    net->lines = steady_array(net, net->line_count, sizeof *net->lines);
    net->tees = steady_array(net, net->tee_count, sizeof *net->tees);
    net->vessels = steady_array(net, net->vessel_count, sizeof *net->vessels);
    net->holes = steady_array(net, net->hole_count, sizeof *net->holes);
    net->segment_length = steady_array(net, net->hole_count + net->vessel_count, sizeof(double));
    net->openings = steady_array(net, net->opening_count, sizeof *net->openings);
    net->valves = steady_array(net, net->valve_count, sizeof *net->valves);
    net->boilers = steady_array(net, plant->boiler_count, sizeof *net->boilers);
    net->boiler_order = steady_array(net, plant->boiler_count, sizeof(int));
    net->drip = steady_array(net, plant->node_count, sizeof(bool));
    net->plant_node = steady_array(net, (size_t)net->node_count, sizeof(int));
    net->height = steady_array(net, plant->node_count, sizeof(double));
    net->touch_start = steady_array(net, plant->node_count + 1, sizeof(int));
    net->touch_line = steady_array(net, 2 * net->line_count, sizeof(int));
    return net->lines && net->tees && net->vessels && net->holes && net->segment_length && net->openings &&
           net->height && net->touch_start && net->touch_line;
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
    net->share_first = n;
    net->water_first = n + net->node_count;
    net->unknown_count = net->water_first + (int)net->plant->node_count;
    net->measure = steady_array(net, (size_t)net->unknown_count, sizeof *net->measure);
    if (!net->measure)
        return false;
    for (int i = 0; i < net->unknown_count; i++)
        net->measure[i] = i < net->node_count    ? STEADY_A_PRESSURE
                          : i < net->share_first ? STEADY_A_FLOW
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

bool steady_compile(fv_network *net)
{
    const fv_plant *plant = net->plant;
    net->arena = fv_arena_new();
    if (!net->arena || !allocate(net))
        return false;
    net->site_pressure = fv_site_pressure(&plant->site);
    for (size_t i = 0; i < net->line_count; i++)
        steady_compile_line(plant->lines[i], &net->lines[i]);
    steady_compile_valves(net);
    steady_place_tees(net);
    steady_compile_reducers(net);
    steady_place_nodes(net);
    steady_list_touching_lines(net);
    int hole = 0, opening = 0;
    for (size_t i = 0; i < net->vessel_count; i++) {
        steady_compile_vessel(net, (int)i, hole, opening);
        hole += net->vessels[i].hole_count;
        opening += net->vessels[i].opening_count;
    }
    group_boilers(net);
    return steady_find_only_lines(net) && steady_find_heights(net) && number_unknowns(net);
}
