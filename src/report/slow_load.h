/* SPDX-License-Identifier: MIT */
/* A load that no steam brings there in time. */
#ifndef REPORT_SLOW_LOAD_H
#define REPORT_SLOW_LOAD_H

#include "farvessel/model.h"

/* True where the core takes longer with ample steam (s; NaN: not known) than its vessel allows. */
static inline bool report_is_slow_load(const fv_vessel *vessel, double ample)
{
    return ample > vessel->within.v;
}

/* "more than the 10 h allowed: only smaller pieces, looser packing or more time mend that" */
void report_slow_load(const fv_vessel *vessel, fv_text *out);

#endif
