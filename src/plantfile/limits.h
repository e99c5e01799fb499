/* SPDX-License-Identifier: MIT */
/* How much of everything a file may hold. */
#ifndef PLANTFILE_LIMITS_H
#define PLANTFILE_LIMITS_H

#include "farvessel/plantfile.h"

enum { PLANTFILE_LIMITS = 16 }; /* at least as many as there are */

/* Parts met so far, by limit. */
typedef struct {
    size_t of[PLANTFILE_LIMITS];
} plantfile_counts;

/* Counts an element by its name in the schema. NULL: within the limits; else what there is too much of, and *most. */
const char *plantfile_count(const fv_plantfile_limits *limits, plantfile_counts *counts, const char *element,
                            size_t *most);

#endif
