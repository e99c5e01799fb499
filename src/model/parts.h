/* SPDX-License-Identifier: MIT */
/* Naming parts, finding them by name, and lists in the arena. */
#ifndef MODEL_PARTS_H
#define MODEL_PARTS_H

#include "model/schema.h"

#include <math.h>

/* Lists in the arena are arrays of pointers, all of one size. Gives the list with room for one more, moved if need be;
 * NULL: out of memory. */
void *model_room(fv_arena *arena, void *list, size_t count);

/* "hose 's6'", "wall 2 of vessel 'bin1'": for messages; into buffer, which is returned. */
const char *model_name(const fv_stop *stop, char *buffer, size_t size);

/* All named parts, sorted by id for searching. */
typedef struct {
    const char *id;
    const fv_element *element;
    fv_part *part;
    size_t order;      /* on the walk */
    int index;         /* in the plant's list, if it is there */
    bool settled;      /* what it is like has been taken over */
    unsigned reported; /* what is missing in it and has been said */
} model_named;
typedef struct {
    model_named *list;
    size_t count;
} model_names;
bool model_names_make(const fv_plant *plant, model_names *names); /* false: out of memory */
void model_names_free(model_names *names);
/* The first of that name on the walk; others of the same name follow it in the list. NULL: none. */
const model_named *model_names_find(const model_names *names, const char *id);

#endif
