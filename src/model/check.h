/* SPDX-License-Identifier: MIT */
/* Checks of parts of a vessel, and of names of materials. */
#ifndef MODEL_CHECK_H
#define MODEL_CHECK_H

#include "model/link.h"

enum { MODEL_ID = 256 }; /* bytes of an id that "bin1 core" begins with */
/* Splits "bin1 core" into the id and the place of the word after it in `words`; -1: it is nothing like that. */
int model_split(const char *text, const char *words, char id[MODEL_ID]);
/* Whether a part of that sort has the id, or the place ("s2.fitting1"); says if not. Gives its index in the plant's
 * list, or for a part inside another 0; -1 where only its place names it, or there is none. */
bool model_check_named(const model_link *link, fv_loc loc, const char *who, model_place place, const char *id,
                       int *index);

/* Looks the name up (NULL: nothing to look up) and says if there is none or if it is no good for steam: as an error if
 * strict, else as a caution. */
const fv_material *model_material(const model_link *link, fv_loc loc, const char *who, const char *name, bool strict);
void model_check_coil(const model_link *link, const char *who, fv_coil *coil); /* sorts single holes by place */
void model_check_load(const model_link *link, const char *who, const fv_load *load);
bool model_has_load(const fv_load *load); /* anything was said of it, or taken over */
/* What is missing in a load, as a sentence about its vessel; NULL: nothing. */
typedef enum { MODEL_GAP_SIZE, MODEL_GAP_AMOUNT, MODEL_GAP_ROWS, MODEL_GAP_STACK, MODEL_GAPS } model_load_gap_kind;
const char *model_load_gap(const fv_load *load, model_load_gap_kind kind);
/* Whether it goes into the vessel, as far as one can tell; gives the volume it takes. */
bool model_load_fits(const fv_vessel *vessel, double *takes);

#endif
