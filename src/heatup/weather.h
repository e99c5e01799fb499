/* SPDX-License-Identifier: MIT */
/* Air and wind outside. Private to this folder. */
#ifndef FARVESSEL_HEATUP_WEATHER_H
#define FARVESSEL_HEATUP_WEATHER_H

#include "heatup/state.h"

/* K, m/s at t seconds from the start. */
void heatup_weather_at(const fv_plant *plant, double t, double *air, double *wind);

#endif
