/* SPDX-License-Identifier: MIT */
/* Where chambers tend to. Private to this folder. */
#ifndef FARVESSEL_HEATUP_LOOKAHEAD_H
#define FARVESSEL_HEATUP_LOOKAHEAD_H

#include "heatup/state.h"

bool heatup_look_ahead(heatup_run *run); /* where chambers on the steam tend to; false: not to be said */
bool heatup_tends_below(const heatup_run *run, size_t vessel); /* as predicted, it will not reach its target */
bool heatup_time_to_look(heatup_run *run);                     /* a good while since the last look or switching */

#endif
