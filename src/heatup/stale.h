/* SPDX-License-Identifier: MIT */
/* Whether the network must be solved again for a step. Private to this folder. */
#ifndef FARVESSEL_HEATUP_STALE_H
#define FARVESSEL_HEATUP_STALE_H

#include "heatup/state.h"

void heatup_stale_open(heatup_run *run);
bool heatup_network_stale(heatup_run *run, double dt, double air, double wind);
void heatup_stale_solved(heatup_run *run, double air, double wind); /* it was, for these conditions */
void heatup_stale_taken(heatup_run *run);                           /* the step just tried is taken */
double heatup_hole_drop(const heatup_run *run, size_t vessel);      /* Pa, not quite 0 */

#endif
