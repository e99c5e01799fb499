/* SPDX-License-Identifier: MIT */
/* How near a plan stands to missing a vessel's time, in a grower's words and as JSON. */
#ifndef REPORT_SLIP_H
#define REPORT_SLIP_H

#include "farvessel/change.h"
#include "print/clock.h"
#include "print/json.h"

/* One or two sentences; nothing where nothing can slip. `quickest`: last core of an earlier plan that was passed over
 * for that; NaN. */
void report_slip(const fv_plant *plant, const print_clock *clock, const fv_slip *slip, double quickest, fv_text *out);
json_t *report_slip_json(const fv_plant *plant, const fv_slip *slip);

#endif
