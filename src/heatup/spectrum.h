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
    double size;  /* half thickness or radius, m */
    double along; /* conductivity along it over the piece's; 0: the same */
} heatup_axis;

static inline double heatup_axis_along(const heatup_axis *axis)
{
    return axis->along > 0 ? axis->along : 1;
}

typedef struct {
    heatup_axis axis[3];
    int axes;
    double conductivity, diffusivity;
} heatup_geometry;

enum { FIELD_MODES_MOST = 48 };

/* The first modes of one direction. With phi_n scaled so that 1 = sum of phi_n: */
typedef struct {
    int count;
    double dimensions;                /* 1 slab, 2 cylinder, 3 sphere */
    double inverse_biot;              /* conductivity / (h size); 0: the surface follows at once */
    double rate[FIELD_MODES_MOST];    /* 1/s */
    double zeta2[FIELD_MODES_MOST];   /* eigenvalue squared */
    double mean[FIELD_MODES_MOST];    /* of phi_n over the volume */
    double centre[FIELD_MODES_MOST];  /* phi_n at the centre, smoothed (see spectrum.c) */
    double surface[FIELD_MODES_MOST]; /* phi_n at the surface */
    double slope[FIELD_MODES_MOST];   /* -d phi_n / d position at the surface */
} heatup_modes;

typedef struct {
    double h; /* W/m2/K */
    heatup_rates rates;
    heatup_weights weights; /* each kind sums to 1 */
    heatup_modes modes[3];  /* by axis, for writing down the field */
    int field_size;         /* product of their counts */
    bool placed;            /* places are known */
    heatup_place *places;   /* of the field's modes, product order */
} heatup_spectrum;

/* FV_FAIL: h, a size or a property is not positive, or out of memory. */
fv_status heatup_spectrum_init(heatup_spectrum *spectrum, const heatup_geometry *geometry, double h);
void heatup_spectrum_clear(heatup_spectrum *spectrum);
/* Finds the places, once. */
void heatup_spectrum_place(heatup_spectrum *spectrum);

#endif
