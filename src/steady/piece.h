/* SPDX-License-Identifier: MIT */
/* What the user said of a load, as the figures of one body that heats through its faces: a piece, a brick of rows, a
 * stack. */
#ifndef STEADY_PIECE_H
#define STEADY_PIECE_H

#include "farvessel/heat.h"
#include "farvessel/steady.h"

/* Outside coefficients while steam condenses, W/m2/K: on a face, wrapped or bare, near which some air always lies; and
 * on open medium that soaks up what condenses. Common practice, no source. */
#define STEADY_FACE 200.0
#define STEADY_FACE_OPEN 1000.0

typedef struct {
    double density, specific_heat, specific_heat_frozen;
    double conductivity, conductivity_frozen;
    double h_condensing, h_cooling; /* W/m2/K, wrap included */
    double volume;                  /* m3, of the body or the bed */
    bool block;                     /* it has the sides below, whatever form its pieces have */
    double side[3];                 /* m */
    double along[3];                /* conductivity along a side / conductivity; 1: as the medium's */
} steady_piece;

/* Density: of mass, count and size, else as said, else the medium's typical one. Specific heat and conductivity: as
 * said, else the medium's, at the mean of start and target (start or 0 degC where it is frozen). mass: kg, all of it.
 * FV_DOUBTFUL: a property outside its range. FV_FAIL: none (volume or density NaN: sizes are missing). */
fv_status steady_piece_of(const fv_load *load, double mass, double t_start, double t_target, steady_piece *out);

/* One of the directions whose product a body is; their number. Not for beds. */
typedef struct {
    fv_shape_1d shape;
    double size;  /* m, half thickness or radius */
    double along; /* conductivity along it / conductivity */
} steady_axis;
int steady_piece_axes(const fv_load *load, const steady_piece *piece, steady_axis axes[3]);

/* s until its middle, at t_start, is at t_to with steam at t_steam around it; INFINITY where it never is. Not for
 * beds. */
double steady_piece_time(const fv_load *load, const steady_piece *piece, double t_start, double t_steam, double t_to);

#endif
