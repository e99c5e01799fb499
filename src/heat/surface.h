/* SPDX-License-Identifier: MIT */
/* The outside of a line or a wall: flux against surface excess, and the balance of that flux with a resistance. */
#ifndef FARVESSEL_HEAT_SURFACE_H
#define FARVESSEL_HEAT_SURFACE_H

#include "farvessel/heat.h"

typedef struct {
    bool round;  /* a horizontal cylinder of diameter `size`, else a vertical wall of height `size` */
    double size; /* m */
    const fv_heat_outside *outside;
} heat_surface;

/* FV_FAIL when a size or a figure of the outside makes no sense, else FV_OK. */
fv_status heat_surface_check(const heat_surface *surface);

/* Coefficient, natural + forced + radiation, W/m2/K, at a surface `excess` K warmer than the air. */
fv_status heat_surface_h(const heat_surface *surface, double excess, double *h);

typedef struct {
    double excess;     /* surface over air, K */
    double flux;       /* W/m2 of outside surface */
    double dflux_drop; /* its derivative by `drop`, W/m2/K */
} heat_balanced;
/* `resistance` (m2 K/W, on the outside surface, >= 0) between a place `drop` K warmer than the air and the surface:
 * the excess where what comes through equals what leaves. */
fv_status heat_surface_balance(const heat_surface *surface, double resistance, double drop, heat_balanced *out);

#endif
