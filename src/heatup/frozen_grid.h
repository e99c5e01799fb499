/* SPDX-License-Identifier: MIT */
/* Cells of a frozen piece and the flow of heat between them. */
#ifndef FARVESSEL_HEATUP_FROZEN_GRID_H
#define FARVESSEL_HEATUP_FROZEN_GRID_H

#include "farvessel/constants.h"
#include "heatup/frozen.h"

enum { FROZEN_CELLS_MOST = 128 };

/* One direction, centre outward; index 0 is at the centre. */
typedef struct {
    int count;
    double width;                     /* m */
    double along;                     /* conductivity along it over the piece's */
    double volume[FROZEN_CELLS_MOST]; /* of a cell, per unit of the other directions */
    double face[FROZEN_CELLS_MOST];   /* outer face of a cell */
    double face_per_inner[FROZEN_CELLS_MOST], face_per_outer[FROZEN_CELLS_MOST]; /* face / volume on its two sides */
    /* rate for each difference of the potential to the neighbours, 1/m2; 0: none there */
    double outward[FROZEN_CELLS_MOST], inward[FROZEN_CELLS_MOST];
} heatup_frozen_axis;

typedef struct heatup_frozen_grid {
    heatup_frozen_axis axis[3]; /* directions that are not there have one cell without an outer face */
    int axes;
    size_t cells;
    double volume; /* sum over the cells */
} heatup_frozen_grid;

void heatup_frozen_grid_init(heatup_frozen_grid *grid, const heatup_geometry *geometry, int cells);
/* The longest explicit step that is stable, s. */
double heatup_frozen_grid_step(const heatup_frozen_grid *grid, const heatup_frozen_spec *spec);
/* rate[cell] = d enthalpy / dt, W/m3, with the surroundings at tc. `potential` is space to work in, one place
 * for each cell and one more that can be read before and after, finite. */
void heatup_frozen_grid_rate(const heatup_frozen_grid *grid, const heatup_frozen_spec *spec, double h, double tc,
                             const double *enthalpy, double *potential, double *rate);
/* Mean over the outer face of its temperature. */
double heatup_frozen_grid_surface(const heatup_frozen_grid *grid, const heatup_frozen_spec *spec, double h, double tc,
                                  const double *enthalpy);

/* Enthalpy (J/m3) is 0 for ice at 0 degC and spec->latent for water at 0 degC. */
static inline double frozen_temperature(const heatup_frozen_spec *spec, double enthalpy)
{
    if (enthalpy < 0)
        return FV_MELTING_POINT + enthalpy / spec->c_ice;
    return enthalpy > spec->latent ? FV_MELTING_POINT + (enthalpy - spec->latent) / spec->c_water : FV_MELTING_POINT;
}

/* Integral of the conductivity from 0 degC: flow between two cells is its difference over their distance, on whichever
 * side of the front either lies. */
static inline double frozen_potential(const heatup_frozen_spec *spec, double above_melting)
{
    return above_melting * (above_melting < 0 ? spec->k_ice : spec->k_water);
}

#endif
