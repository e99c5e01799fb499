/* SPDX-License-Identifier: MIT */
/* The name that was probably meant. */
#ifndef MODEL_NEAR_H
#define MODEL_NEAR_H

#include "farvessel/model.h"

enum { MODEL_NEAR_LONGEST = 48 }; /* longer names are not compared */

typedef struct {
    const char *wanted;
    const char *best; /* NULL: nothing is near */
    size_t distance;
} model_near;

model_near model_near_start(const char *wanted);
void model_near_try(model_near *near, const char *name); /* NULL: nothing */
void model_near_attributes(model_near *near, const fv_element *element);
/* Every id of the plant, or of those parts that are such an element. */
void model_near_parts(model_near *near, const fv_plant *plant, const fv_element *element);
/* "; did you mean 'x'?" or "": into buffer, which is returned. */
const char *model_near_hint(const model_near *near, char *buffer, size_t size);
/* The same for an event, "bin1 core": a vessel's or boiler's id and what happens there. */
const char *model_near_event(const fv_plant *plant, const char *event, char *buffer, size_t size);

#endif
