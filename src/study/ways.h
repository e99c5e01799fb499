/* SPDX-License-Identifier: MIT */
/* Which lines lead from the boilers to which vessel. */
#ifndef STUDY_WAYS_H
#define STUDY_WAYS_H

#include "farvessel/model.h"

typedef enum {
    WAY_NONE,   /* leads to no vessel */
    WAY_SHARED, /* a header, or leads to more than one vessel */
    WAY_OWN     /* leads to one vessel only */
} study_way;

typedef struct {
    size_t line_count;
    bool *on;        /* vessel matrix: is the line on this vessel's way? Row by row: vessel * line_count + line */
    study_way *kind; /* by line */
} study_ways;

/* In `arena`. False: out of memory. */
bool study_ways_find(const fv_plant *plant, fv_arena *arena, study_ways *ways);

static inline bool study_on_way(const study_ways *ways, size_t vessel, size_t line)
{
    return ways->on[vessel * ways->line_count + line];
}

/* The first valve on a line that leads to this vessel alone: its line and its place there. False: it has none. */
bool study_own_valve(const fv_plant *plant, const study_ways *ways, size_t vessel, size_t *line, size_t *place);

#endif
