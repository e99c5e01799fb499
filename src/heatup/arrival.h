/* SPDX-License-Identifier: MIT */
/* Why a core does not arrive. Private to this folder. */
#ifndef FARVESSEL_HEATUP_ARRIVAL_H
#define FARVESSEL_HEATUP_ARRIVAL_H

#include "heatup/state.h"

fv_arrival heatup_why_not(const heatup_run *run, size_t vessel); /* what keeps it from its target */

#endif
