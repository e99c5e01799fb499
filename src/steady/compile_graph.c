/* SPDX-License-Identifier: MIT */
/* The plant as a graph: where lines end, which touch a node, how high nodes stand. */
#include "steady/compile.h"

#include <math.h>

static void place_tee(steady_net_tee *t, int node, const int leg[3], double angle)
{
    *t = (steady_net_tee){.leg = {leg[0], leg[1], leg[2]}, .node = node, .angle = angle};
}

/* Declared tees, then those that were found at joints. */
void steady_place_tees(fv_network *net)
{
    const fv_plant *plant = net->plant;
    size_t n = 0;
    for (size_t i = 0; i < plant->tee_count; i++)
        place_tee(&net->tees[n++], plant->tees[i]->node, plant->tees[i]->line, plant->tees[i]->angle.v);
    for (size_t i = 0; i < plant->node_count; i++)
        if (net->joints[i].kind == FV_JOINT_TEE)
            place_tee(&net->tees[n++], (int)i, net->joints[i].line, FV_PI / 2);
}

/* Lines end at plant nodes, save where a tee gives them a port. */
void steady_place_nodes(fv_network *net)
{
    const fv_plant *plant = net->plant;
    for (int i = 0; i < (int)plant->node_count; i++)
        net->plant_node[i] = i;
    for (size_t i = 0; i < net->line_count; i++) {
        net->lines[i].node_from = plant->lines[i]->node_from;
        net->lines[i].node_to = plant->lines[i]->node_to;
    }
    for (size_t i = 0; i < net->tee_count; i++) {
        steady_net_tee *t = &net->tees[i];
        for (int leg = 0; leg < 3; leg++) {
            steady_net_line *l = &net->lines[t->leg[leg]];
            t->area[leg] = l->duct.area;
            if (leg == 0)
                continue;
            const int port = (int)plant->node_count + 2 * (int)i + leg - 1;
            t->port[leg - 1] = port;
            net->plant_node[port] = t->node;
            *(l->line->node_from == t->node ? &l->node_from : &l->node_to) = port;
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
void steady_list_touching_lines(fv_network *net)
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
bool steady_find_heights(fv_network *net)
{
    const int n = (int)net->plant->node_count;
    int *queue = steady_array(net, (size_t)n, sizeof(int));
    bool *known = steady_array(net, (size_t)n, sizeof(bool));
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

/* The line at a coil's node, where there is no other line and no other coil. */
bool steady_find_only_lines(fv_network *net)
{
    int *coils = steady_array(net, net->plant->node_count, sizeof(int));
    for (size_t i = 0; coils && i < net->vessel_count; i++)
        coils[net->vessels[i].node]++;
    for (size_t i = 0; coils && i < net->vessel_count; i++) {
        steady_net_vessel *v = &net->vessels[i];
        const int begin = net->touch_start[v->node], end = net->touch_start[v->node + 1];
        v->only_line = coils[v->node] == 1 && end - begin == 1 ? net->touch_line[begin] : -1;
    }
    return coils;
}
