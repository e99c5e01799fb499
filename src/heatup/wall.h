/* SPDX-License-Identifier: MIT */
/* One wall of a vessel while time passes: layers that store heat and lose it outside.
 *
 * The inner face stands at the chamber's temperature, or meets it through a coefficient. The outside coefficient is
 * that of fv_heat_outside_wall at the outer surface's temperature when a step begins. Heat over a step is then a + b
 * tc1 exactly. SI: K, s, J for the whole area. */
#ifndef FARVESSEL_HEATUP_WALL_H
#define FARVESSEL_HEATUP_WALL_H

#include "steady/lining.h"

typedef struct {
    const fv_heat_layer *layers;  /* from the inside out; rho or c may be 0: a layer that stores nothing */
    const steady_lining *linings; /* of them, for vapour; NULL: none gets in */
    size_t count;                 /* 0: a bare skin without mass */
    double area;                  /* m2 */
    double height;                /* m, for natural convection outside */
    double h_inside;              /* W/m2/K; 0: inner face at the chamber's temperature */
    fv_heat_outside outside;
    double t_start; /* K, all through */
    int refine;     /* cells are divided by it; 0: default. For convergence tests */
} heatup_wall_heat_spec;

typedef struct heatup_wall_heat heatup_wall_heat;
/* NULL: out of memory, or a figure makes no sense. */
heatup_wall_heat *heatup_wall_heat_new(const heatup_wall_heat_spec *spec);
void heatup_wall_heat_free(heatup_wall_heat *wall);

/* From now on. FV_FAIL, and nothing changed, where a figure makes no sense; FV_DOUBTFUL: a correlation is outside its
 * range. */
fv_status heatup_wall_heat_set_outside(heatup_wall_heat *wall, const fv_heat_outside *outside);

/* Vapour from a chamber at t (K) with that humidity gets into its layers as it would now, from now on. */
void heatup_wall_heat_let_vapour(heatup_wall_heat *wall, double t, double humidity);

/* Heat (J) that goes into the wall over the next dt if the chamber stands at t for all of it, whatever it was before:
 * a + b t. */
fv_status heatup_wall_heat_probe_held(heatup_wall_heat *wall, double dt, double *a, double *b);
/* FV_DOUBTFUL: the outside coefficient is outside its range. */
fv_status heatup_wall_heat_advance(heatup_wall_heat *wall, double dt, double tc0, double tc1);

double
heatup_wall_heat_taken(const heatup_wall_heat *wall); /* J from the chamber since the start, the sum of a + b tc1 */
double heatup_wall_heat_by_vapour(const heatup_wall_heat *wall);   /* J of those, brought by vapour that condensed */
double heatup_wall_heat_lets_vapour(const heatup_wall_heat *wall); /* W/K that vapour brings into its layers now */
double heatup_wall_heat_water(const heatup_wall_heat *wall);       /* kg in its layers, more than at the start */
double heatup_wall_heat_stored(const heatup_wall_heat *wall);      /* J more than at the start */
double heatup_wall_heat_lost(const heatup_wall_heat *wall);        /* J to the outside; taken = stored + lost */
double heatup_wall_heat_loss(const heatup_wall_heat *wall);        /* W to the outside now */
double heatup_wall_heat_outer(const heatup_wall_heat *wall);       /* K, outer surface now */
double heatup_wall_heat_capacity(const heatup_wall_heat *wall);    /* J/K of all layers */
/* K at a depth (m) from the inner face, between the cells' middles linearly; for tests. */
double heatup_wall_heat_at(const heatup_wall_heat *wall, double depth);

#endif
