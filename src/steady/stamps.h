/* SPDX-License-Identifier: MIT */
/* Entries of the Jacobian in a fixed order, so that the k-th always stands in the same place. With rows and cols their
 * pattern is recorded, too. */
#ifndef STEADY_STAMPS_H
#define STEADY_STAMPS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct {
    double *values;
    int *rows, *cols; /* NULL: numbers only */
    size_t count, capacity;
    bool record;
    bool failed;
} steady_stamps;
void steady_stamp_grow(steady_stamps *stamps);
static inline void steady_stamp(steady_stamps *s, int row, int col, double value)
{
    if (s->record && s->count >= s->capacity)
        steady_stamp_grow(s);
    if (s->failed)
        return;
    if (s->record) {
        s->rows[s->count] = row;
        s->cols[s->count] = col;
    }
    s->values[s->count++] = value;
}

#endif
