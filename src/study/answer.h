/* SPDX-License-Identifier: MIT */
/* An answer that stands in an arena of its own: what it holds is taken from there, and all of it is freed as one. */
#ifndef STUDY_ANSWER_H
#define STUDY_ANSWER_H

#include "farvessel/model.h"

/* Zeroes; NULL: out of memory, which is said of `loc`. */
void *study_answer_new(size_t size, fv_loc loc, fv_arena **arena, fv_faults *faults);

/* Whether there is anything to study; false: all vessels are shut, and said so. */
bool study_any_open(const fv_plant *plant, fv_faults *faults);

#endif
