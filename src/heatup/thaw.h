/* SPDX-License-Identifier: MIT */
/* From cells to modes: a piece that has thawed is linear from then on. */
#ifndef FARVESSEL_HEATUP_THAW_H
#define FARVESSEL_HEATUP_THAW_H

#include "heatup/frozen.h"
#include "heatup/modal.h"

/* Gives `modal`, made for the same piece, the temperatures of the cells. Mean and centre are kept to rounding. FV_FAIL:
 * out of memory. */
fv_status heatup_thaw(const heatup_frozen *frozen, heatup_modal *modal);

#endif
