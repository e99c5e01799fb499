/* SPDX-License-Identifier: MIT */
/* Quantities within a step. Private to this folder. */
#ifndef FARVESSEL_HEATUP_DENSE_H
#define FARVESSEL_HEATUP_DENSE_H

#include "heatup/state.h"

/* Where the load is at the end of the step that the chamber has just taken. */
void heatup_note_end(heatup_vessel *v);
/* s into that step; K. */
double heatup_core_within(const heatup_vessel *v, double part, double dt);
double heatup_chamber_within(const heatup_run *run, const heatup_vessel *v, double part, double dt);
/* W that a vessel's walls, shell and load would take over the step just tried with its chamber at the boiling point. */
double heatup_vessel_takes(const heatup_run *run, size_t vessel);
/* kg/s that all chambers could condense at the boiling point. */
double heatup_demand_within(const heatup_run *run, double part, double dt);

#endif
