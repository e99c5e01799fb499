/* SPDX-License-Identifier: MIT */
/* A loose bed that steam percolates from below.
 *
 * CLIMBING  a front stands at a height: below it all is at the steam's temperature, above it all is as at the start.
 *           The bed takes what steam brings, all of it at first, less as the front comes out here and there (front
 *           factor); the rest passes into the chamber above.
 * THROUGH   the front is through everywhere. The bed stays at the steam's temperature until the chamber has come within
 *           half a kelvin of it, then stands at the chamber's (steam passes through all of it).
 * COOLING   told so by the caller: a brick that loses heat through sides and floor to the walls and through its top to
 *           the chamber (brick.h). Steam given to a bed that cools starts a new front.
 *
 * SI: K, s, J, kg. */
#ifndef FARVESSEL_HEATUP_BED_H
#define FARVESSEL_HEATUP_BED_H

#include "farvessel/base.h"
#include "heatup/brick.h"

typedef struct {
    double mass;                 /* kg, wet */
    double specific_heat;        /* J/kg/K, thawed */
    double specific_heat_frozen; /* below 0 degC; 0: as thawed */
    double moisture;             /* kg water / kg, ice below 0 degC */
    double depth, area;          /* m, m2 */
    double conductivity;         /* W/m/K, for cooling */
    double h_cooling;            /* W/m2/K at the top without evaporation, for cooling */
    double front_factor;         /* 1..2: steam supplied over steam wanted when the last of the bed is hot */
    double t_start;              /* K */
} heatup_bed_spec;

typedef enum { HEATUP_BED_CLIMBING, HEATUP_BED_THROUGH, HEATUP_BED_COOLING } heatup_bed_phase;
typedef struct heatup_bed heatup_bed;

/* NULL: out of memory, or a figure makes no sense. */
heatup_bed *heatup_bed_new(const heatup_bed_spec *spec);
void heatup_bed_free(heatup_bed *bed);

heatup_bed_phase heatup_bed_phase_of(const heatup_bed *bed);
bool heatup_bed_follows(const heatup_bed *bed); /* through, and the chamber has come up to it */
/* J that it still takes until it is hot throughout, with steam at t_steam; 0 when through. */
double heatup_bed_wants(const heatup_bed *bed, double t_steam);
/* J that are still to be supplied until then: more, for some pass by. */
double heatup_bed_to_supply(const heatup_bed *bed, double t_steam);
/* J that it would take of so much supplied by steam at t_steam. */
double heatup_bed_accepts(const heatup_bed *bed, double supplied, double t_steam);
/* Takes them; `condensate` kg stay in the bed. Returns what was taken. */
double heatup_bed_give(heatup_bed *bed, double supplied, double t_steam, double condensate);
/* Gives heat to the walls while no steam comes. */
void heatup_bed_lose(heatup_bed *bed, double heat);
/* The vessel is opened or its steam shut for good. */
void heatup_bed_begin_cooling(heatup_bed *bed);
/* Whether it began frozen: broken off, such a bed is taken to be as warm all over. */
bool heatup_bed_thaws(const heatup_bed *bed);

/* Behind its skin a conductance, W/K in all, to a temperature; at the top a coefficient: only while it cools. */
typedef struct {
    double dt, skin, t_skin, h_top;
} heatup_bed_step;
/* Heat over the coming step with the chamber at t: in from the chamber, out to the walls. Through: all follows. */
void heatup_bed_prepare(heatup_bed *bed, const heatup_bed_step *step, heatup_line *chamber, heatup_line *walls);
void heatup_bed_advance(heatup_bed *bed, double t); /* by that step */

double heatup_bed_core(const heatup_bed *bed);                /* K, coldest point */
double heatup_bed_hottest(const heatup_bed *bed);             /* K */
double heatup_bed_above(const heatup_bed *bed, double limit); /* share of it that is hotter */
double heatup_bed_mean(const heatup_bed *bed);                /* K, mass mean of the temperature; of its sides, too */
double heatup_bed_top(const heatup_bed *bed);                 /* K */
double heatup_bed_front(const heatup_bed *bed);               /* m above the bottom */
double heatup_bed_heat(const heatup_bed *bed);                /* J since the start */
double heatup_bed_gain(const heatup_bed *bed);                /* kg soaked up */

#endif
