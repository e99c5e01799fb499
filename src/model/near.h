/* SPDX-License-Identifier: MIT */
/* The name that was probably meant. */
#ifndef MODEL_NEAR_H
#define MODEL_NEAR_H

#include <stdbool.h>
#include <stddef.h>

enum { MODEL_NEAR_LONGEST = 48 }; /* longer names are not compared */

typedef struct {
    const char *wanted;
    const char *best; /* NULL: nothing is near */
    size_t distance;
} model_near;

model_near model_near_start(const char *wanted);
void model_near_try(model_near *near, const char *name);
/* "; did you mean 'x'?" or "": into buffer, which is returned. */
const char *model_near_hint(const model_near *near, char *buffer, size_t size);

#endif
