/* SPDX-License-Identifier: MIT */
/* A piece that starts frozen: enthalpy method on finite volumes, melting at 0 degC. */
#ifndef FARVESSEL_HEATUP_FROZEN_H
#define FARVESSEL_HEATUP_FROZEN_H

#include "heatup/spectrum.h"

typedef struct {
    double k_ice, k_water; /* W/m/K, of the piece below and above 0 degC */
    double c_ice, c_water; /* J/m3/K */
    double latent;         /* J/m3 */
    double h[2];           /* W/m2/K, by `condensing` */
    double t_start;        /* K */
    int cells;             /* of the thinnest direction; 0: default */
} heatup_frozen_spec;

typedef struct heatup_frozen heatup_frozen;
/* NULL: out of memory. */
heatup_frozen *heatup_frozen_new(const heatup_geometry *geometry, const heatup_frozen_spec *spec);
heatup_frozen *heatup_frozen_copy(const heatup_frozen *frozen); /* NULL: out of memory */
void heatup_frozen_free(heatup_frozen *frozen);

/* Heat taken over a step, J per m3 of the piece, without changing the state. */
double heatup_frozen_heat_over(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing);
void heatup_frozen_advance(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing);
/* Its cells, the temperature of one of them, and what is around. */
const struct heatup_frozen_grid *heatup_frozen_cells(const heatup_frozen *frozen);
double heatup_frozen_cell(const heatup_frozen *frozen, size_t cell);
double heatup_frozen_surroundings(const heatup_frozen *frozen, bool *condensing); /* at the end of the last step */
bool heatup_frozen_thawed(const heatup_frozen *frozen); /* no ice anywhere: while it stays so, heat is linear in tc */
double heatup_frozen_heat(const heatup_frozen *frozen); /* since the start, J per m3 of the piece */
double heatup_frozen_core(const heatup_frozen *frozen);
/* On the way from the centre to the surface along one axis, 0..1; beyond the last cell's middle, that cell. */
double heatup_frozen_at(const heatup_frozen *frozen, int axis, double position);
double heatup_frozen_mean(const heatup_frozen *frozen);
double heatup_frozen_surface_mean(const heatup_frozen *frozen);
double heatup_frozen_core_after(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing);

#endif
