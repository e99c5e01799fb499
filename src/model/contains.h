/* SPDX-License-Identifier: MIT */
/* Which part may hold which, once or as a list: the one table that building, copying, walking, finding, taking over
 * from kinds, reading, writing and the XSD follow. To add a part: a row there and its attributes in rows_*.h. */
#ifndef MODEL_CONTAINS_H
#define MODEL_CONTAINS_H

#include "model/schema.h"

#define MODEL_ONCE ((size_t)-1)

/* A place for parts inside an owner. Elements that share a list share a struct. */
typedef struct {
    model_place owner_first, owner_last; /* elements that have this place */
    model_place first, last;             /* elements that may stand there */
    size_t at;                           /* offset in the owner: of the part, or of the list of pointers to parts */
    size_t count;    /* offset in the owner of the list's count; MODEL_ONCE: one part, which is always there */
    size_t sort;     /* offset in the part of the enum that tells first from last; MODEL_ONCE: there is only one */
    unsigned bit;    /* in the owner's lists_from_kind; 0: the list cannot be taken over */
    const char *any; /* what a path calls any of them, "fitting2"; NULL: by the element alone */
} model_slot;

/* The place in `owner` that follows `previous` (NULL: the first); NULL: no more. */
const model_slot *model_slot_next(const fv_element *owner, const model_slot *previous);
/* The place for a child of that name in the file, and its element; NULL: there is none. */
const model_slot *model_slot_find(const fv_element *owner, const char *tag, const fv_element **element);

/* What stands in `owner` there. */
size_t model_slot_count(const model_slot *slot, const void *owner);
void *model_slot_part(const model_slot *slot, const void *owner, size_t index);
const fv_element *model_slot_element(const model_slot *slot, const void *part);

/* A plant is no part: it has no head with id and place. Its stock is an element without a struct of its own. */
static inline bool model_has_head(const fv_element *element)
{
    return element != model_element(EL_NETWORK) && element != model_element(EL_STOCK);
}

/* A fresh part with its defaults in a list of `owner`, or the one that is there; NULL: out of memory. */
void *model_add(fv_plant *plant, void *owner, const model_slot *slot, const fv_element *element, fv_loc loc);

/* The element's name in a file: "hose" of "stock/hose". */
const char *model_tag(const fv_element *element);

#endif
