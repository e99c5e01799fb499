/* SPDX-License-Identifier: MIT */
/* Cells of a layered wall. */
#ifndef FARVESSEL_HEATUP_WALL_CELLS_H
#define FARVESSEL_HEATUP_WALL_CELLS_H

#include "farvessel/heat.h"

enum { WALL_CELLS_MOST = 512 };

typedef struct {
    size_t count;
    double capacity[WALL_CELLS_MOST];        /* J/m2/K */
    double middle[WALL_CELLS_MOST];          /* depth of the middle from the inner face, m */
    double conductance[WALL_CELLS_MOST + 1]; /* W/m2/K towards the inside; the last: middle to outer surface */
    double h_inside;                         /* 0: none */
} heatup_wall_cells;

/* FV_FAIL: a layer makes no sense, or there are too many. */
fv_status heatup_wall_cells_init(heatup_wall_cells *cells, const fv_heat_layer *layers, size_t count, double h_inside,
                                 int refine);

#endif
