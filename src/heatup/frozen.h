/* SPDX-License-Identifier: MIT */
/* A piece that starts frozen: enthalpy method on finite volumes, melting at 0 degC. */
#ifndef FARVESSEL_HEATUP_FROZEN_H
#define FARVESSEL_HEATUP_FROZEN_H

#include "heatup/spectrum.h"

#define FV_MELTING_POINT 273.15 /* K */

typedef struct {
    double k_ice, k_water; /* W/m/K, of the piece below and above 0 degC */
    double c_ice, c_water; /* J/m3/K */
    double latent;         /* J/m3 */
    double h[2];           /* W/m2/K, by `condensing` */
    double t_start;        /* K */
    int cells;             /* of the thinnest direction; 0: default */
} fv_frozen_spec;

typedef struct fv_frozen fv_frozen;
/* NULL: out of memory. */
fv_frozen *fv_frozen_new(const fv_geometry *geometry, const fv_frozen_spec *spec);
fv_frozen *fv_frozen_copy(const fv_frozen *frozen); /* NULL: out of memory */
void fv_frozen_free(fv_frozen *frozen);

/* Heat taken over a step, J per m3 of the piece, without changing the state. */
double fv_frozen_heat_over(fv_frozen *frozen, double dt, double tc0, double tc1, bool condensing);
void fv_frozen_advance(fv_frozen *frozen, double dt, double tc0, double tc1, bool condensing);
/* Its cells, the temperature of one of them, and what is around. */
const struct fv_frozen_grid *fv_frozen_cells(const fv_frozen *frozen);
double fv_frozen_cell(const fv_frozen *frozen, size_t cell);
double fv_frozen_surroundings(const fv_frozen *frozen, bool *condensing); /* at the end of the last step */
bool fv_frozen_thawed(const fv_frozen *frozen); /* no ice anywhere: while it stays so, heat is linear in tc */
double fv_frozen_heat(const fv_frozen *frozen); /* since the start, J per m3 of the piece */
double fv_frozen_core(const fv_frozen *frozen);
double fv_frozen_mean(const fv_frozen *frozen);
double fv_frozen_surface_mean(const fv_frozen *frozen);
double fv_frozen_core_after(fv_frozen *frozen, double dt, double tc0, double tc1, bool condensing);

size_t fv_frozen_state_size(const fv_frozen *frozen);
void fv_frozen_save(const fv_frozen *frozen, void *state);
void fv_frozen_restore(fv_frozen *frozen, const void *state);

#endif
