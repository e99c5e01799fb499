/* SPDX-License-Identifier: MIT */
/* Heat that cold lines take, charged to the vessels they lead to. Private to this folder. */
#ifndef FARVESSEL_HEATUP_LINES_WARM_H
#define FARVESSEL_HEATUP_LINES_WARM_H

#include "heatup/state.h"

/* True: something was charged. */
bool heatup_charge_cold_lines(heatup_run *run);

#endif
