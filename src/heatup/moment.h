/* SPDX-License-Identifier: MIT */
/* Network and chambers agree over a step. Private to this folder. */
#ifndef FARVESSEL_HEATUP_MOMENT_H
#define FARVESSEL_HEATUP_MOMENT_H

#include "heatup/state.h"

/* FV_DOUBTFUL: not as well as wanted. */
fv_status heatup_moment(heatup_run *run, double dt);

#endif
