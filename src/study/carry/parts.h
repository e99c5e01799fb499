/* SPDX-License-Identifier: MIT */
/* The pieces of `carry`: plants with more vessels or fewer, batches, staggers, limits, other ways. */
#ifndef STUDY_CARRY_PARTS_H
#define STUDY_CARRY_PARTS_H

#include "farvessel/carry.h"
#include "study/parallel.h"
#include "study/remedies.h"
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
bool carry_room(fv_arena *arena, const fv_plant *plant, fv_carry_batch *run);
typedef struct {
    enum { CARRY_TO_CORE, CARRY_TO_HOLD, CARRY_TO_END } follow; /* until all have reached it */
    double fineness;                                            /* as in fv_heat_options */
    double until;                                               /* s; NAN: as long as it takes */
    fv_heat_cache *cache;                                       /* NULL: it makes its own */
} carry_how;
/* Follows the plant with a change; `change` may be NULL. FV_FAIL: out of memory or stopped. */
fv_status carry_batch(const fv_plant *plant, const fv_change *change, const fv_carry_options *options,
                      const carry_how *how, const fv_progress *progress, fv_carry_batch *run);
/* Is a better than b? Fewer starved, then the earlier end. */
bool carry_is_better(const fv_carry_batch *a, const fv_carry_batch *b);

/* ---- hands.c ---- */

/* A handling by knob, in the answer's arena; NULL: none is known. */
typedef struct {
    int *point;
    size_t count;
} carry_found;
/* The stagger and the throttling of one row, whose `together` must be known. `before`: of the number before, and then
 * of this one. */
study_ending carry_hands(fv_carry_answer *answer, fv_carry_row *row, const study_work *work, carry_found *before);
/* The worst slip of each throttling that is told: of the number there is, the one asked about, what treats most. */
study_ending carry_slips(fv_carry_answer *answer, const study_work *work);

/* ---- carry_limit.c ---- */

/* What limits the batches of every row: a chain for each, whose staggers must be known when it begins. At the end,
 * carry_limits_settle says for all rows what was found. */
typedef struct carry_limits carry_limits;
enum { CARRY_LIMIT_STAGES = 2 };
carry_limits *carry_limits_new(fv_carry_answer *answer, study_caches *caches); /* NULL: out of memory */
size_t carry_limit_jobs(const carry_limits *limits, size_t row, size_t stage);
fv_status carry_limit_job(carry_limits *limits, const study_task *task);
void carry_limits_settle(carry_limits *limits);
fv_status carry_hold(const fv_plant *plant, fv_carry_holding *holding); /* FV_FAIL: out of memory only */

/* ---- carry_ways.c ---- */

study_ending carry_ways(fv_carry_answer *answer, const study_work *plan, fv_faults *faults);

/* ---- works.c ---- */

/* What the small work among the ways does for every number of vessels; nothing where there is none that does it. */
study_ending carry_works(fv_carry_answer *answer, const study_work *plan);

#endif
