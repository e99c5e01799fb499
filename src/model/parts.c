/* SPDX-License-Identifier: MIT */
/* Walking over a plant and naming what is met. */
#include "model/contains.h"
#include "model/parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    fv_visit *visit;
    void *context;
} walker;

/* Visits what stands inside `around`; `owner` is what those inside see as theirs. */
static bool walk_inside(const walker *w, const fv_stop *around, const void *part, const fv_part *owner)
{
    bool go = true;
    const fv_element *element = around->element;
    for (const model_slot *s = model_slot_next(element, NULL); s && go; s = model_slot_next(element, s)) {
        const bool taken = s->bit && (((const fv_part *)part)->lists_from_kind & s->bit);
        for (size_t i = 0; i < model_slot_count(s, part) && go; i++) {
            void *child = model_slot_part(s, part, i);
            fv_stop stop = {.element = model_slot_element(s, child), .part = child, .owner = owner};
            stop.number = owner && s->count != MODEL_ONCE ? i + 1 : 0;
            stop.index = owner ? 0 : (int)i;
            stop.taken = around->taken || taken;
            stop.aside = around->aside || stop.element->is_aside;
            if (!model_has_head(stop.element))
                go = walk_inside(w, &stop, child, NULL);
            else
                go = w->visit(w->context, &stop) &&
                     walk_inside(w, &stop, child, stop.part->id || !owner ? stop.part : owner);
        }
    }
    return go;
}

bool fv_plant_walk(const fv_plant *plant, fv_visit *visit, void *context)
{
    if (!visit)
        return false;
    return walk_inside(&(walker){visit, context}, &(fv_stop){.element = model_element(EL_NETWORK)}, plant, NULL);
}

const char *model_name(const fv_stop *stop, char *buffer, size_t size)
{
    const char *what = stop->element->name;
    if (stop->part->id)
        snprintf(buffer, size, "%s '%s'", what, stop->part->id);
    else if (!stop->owner)
        snprintf(buffer, size, "%s", what);
    else if (!stop->owner->id)
        snprintf(buffer, size, "%s %zu", what, stop->number);
    else if (stop->number)
        snprintf(buffer, size, "%s %zu of %s '%s'", what, stop->number, stop->owner->element->name, stop->owner->id);
    else
        snprintf(buffer, size, "%s of %s '%s'", what, stop->owner->element->name, stop->owner->id);
    return buffer;
}

typedef struct {
    model_names *names;
    size_t capacity;
} collector;

static bool collect(void *context, const fv_stop *stop)
{
    collector *c = context;
    if (!stop->part->id)
        return true;
    void *list = c->names->list;
    if (!fv_grow(&list, &c->capacity, c->names->count + 1, sizeof(model_named)))
        return false;
    c->names->list = list;
    c->names->list[c->names->count] = (model_named){.id = stop->part->id,
                                                    .element = stop->element,
                                                    .part = stop->part,
                                                    .order = c->names->count,
                                                    .index = stop->index};
    c->names->count++;
    return true;
}

static int by_name(const void *a, const void *b)
{
    const model_named *x = a, *y = b;
    int order = strcmp(x->id, y->id);
    return order ? order : (x->order > y->order) - (x->order < y->order);
}

bool model_names_make(const fv_plant *plant, model_names *names)
{
    *names = (model_names){0};
    collector c = {.names = names};
    if (!fv_plant_walk(plant, collect, &c)) {
        model_names_free(names);
        return false;
    }
    if (names->count)
        qsort(names->list, names->count, sizeof *names->list, by_name);
    return true;
}

void model_names_free(model_names *names)
{
    free(names->list);
    *names = (model_names){0};
}

const model_named *model_names_find(const model_names *names, const char *id)
{
    size_t low = 0, high = names->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(names->list[middle].id, id) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < names->count && strcmp(names->list[low].id, id) == 0 ? &names->list[low] : NULL;
}
