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

/* A quantity that is known as one value a step, `value` s into this one at `middle`, at `part`: on the straight line
 * through the last step's and this one, and no farther beyond this one than they are apart; the value itself where
 * something was switched in between. */
double heatup_mean_within(const heatup_run *run, const heatup_mean *last, double value, double middle, double part);
/* Something was switched: nothing runs on from before. */
void heatup_forget_means(heatup_run *run);

#endif
