/* SPDX-License-Identifier: MIT */
/* Happenings: a queue, written by whoever finds that something has happened, read by the run. Private to this folder.
 */
#ifndef FARVESSEL_HEATUP_HAPPENINGS_H
#define FARVESSEL_HEATUP_HAPPENINGS_H

#include "heatup/state.h"

/* boiler, vessel, action: which; -1: not about one. */
void heatup_happen(heatup_run *run, double time, fv_happening_kind kind, int boiler, int vessel, int action);
/* Takes all from the queue into the result's list, in the order of time; at the same time in the order in which they
 * were queued. */
void heatup_happenings_note(heatup_run *run);

#endif
