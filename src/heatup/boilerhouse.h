/* SPDX-License-Identifier: MIT */
/* Boilers in time: lighting, warming, stock, changes of pressure. Private to this folder. */
#ifndef FARVESSEL_HEATUP_BOILERHOUSE_H
#define FARVESSEL_HEATUP_BOILERHOUSE_H

#include "heatup/state.h"

void heatup_boilers_open(heatup_run *run);
double heatup_boilers_next_refill(const heatup_run *run); /* s; INFINITY: none */
void heatup_boilers_refill(heatup_run *run);              /* what is due */
bool heatup_boilers_light(heatup_run *run);               /* those that are due; false: out of memory or no solution */
double heatup_boilers_next(const heatup_run *run, double dt); /* part of dt after which one steams or runs dry */
void heatup_boilers_set(heatup_run *run, double dt);          /* fire and stored heat as the network is to see them */
void heatup_boilers_still(heatup_run *run, double dt);        /* their state with nothing open */
void heatup_boilers_advance(heatup_run *run, double dt);      /* books; notes steam up and dry */
void heatup_boilers_pay(heatup_run *run, double dt);          /* what changes of pressure take over the accepted step */
double heatup_boiler_fuel(const heatup_run *run, size_t i);   /* W burnt over it */
bool heatup_boilers_steaming(const heatup_run *run);
/* The water of every boiler that steams is colder than what boils in an open vessel's chamber, for at least half of the
 * step: the fires warm their own water alone. */
bool heatup_boilers_too_cold(const heatup_run *run, double dt);
bool heatup_boilers_warming(const heatup_run *run); /* one will steam in time */

#endif
