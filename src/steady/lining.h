/* SPDX-License-Identifier: MIT */
/* The layers of a wall, and vapour that passes through wet board into what is behind it. */
#ifndef STEADY_LINING_H
#define STEADY_LINING_H

#include "farvessel/heat.h"
#include "farvessel/model.h"
#include "farvessel/props.h"

enum { STEADY_LAYERS_MOST = 32 };

/* How a layer stands to vapour. */
typedef struct {
    double s_d;   /* m of still air that would let as little through */
    double dry_k; /* W/m/K */
    double wet_k; /* with its pores full */
    double holds; /* kg/m2 of water in full pores */
    double water; /* kg/m2 in them when the plant starts */
} steady_lining;

/* Fills what the wall is made of, conductivities as wet as it starts, and returns how many layers. `open`:
 * whether vapour gets in at all; then `linings` are filled, too. */
size_t steady_wall_layers(const fv_wall *wall, fv_heat_layer *layers, steady_lining *linings, bool *open);
/* W/m/K with that much water in it, kg/m2. */
double steady_lining_k(const steady_lining *lining, double water);

/* kg/m2/s of vapour through s_d (m) at a mean temperature (K) under a difference of pressures (Pa). */
double steady_vapour_flux(double s_d, double t_mean, double dp);

/* From a chamber at t (K) with that humidity. t_behind: K of the face behind each layer. Layers with full pores take no
 * more. conductance (W/m2/K) of each face: heat that vapour brings there, over the fall of temperature; 0: none stays
 * there. Returns the heat (J/kg) of what condenses. */
double steady_vapour_into(const steady_lining *linings, const double *water, const double *t_behind, size_t count,
                          double t, double humidity, double *conductance);

#endif
