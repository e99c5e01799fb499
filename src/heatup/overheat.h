/* SPDX-License-Identifier: MIT */
/* How much of a load is above its limit, and for how long. Private to this folder. */
#ifndef FARVESSEL_HEATUP_OVERHEAT_H
#define FARVESSEL_HEATUP_OVERHEAT_H

#include "heatup/state.h"

/* Share of a body above a limit from the temperatures of its core, its mean and its surface. */
double heatup_share_above(double core, double mean, double surface, double limit);
void heatup_note_overheating(heatup_run *run, size_t vessel, double dt); /* over the step just taken */

#endif
