/* SPDX-License-Identifier: MIT */
/* Where the millibars go on the way to each vessel. */
#ifndef STUDY_PLACES_H
#define STUDY_PLACES_H

#include "farvessel/why.h"

/* Of the vessels marked in `asked`, in their order, in `arena`. False: out of memory. */
bool study_places_find(const fv_plant *plant, const fv_steady_result *state, const bool *asked, fv_arena *arena,
                       fv_why_place **places, size_t *count);

#endif
