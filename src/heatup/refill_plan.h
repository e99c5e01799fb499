/* SPDX-License-Identifier: MIT */
#ifndef FARVESSEL_HEATUP_REFILL_PLAN_H
#define FARVESSEL_HEATUP_REFILL_PLAN_H

#include "heatup/state.h"

/* At the end of a run: how the boilers that ran dry are to be refilled. */
void heatup_refill_plan(heatup_run *run);

#endif
