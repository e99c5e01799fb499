/* SPDX-License-Identifier: MIT */
/* What a run means for each vessel. Private to this folder. */
#ifndef FARVESSEL_HEATUP_VERDICTS_H
#define FARVESSEL_HEATUP_VERDICTS_H

#include "heatup/state.h"

void heatup_verdicts(heatup_run *run);
/* Nothing more will come: says so and puts those vessels to sleep. */
bool heatup_all_settled(heatup_run *run, double dt);

#endif
