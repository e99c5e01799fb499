/* SPDX-License-Identifier: MIT */
/* What happens in a step, and when. Private to this folder. */
#ifndef FARVESSEL_HEATUP_EVENTS_H
#define FARVESSEL_HEATUP_EVENTS_H

#include "heatup/state.h"

/* Part of dt after which the first event with a consequence happens. */
double heatup_events_next(heatup_run *run, double dt);
void heatup_events_find(heatup_run *run, double dt);  /* when the accepted step's events happen */
void heatup_events_after(heatup_run *run, double dt); /* notes them once the step is taken */

#endif
