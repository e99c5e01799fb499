/* SPDX-License-Identifier: MIT */
/* A run opened and closed. Private to this folder. */
#ifndef FARVESSEL_HEATUP_RUN_H
#define FARVESSEL_HEATUP_RUN_H

#include "heatup/state.h"

/* All but the steps. False: out of memory, or the plant has no answer; said in faults. */
bool heatup_run_open(heatup_run *run, const fv_plant *plant, const fv_heat_options *options);
void heatup_run_close(heatup_run *run);

#endif
