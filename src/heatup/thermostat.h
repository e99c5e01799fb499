/* SPDX-License-Identifier: MIT */
/* Thermostats in a run. Private to this folder. */
#ifndef FARVESSEL_HEATUP_THERMOSTAT_H
#define FARVESSEL_HEATUP_THERMOSTAT_H

#include "heatup/state.h"

void heatup_thermostats_open(heatup_run *run);
/* Before a step: those whose time has come take over or let go, those at their limits switch, and fires and valves
 * stand as they say; where none does, as file and actions say. */
void heatup_thermostats_do(heatup_run *run);
/* When the next one takes over or lets go, s; when one may switch again; INFINITY. */
double heatup_thermostats_due(const heatup_run *run);
double heatup_thermostats_ready(const heatup_run *run);
/* Whether one that is in force, or will be, may still switch if its vessel came to `tends`, K. */
bool heatup_thermostat_would_switch(const heatup_run *run, size_t i, double tends);
/* s of the step just tried until the first one reaches its limit; dt: none does. */
double heatup_thermostats_next(const heatup_run *run, double dt);
/* K that one keeps a vessel's chamber under for good, at or below its target; INFINITY: none does. */
double heatup_thermostats_keep(const heatup_run *run, size_t vessel);
/* After a step: while thermostats go to and fro no chamber stands still, but cores that hardly moved in hours are
 * stuck.
 */
void heatup_thermostats_look(heatup_run *run);
/* K that a vessel's chamber may go in a step; INFINITY: none feels it. */
double heatup_thermostats_step(const heatup_run *run, size_t vessel);
/* The step is taken; before heatup_events_after. */
void heatup_thermostats_after(heatup_run *run, double dt);

#endif
