/* SPDX-License-Identifier: MIT */
#ifndef STEADY_NEED_H
#define STEADY_NEED_H

#include "farvessel/steady.h"

/* W that a holding vessel takes with its chamber at t, K: as said, or what its walls lose, soaked through. */
double steady_uptake(const fv_plant *plant, const fv_vessel *vessel, double t);

/* What the vapour in a wall, with its chamber at t, brings now to one face, now to another when its balance is left, as
 * a share of the wall's loss: next to nothing where it has settled. */
double steady_wall_swing(const fv_plant *plant, const fv_vessel *vessel, size_t wall, double t);

#endif
