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
} heatup_bed_spec;

typedef enum { HEATUP_BED_CLIMBING, HEATUP_BED_THROUGH, HEATUP_BED_COOLING } heatup_bed_phase;
typedef struct heatup_bed heatup_bed;

/* NULL: out of memory, or a figure makes no sense. */
heatup_bed *heatup_bed_new(const heatup_bed_spec *spec);
void heatup_bed_free(heatup_bed *bed);

heatup_bed_phase heatup_bed_phase_of(const heatup_bed *bed);
/* J still wanted until the front is through, with steam at t_steam; 0 when through. */
double heatup_bed_wants(const heatup_bed *bed, double t_steam);
/* Gives heat from steam at t_steam, of which `condensate` kg stay in the bed. Heat beyond what is wanted is not taken.
 * Returns what was taken. */
double heatup_bed_give(heatup_bed *bed, double heat, double t_steam, double condensate);
/* The vessel is opened or its steam shut for good. */
void heatup_bed_begin_cooling(heatup_bed *bed);

/* Heat over the next dt if the chamber stands at t all the step, after tc0: a + b t; nothing while the front climbs. */
fv_status heatup_bed_probe_held(heatup_bed *bed, double dt, double tc0, double *a, double *b);
fv_status heatup_bed_advance_held(heatup_bed *bed, double dt, double t);

double
heatup_bed_core(const heatup_bed *bed); /* K, the top: coldest while heated; in cooling the warmest, the bottom */
double heatup_bed_mean(const heatup_bed *bed);  /* K, mass mean of the temperature */
double heatup_bed_top(const heatup_bed *bed);   /* K */
double heatup_bed_front(const heatup_bed *bed); /* m above the bottom */
double heatup_bed_heat(const heatup_bed *bed);  /* J since the start */
double heatup_bed_gain(const heatup_bed *bed);  /* kg soaked up */

#endif
