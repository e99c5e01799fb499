/* SPDX-License-Identifier: MIT */
#include "study/sweep/inputs.h"

#include "num/sample.h"

#include <stdint.h>
#include <stdlib.h>

size_t fv_sweep_rows(const fv_sweep_axis *axes, size_t axis_count, const fv_sweep_options *options)
{
    if (!axes || !options)
        return 0;
    size_t rows = 1;
    if (options->draws > 0)
        return options->draws <= FV_SWEEP_DRAWS_MOST ? options->draws : SIZE_MAX;
    for (size_t i = 0; i < axis_count; i++) {
        if (axes[i].count > FV_SWEEP_ROWS_MOST / rows)
            return SIZE_MAX;
        rows *= axes[i].count;
    }
    return rows;
}

void fv_sweep_part(size_t rows, const fv_sweep_options *options, size_t *first, size_t *end)
{
    if (!options || !first || !end)
        return;
    *first = rows * (options->part - 1) / options->parts;
    *end = rows * options->part / options->parts;
}

fv_status sweep_inputs_open(sweep_inputs *inputs, const fv_sweep_axis *axes, size_t axis_count,
                            const fv_sweep_options *options)
{
    *inputs = (sweep_inputs){.axes = axes, .axis_count = axis_count};
    if (options->draws == 0)
        return FV_OK;
    inputs->drawn = calloc(options->draws * axis_count, sizeof(double));
    if (!inputs->drawn)
        return FV_FAIL;
    return num_sample_even(options->draws, axis_count, 1, options->seed, inputs->drawn);
}

void sweep_inputs_close(sweep_inputs *inputs)
{
    free(inputs->drawn);
}

static double drawn_value(const fv_sweep_axis *axis, double u)
{
    if (axis->range)
        return axis->values[0] + (axis->values[axis->count - 1] - axis->values[0]) * u;
    const size_t pick = (size_t)(u * (double)axis->count);
    return axis->values[pick < axis->count ? pick : axis->count - 1];
}

void sweep_inputs_of(const sweep_inputs *inputs, size_t row, double *values)
{
    for (size_t i = inputs->axis_count; i-- > 0;) {
        const fv_sweep_axis *axis = &inputs->axes[i];
        if (inputs->drawn) {
            values[i] = drawn_value(axis, inputs->drawn[row * inputs->axis_count + i]);
        } else {
            values[i] = axis->values[row % axis->count];
            row /= axis->count;
        }
    }
}
