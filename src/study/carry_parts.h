/* SPDX-License-Identifier: MIT */
/* The pieces of `carry`: plants with more vessels or fewer, batches, staggers, limits, other ways. */
#ifndef STUDY_CARRY_PARTS_H
#define STUDY_CARRY_PARTS_H

#include "farvessel/carry.h"
#include "study/parallel.h"
#include "study/settings.h"

/* ---- carry_grow.c ---- */

/* Are `like` and `at` what they must be? FV_FAIL: said, with what is possible. */
fv_status carry_check(const fv_plant *plant, const fv_carry_options *options, fv_faults *faults);
/* Vessels on the steam: not shut by the file. */
size_t carry_count(const fv_plant *plant);
/* A copy with so many vessels more, or fewer, none of them with a start of its own. NULL: said in faults. */
fv_plant *carry_grow(const fv_plant *plant, const fv_carry_options *options, int added, fv_faults *faults);

/* Links a changed plant. What it says of the plant again, as cautions, is left out; errors are said. */
fv_status carry_link(fv_plant *plant, fv_faults *faults);

/* ---- carry_batch.c ---- */

/* Room for the arrays. False: out of memory. */
bool carry_room(fv_arena *arena, const fv_plant *plant, fv_carry_run *run);
typedef struct {
    enum { CARRY_TO_CORE, CARRY_TO_HOLD, CARRY_TO_END } follow; /* until all have reached it */
    double fineness;                                            /* as in fv_heat_options */
    double until;                                               /* s; NAN: as long as it takes */
    fv_heat_kit *kit;                                           /* NULL: it makes its own */
} carry_how;
/* Follows the plant with a change; `change` may be NULL. FV_FAIL: out of memory or stopped. */
fv_status carry_batch(const fv_plant *plant, const fv_change *change, const fv_carry_options *options,
                      const carry_how *how, const fv_progress *progress, fv_carry_run *run);
/* Is a better than b? Fewer starved, then the earlier end. */
bool carry_is_better(const fv_carry_run *a, const fv_carry_run *b);

/* ---- carry_stagger.c ---- */

/* Finds the stagger of every row; their `together` must be known. */
study_outcome carry_staggers(fv_carry_answer *answer, const study_plan *plan);

/* ---- carry_limit.c ---- */

/* What limits the batches and the holding of all rows. */
study_outcome carry_limits(fv_carry_answer *answer, const study_plan *plan);
fv_status carry_hold(const fv_plant *plant, fv_carry_holding *holding); /* FV_FAIL: out of memory only */

/* ---- carry_ways.c ---- */

study_outcome carry_ways(fv_carry_answer *answer, const study_plan *plan, fv_faults *faults);

#endif
