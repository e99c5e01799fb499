/* SPDX-License-Identifier: MIT */
#include "steady/stamps.h"

#include <stdlib.h>

void steady_stamp_grow(steady_stamps *stamps)
{
    size_t want = stamps->capacity < 64 ? 64 : stamps->capacity * 2;
    double *values = realloc(stamps->values, want * sizeof *values);
    if (values)
        stamps->values = values;
    int *rows = realloc(stamps->rows, want * sizeof *rows);
    if (rows)
        stamps->rows = rows;
    int *cols = realloc(stamps->cols, want * sizeof *cols);
    if (cols)
        stamps->cols = cols;
    if (values && rows && cols)
        stamps->capacity = want;
    else
        stamps->failed = true;
}
