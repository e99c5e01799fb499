/* SPDX-License-Identifier: MIT */
/* What the two forms of the conduction solution share. */
#ifndef FARVESSEL_HEAT_CONDUCTION_H
#define FARVESSEL_HEAT_CONDUCTION_H

#include "farvessel/heat.h"

/* 1 - theta while the change has not yet come through: theta at a position 0..1, and its volume mean. */
double heat_short_time(fv_shape_1d shape, double biot, double fourier, double position);
double heat_short_time_mean(fv_shape_1d shape, double biot, double fourier);
/* An eigenfunction, 1 at the centre, at y = zeta position: cos y, J0(y), sin(y)/y. */
double heat_shape_function(fv_shape_1d shape, double y);
/* The Fourier number to which heat_short_time is used. */
double heat_short_time_limit(fv_shape_1d shape);

#endif
