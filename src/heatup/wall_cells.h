/* SPDX-License-Identifier: MIT */
/* Cells of a layered wall. */
#ifndef FARVESSEL_HEATUP_WALL_CELLS_H
#define FARVESSEL_HEATUP_WALL_CELLS_H

#include "steady/lining.h"

enum { WALL_CELLS_MOST = 512 };

typedef struct {
    size_t count;
    size_t end[STEADY_LAYERS_MOST];          /* of each layer, the number of cells up to there */
    double capacity[WALL_CELLS_MOST];        /* J/m2/K */
    double middle[WALL_CELLS_MOST];          /* depth of the middle from the inner face, m */
    double conductance[WALL_CELLS_MOST + 1]; /* W/m2/K towards the inside; the last: middle to outer surface */
    double half[WALL_CELLS_MOST];            /* resistance from a middle to a face, m2 K/W */
    double h_inside;                         /* 0: none */
} heatup_wall_cells;

/* FV_FAIL: a layer makes no sense, or there are too many. */
fv_status heatup_wall_cells_init(heatup_wall_cells *cells, const fv_heat_layer *layers, size_t count, double h_inside,
                                 int refine);

/* A layer's conductivity has become another: its cells, from `first` up to `end`, get `times` their resistance. */
void heatup_wall_cells_resist(heatup_wall_cells *cells, size_t first, size_t end, double times);

#endif
