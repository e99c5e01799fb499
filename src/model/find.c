/* SPDX-License-Identifier: MIT */
/* Finding a part by a path: "s1", "bin1.load", "bin1.wall2.layer1", "site". */
#include "model/contains.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_PATH = 256 };

typedef struct {
    const char *id;
    size_t length;
    fv_part *part;
} search;

static bool is_word(const char *child, size_t length, const char *word)
{
    return strlen(word) == length && memcmp(child, word, length) == 0;
}

static bool match_id(void *context, const fv_stop *stop)
{
    search *s = context;
    if (stop->part->id && is_word(s->id, s->length, stop->part->id))
        s->part = stop->part;
    return !s->part;
}

/* Splits "wall2" into its name's length and its number; without a number it is the first. 0: no good number. */
static size_t number_of(const char *child, size_t length, size_t *name_length)
{
    size_t n = length;
    while (n > 0 && isdigit((unsigned char)child[n - 1]))
        n--;
    *name_length = n;
    return n == length ? 1 : (size_t)strtoul(child + n, NULL, 10);
}

/* "fitting2" counts whatever sits in the line, "barb2" the barbs. */
static fv_part *numbered(const model_slot *slot, const fv_part *owner, const char *name, size_t length, size_t number)
{
    for (size_t i = 0; number > 0 && i < model_slot_count(slot, owner); i++) {
        fv_part *part = model_slot_part(slot, owner, i);
        bool counts = (slot->any && is_word(name, length, slot->any)) || is_word(name, length, part->element->name);
        if (counts && --number == 0)
            return part;
    }
    return NULL;
}

/* A child, or a child of what is always there: "bin1.hole2" is a hole of its coil. */
static fv_part *child_of(const fv_part *owner, const char *child, size_t length)
{
    size_t name;
    size_t number = number_of(child, length, &name);
    fv_part *found = NULL;
    for (const model_slot *s = model_slot_next(owner->element, NULL); s && !found;
         s = model_slot_next(owner->element, s))
        if (s->count != MODEL_ONCE)
            found = numbered(s, owner, child, name, number);
        else if (is_word(child, length, model_element(s->first)->name))
            found = model_slot_part(s, owner, 0);
        else
            found = child_of(model_slot_part(s, owner, 0), child, length);
    return found;
}

/* Ids may hold dots, so the whole is tried as an id before it is split at its last dot. */
static fv_part *find(const fv_plant *plant, const char *path, size_t length)
{
    search s = {.id = path, .length = length};
    fv_plant_walk(plant, match_id, &s);
    if (s.part)
        return s.part;
    if (is_word(path, length, "site")) {
        union {
            const fv_site *given;
            fv_site *site;
        } writable = {.given = &plant->site};
        return &writable.site->part;
    }
    size_t dot = length;
    while (dot > 0 && path[dot - 1] != '.')
        dot--;
    const fv_part *parent = dot < 2 ? NULL : find(plant, path, dot - 1);
    return parent ? child_of(parent, path + dot, length - dot) : NULL;
}

void *fv_plant_find(const fv_plant *plant, const char *path, const fv_element **element)
{
    if (!plant || !path || !element)
        return NULL;
    size_t length = strlen(path);
    fv_part *found = length > LONGEST_PATH ? NULL : find(plant, path, length);
    *element = found ? found->element : NULL;
    return found;
}
