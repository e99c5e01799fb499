/* SPDX-License-Identifier: MIT */
/* How a piece answers its surroundings under one surface coefficient, and how its temperature field is written. */
#ifndef FARVESSEL_HEATUP_SPECTRUM_H
#define FARVESSEL_HEATUP_SPECTRUM_H

#include "farvessel/heat.h"
#include "heatup/rates.h"

#include <stdbool.h>

/* A piece is the product of one to three independent directions: block three slabs, cylinder a long one and a slab. */
typedef struct {
    fv_shape_1d shape;
    double size; /* half thickness or radius, m */
} fv_axis;

typedef struct {
    fv_axis axis[3];
    int axes;
    double conductivity, diffusivity;
} fv_geometry;

enum { FIELD_MODES_MOST = 48, FIELD_SIZE_MOST = 2744 /* 14 * 14 * 14 */ };

/* The first modes of one direction. With phi_n scaled so that 1 = sum of phi_n: */
typedef struct {
    int count;
    double dimensions;                /* 1 slab, 2 cylinder, 3 sphere */
    double rate[FIELD_MODES_MOST];    /* 1/s */
    double zeta2[FIELD_MODES_MOST];   /* eigenvalue squared */
    double mean[FIELD_MODES_MOST];    /* of phi_n over the volume */
    double centre[FIELD_MODES_MOST];  /* phi_n at the centre, smoothed (see spectrum.c) */
    double surface[FIELD_MODES_MOST]; /* phi_n at the surface */
    double slope[FIELD_MODES_MOST];   /* -d phi_n / d position at the surface */
} fv_modes;

typedef struct {
    double h; /* W/m2/K */
    fv_rates rates;
    fv_weights weights; /* each kind sums to 1 */
    fv_modes modes[3];  /* by axis, for writing down the field */
    int field_size;     /* product of their counts */
    bool placed;        /* places are known */
    fv_place *places;   /* of the field's modes, product order */
} fv_spectrum;

/* FV_FAIL: h, a size or a property is not positive, or out of memory. */
fv_status fv_spectrum_init(fv_spectrum *spectrum, const fv_geometry *geometry, double h);
void fv_spectrum_clear(fv_spectrum *spectrum);
/* Finds the places, once. */
void fv_spectrum_place(fv_spectrum *spectrum);

#endif
