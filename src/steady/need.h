/* SPDX-License-Identifier: MIT */
#ifndef STEADY_NEED_H
#define STEADY_NEED_H

#include "farvessel/steady.h"

/* W that a holding vessel takes with its chamber at t, K: as said, or what its walls lose, soaked through. */
double steady_uptake(const fv_plant *plant, const fv_vessel *vessel, double t);

#endif
