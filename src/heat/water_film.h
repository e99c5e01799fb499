/* SPDX-License-Identifier: MIT */
/* Water and steam for film condensation only, near atmospheric pressure; the steam tables of this floor are better
 * and wider, but folders of one floor do not call each other. */
#ifndef FARVESSEL_HEAT_WATER_FILM_H
#define FARVESSEL_HEAT_WATER_FILM_H

#include "farvessel/base.h"

typedef struct {
    double rho, mu, k, cp; /* of the water film, at its mean temperature: kg/m3, Pa s, W/m/K, J/kg/K */
    double rho_v, h_fg;    /* of the steam, at saturation: kg/m3, J/kg */
} heat_film_water;
/* Temperatures in K. FV_DOUBTFUL outside 0 to 150 degC. */
fv_status heat_water_film(double t_sat, double t_film, heat_film_water *w);

#endif
