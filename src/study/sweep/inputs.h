/* SPDX-License-Identifier: MIT */
/* Which values each row of a sweep gives its axes. */
#ifndef STUDY_SWEEP_INPUTS_H
#define STUDY_SWEEP_INPUTS_H

#include "farvessel/sweep.h"

typedef struct {
    const fv_sweep_axis *axes;
    size_t axis_count;
    double *drawn; /* draws x axes, even in the unit cube; NULL: the full grid */
} sweep_inputs;

/* FV_FAIL: out of memory. Close it in any case. */
fv_status sweep_inputs_open(sweep_inputs *inputs, const fv_sweep_axis *axes, size_t axis_count,
                            const fv_sweep_options *options);
void sweep_inputs_close(sweep_inputs *inputs);
/* Of one row, by axis. */
void sweep_inputs_of(const sweep_inputs *inputs, size_t row, double *values);

#endif
