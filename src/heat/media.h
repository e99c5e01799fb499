/* SPDX-License-Identifier: MIT */
/* What the substrate files share. */
#ifndef FARVESSEL_HEAT_MEDIA_H
#define FARVESSEL_HEAT_MEDIA_H

#include "farvessel/heat.h"

#define HEAT_WATER_RHO 998.0 /* kg/m3 at 20 degC */

/* One cubic metre of a moist medium. */
typedef struct {
    double dry;                /* kg of dry matter */
    double u;                  /* kg water / kg dry */
    double solid, water, pore; /* volume shares; pore >= 0 */
    bool overfull;             /* more solid and water than one cubic metre holds */
} heat_packing;
heat_packing heat_pack(fv_medium medium, double moisture, double density);
double heat_solid_density(fv_medium medium); /* pore-free dry matter, kg/m3 */

double heat_water_conductivity(double t);           /* liquid, W/m/K */
double heat_air_conductivity(double t);             /* W/m/K */
double heat_vapour_conductivity(double t);          /* what moving vapour adds in a moist pore, W/m/K */
double heat_ramp(double x, double from, double to); /* 0 below `from`, 1 above `to` */

/* Conductivity of one kind each, W/m/K. */
double heat_conductivity_fibre(const heat_packing *pack, bool bits, double t);
double heat_conductivity_grain(const heat_packing *pack, double t);
double heat_conductivity_peat(const heat_packing *pack, double t);
double heat_conductivity_soil(const heat_packing *pack, double t);

#endif
