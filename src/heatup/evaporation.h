/* SPDX-License-Identifier: MIT */
/* What a wet face gives up. Private to this folder. */
#ifndef FARVESSEL_HEATUP_EVAPORATION_H
#define FARVESSEL_HEATUP_EVAPORATION_H

/* W/m2/K that evaporation adds to the dry coefficient h of a wet face at t in saturated gas at t_gas, K, which must
 * differ; pressure in Pa. */
double heatup_evaporation(double h, double t, double t_gas, double pressure);

#endif
