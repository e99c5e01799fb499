/* SPDX-License-Identifier: MIT */
/* Vessels that are alike and vessels that are not; which of them go together. */
#ifndef STUDY_WEEK_KINDS_H
#define STUDY_WEEK_KINDS_H

#include "farvessel/week.h"

/* A problem without kinds has one. */
size_t week_kind_count(const fv_week_problem *problem);
fv_week_kind week_kind(const fv_week_problem *problem, size_t kind);
size_t week_batch_of(const fv_week_problem *problem, size_t batch, size_t kind);

/* All that could be on the steam together by the places of each kind, the fewest first, into of[1] on; of may be NULL,
 * else it has room for what is returned. Where these are more than WEEK_BATCHES_FOLLOWED, only those in which each kind
 * is there whole or not at all; and of these, where they are still more, those of one, two, all and all but one kind.
 */
enum { WEEK_BATCHES_FOLLOWED = 48 };
size_t week_compose(const fv_week_problem *problem, size_t (*of)[FV_WEEK_KINDS_MOST], bool *chosen);

#endif
