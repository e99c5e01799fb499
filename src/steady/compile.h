/* SPDX-License-Identifier: MIT */
/* The parts of compiling a plant. Arrays are there already, zero-filled. */
#ifndef STEADY_COMPILE_H
#define STEADY_COMPILE_H

#include "farvessel/constants.h"
#include "steady/network.h"

/* net->plant and net->sat are set; fills the rest but the pattern. false: out of memory. */
bool steady_compile(fv_network *net);

/* compile_lines.c */
void steady_compile_line(const fv_line *line, steady_net_line *l);
void steady_compile_valves(fv_network *net);
void steady_compile_reducers(fv_network *net);

/* compile_vessels.c */
size_t steady_coil_hole_count(const fv_coil *coil);
void steady_compile_vessel(fv_network *net, int index, int first_hole, int first_opening);

/* compile_graph.c; false: out of memory. */
void steady_place_tees(fv_network *net);
void steady_place_nodes(fv_network *net);
void steady_list_touching_lines(fv_network *net);
bool steady_find_heights(fv_network *net);
bool steady_find_only_lines(fv_network *net);

/* Belongs to the network, with one element to spare. */
static inline void *steady_array(fv_network *net, size_t count, size_t size)
{
    return fv_arena_alloc(net->arena, count + 1, size);
}

static inline double steady_circle(double diameter)
{
    return 0.25 * FV_PI * diameter * diameter;
}

#endif
