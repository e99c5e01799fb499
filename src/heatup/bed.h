/* SPDX-License-Identifier: MIT */
/* A loose bed that steam percolates from below.
 *
 * CLIMBING  a front stands at a depth: below it all is at the steam's temperature, above it all is as at the start. The
 *           bed condenses every kilogram that comes; nothing reaches the chamber above. The caller asks what is still
 *           wanted and gives heat; the bed ignores the chamber.
 * THROUGH   the front has come out at the top. The bed stays at the steam's temperature until the chamber has come
 *           within half a kelvin of it, then stands at the chamber's (steam passes through all of it).
 * COOLING   told so by the caller: conduction to the top face only, through the cooling coefficient, starting even at
 *           the bed's mean. Steam given to a bed that cools starts a new front.
 *
 * The coldest point is the top. The sharp front is the usual idealisation: its thickness, grains of a centimetre or
 * two, is small against the depth. SI: K, s, J, kg. */
#ifndef FARVESSEL_HEATUP_BED_H
#define FARVESSEL_HEATUP_BED_H

#include "farvessel/base.h"

typedef struct {
    double mass;                 /* kg, wet */
    double specific_heat;        /* J/kg/K, thawed */
    double specific_heat_frozen; /* below 0 degC; 0: as thawed */
    double moisture;             /* kg water / kg, ice below 0 degC */
    double depth, area;          /* m, m2 */
    double conductivity;         /* W/m/K, for cooling */
    double h_cooling;            /* W/m2/K at the top, for cooling */
    double t_start;              /* K */
} fv_bed_spec;

typedef enum { FV_BED_CLIMBING, FV_BED_THROUGH, FV_BED_COOLING } fv_bed_phase;
typedef struct fv_bed fv_bed;

/* NULL: out of memory, or a figure makes no sense. */
fv_bed *fv_bed_new(const fv_bed_spec *spec);
void fv_bed_free(fv_bed *bed);

fv_bed_phase fv_bed_phase_of(const fv_bed *bed);
/* J still wanted until the front is through, with steam at t_steam; 0 when through. */
double fv_bed_wants(const fv_bed *bed, double t_steam);
/* Gives heat from steam at t_steam, of which `condensate` kg stay in the bed. Heat beyond what is wanted is not taken.
 * Returns what was taken. */
double fv_bed_give(fv_bed *bed, double heat, double t_steam, double condensate);
/* The vessel is opened or its steam shut for good. */
void fv_bed_begin_cooling(fv_bed *bed);

/* Heat over the next dt if the chamber goes linearly from tc0 to tc1, a + b tc1; nothing while the front climbs. */
fv_status fv_bed_probe(fv_bed *bed, double dt, double tc0, double *a, double *b);
/* The same if the chamber stands at t all the step (tc0: where it stood before), a + b t. */
fv_status fv_bed_probe_held(fv_bed *bed, double dt, double tc0, double *a, double *b);
fv_status fv_bed_advance(fv_bed *bed, double dt, double tc0, double tc1);
/* For a step with the chamber standing at t, after tc0. */
fv_status fv_bed_advance_held(fv_bed *bed, double dt, double tc0, double t);

double fv_bed_core(const fv_bed *bed);     /* K, the top: coldest while heated; in cooling the warmest, the bottom */
double fv_bed_mean(const fv_bed *bed);     /* K, mass mean of the temperature */
double fv_bed_top(const fv_bed *bed);      /* K */
double fv_bed_front(const fv_bed *bed);    /* m above the bottom */
double fv_bed_heat(const fv_bed *bed);     /* J since the start */
double fv_bed_moisture(const fv_bed *bed); /* kg water / kg now, what it soaked up included */
double fv_bed_gain(const fv_bed *bed);     /* kg soaked up */

size_t fv_bed_state_size(const fv_bed *bed);
void fv_bed_save(const fv_bed *bed, void *state);
void fv_bed_restore(fv_bed *bed, const void *state);

#endif
