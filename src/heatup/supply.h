/* SPDX-License-Identifier: MIT */
/* What steam reaches a vessel's coil, by the network as last solved. Private to this folder. */
#ifndef FARVESSEL_HEATUP_SUPPLY_H
#define FARVESSEL_HEATUP_SUPPLY_H

#include "heatup/state.h"

double heatup_vessel_steam(const heatup_run *run, size_t vessel);    /* kg/s into the coil, 0 unless open */
double heatup_vessel_enthalpy(const heatup_run *run, size_t vessel); /* of it, J/kg */

#endif
