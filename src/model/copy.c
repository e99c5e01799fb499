/* SPDX-License-Identifier: MIT */
/* A deep copy of a plant, so that a study can change one without touching the other. */
#include "model/contains.h"

#include <string.h>

typedef struct {
    const fv_plant *from;
    fv_plant *to;
    bool failed; /* out of memory */
} copier;

static const char *copy_text(copier *c, const char *text)
{
    if (!text)
        return NULL;
    if (text == c->from->file)
        return c->to->file; /* nearly every location names it: once is enough */
    char *copy = fv_arena_copy(c->to->arena, text);
    c->failed = c->failed || !copy;
    return copy;
}

/* Texts in the schema, the head and its location; numbers have come over with the struct. */
static void copy_texts(copier *c, const fv_element *element, void *part)
{
    if (model_has_head(element)) {
        fv_part *head = part;
        head->loc.file = copy_text(c, head->loc.file);
        if (!fv_attr_find(element, "id"))
            head->id = copy_text(c, head->id);
        if (!fv_attr_find(element, "like"))
            head->like = copy_text(c, head->like);
    }
    for (size_t i = 0; i < element->attr_count; i++)
        if (model_is_text(&element->attrs[i])) {
            const char **text = fv_attr_text(part, &element->attrs[i]);
            *text = copy_text(c, *text);
        }
}

/* An empty list for `count` parts, with the room that model_room expects. */
static void *new_list(copier *c, size_t count)
{
    size_t room = 4;
    while (room < count)
        room *= 2;
    void *list = count ? fv_arena_alloc(c->to->arena, room, sizeof(void *)) : NULL;
    c->failed = c->failed || (count && !list);
    return list;
}

static void own(copier *c, const fv_element *element, void *part);

static void *copy_part(copier *c, const fv_element *element, const void *part)
{
    void *copy = c->failed ? NULL : fv_arena_alloc(c->to->arena, 1, element->size);
    if (!copy) {
        c->failed = true;
        return NULL;
    }
    memcpy(copy, part, element->size);
    own(c, element, copy);
    return copy;
}

static void copy_list(copier *c, const model_slot *slot, void *owner)
{
    const size_t count = model_slot_count(slot, owner);
    char *list = new_list(c, count);
    for (size_t i = 0; i < count && !c->failed; i++) {
        const void *part = model_slot_part(slot, owner, i);
        void *copy = copy_part(c, model_slot_element(slot, part), part);
        memcpy(list + i * sizeof copy, &copy, sizeof copy);
    }
    memcpy((char *)owner + slot->at, &list, sizeof list);
}

/* What a struct that was just copied still shares with the other becomes its own. */
static void own(copier *c, const fv_element *element, void *part)
{
    copy_texts(c, element, part);
    for (const model_slot *s = model_slot_next(element, NULL); s && !c->failed; s = model_slot_next(element, s))
        if (s->count == MODEL_ONCE)
            own(c, model_element(s->first), model_slot_part(s, part, 0));
        else
            copy_list(c, s, part);
}

fv_plant *fv_plant_copy(const fv_plant *plant)
{
    if (!plant)
        return NULL;
    fv_plant *copy = fv_plant_new(plant->file);
    if (!copy)
        return NULL;
    fv_arena *arena = copy->arena;
    const char *file = copy->file;
    *copy = *plant;
    copy->arena = arena;
    copy->file = file;
    copier c = {.from = plant, .to = copy};
    copy->loc.file = copy_text(&c, plant->loc.file);
    own(&c, model_element(EL_NETWORK), copy);
    copy->nodes = c.failed ? NULL : new_list(&c, plant->node_count);
    for (size_t i = 0; i < plant->node_count && !c.failed; i++)
        copy->nodes[i] = copy_text(&c, plant->nodes[i]);
    if (c.failed) {
        fv_plant_free(copy);
        return NULL;
    }
    return copy;
}
