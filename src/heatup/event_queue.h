/* SPDX-License-Identifier: MIT */
/* The queue of a run's events, written by whoever finds one and read by the run. Private to this folder. */
#ifndef FARVESSEL_HEATUP_EVENT_QUEUE_H
#define FARVESSEL_HEATUP_EVENT_QUEUE_H

#include "heatup/state.h"

/* boiler, vessel, action: which; -1: not about one. */
void heatup_event(heatup_run *run, double time, fv_heat_event_kind kind, int boiler, int vessel, int action);
/* Takes all from the queue into the result's list, in the order of time; at the same time in the order in which they
 * were queued. */
void heatup_events_note(heatup_run *run);

#endif
