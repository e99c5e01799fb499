/* SPDX-License-Identifier: MIT */
/* The assumptions of a plant that can be changed, and changing one. */
#ifndef STUDY_ASSUMED_ROWS_H
#define STUDY_ASSUMED_ROWS_H

#include "farvessel/assumed.h"

/* A row for each other value of each default and guess; equal ones of several parts share it. False: out of memory. */
bool assumed_collect(const fv_plant *plant, fv_arena *arena, fv_assumed_row **rows, size_t *count);
/* Gives all parts that share the row's assumption its other value; false: there are none. To be linked then. */
bool assumed_change(fv_plant *plant, const fv_assumed_row *row);

#endif
