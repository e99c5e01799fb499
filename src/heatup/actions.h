/* SPDX-License-Identifier: MIT */
/* What the grower does: actions of the file, vessels that start by the clock or after an event. Private to this folder.
 */
#ifndef FARVESSEL_HEATUP_ACTIONS_H
#define FARVESSEL_HEATUP_ACTIONS_H

#include "heatup/state.h"

void heatup_actions_open(heatup_run *run);
double heatup_actions_next(const heatup_run *run); /* time of the next thing due, INFINITY: none */
void heatup_actions_clock(heatup_run *run);        /* vessels that open by the clock, holds that end now */
void heatup_actions_do(heatup_run *run);           /* actions of the file that are due now, and what they set going */
void heatup_actions_notify(heatup_run *run);       /* starts what waits for what is in the queue */
bool heatup_actions_listen(const heatup_run *run, fv_event_kind kind, int vessel); /* something waits for it */
bool heatup_actions_may_open(const heatup_run *run, int vessel); /* an action may still open it; -1: any */
bool heatup_actions_want_steam(const heatup_run *run); /* something is open or may still be; else the fires are out */
bool heatup_actions_stay_shut(const heatup_run *run, size_t vessel); /* nothing will ever open its steam */

#endif
