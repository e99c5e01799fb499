/* SPDX-License-Identifier: MIT */
/* What can be written over: all that the file says in numbers and words, how far valves and fires are open, and bore
 * and length of every line, also where it has them from another. */
#include "desk/session.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const fv_desk *desk;
    const fv_source *source;
    desk_fields *out;
    const char *wall; /* path of the last wall, in which layers stand */
} walk;

const char *desk_typed(const fv_source *source, const char *part, const char *attribute, fv_arena *arena)
{
    fv_text typed = {0};
    const bool stands = fv_source_typed(source, part, attribute, &typed);
    const char *copy = stands ? fv_arena_copy(arena, typed.text ? typed.text : "") : NULL;
    fv_text_free(&typed);
    return copy;
}

static bool is(const fv_stop *stop, const char *element)
{
    return strcmp(stop->element->name, element) == 0;
}

/* As for --set; NULL: it cannot be named, or memory is out. */
static const char *path_of(walk *w, const fv_stop *stop)
{
    const fv_element *element;
    const char *path = stop->part->id, *name = stop->element->name;
    const char *owner = stop->owner ? stop->owner->id : NULL;
    if (is(stop, "site"))
        path = "site";
    else if (!path && is(stop, "layer") && w->wall)
        path = fv_arena_printf(w->out->arena, "%s.%s%zu", w->wall, name, stop->number);
    else if (!path && owner && stop->number == 0)
        path = fv_arena_printf(w->out->arena, "%s.%s", owner, name);
    else if (!path && owner)
        path = fv_arena_printf(w->out->arena, "%s.%s%zu", owner, name, stop->number);
    if (!path || fv_plant_find(w->desk->at_now.plant, path, &element) == stop->part)
        return path;
    /* fittings and openings are counted together */
    static const char *const together[] = {"fitting", "opening"};
    for (size_t i = 0; owner && i < sizeof together / sizeof *together; i++) {
        path = fv_arena_printf(w->out->arena, "%s.%s%zu", owner, together[i], stop->number);
        if (path && fv_plant_find(w->desk->at_now.plant, path, &element) == stop->part)
            return path;
    }
    return NULL;
}

/* "hose s1", "coil of chest", "wall 2 of chest" */
static const char *group_of(walk *w, const fv_stop *stop)
{
    fv_text name = {0};
    const char *id = stop->part->id;
    fv_text_add(&name, "%s", stop->element->name);
    if (id && !is(stop, id))
        fv_text_add(&name, " %s", id);
    else if (!id && stop->number > 1)
        fv_text_add(&name, " %zu", stop->number);
    if (stop->owner && stop->owner->id && !id)
        fv_text_add(&name, " of %s", stop->owner->id);
    const char *copy = name.failed ? NULL : fv_arena_copy(w->out->arena, name.text);
    fv_text_free(&name);
    return copy;
}

static bool is_by_hand(const fv_stop *stop, const fv_attr *attr)
{
    return (is(stop, "valve") && strcmp(attr->name, "open") == 0) ||
           (is(stop, "boiler") && strcmp(attr->name, "fire") == 0);
}

static bool is_always_there(const fv_stop *stop, const fv_attr *attr)
{
    const bool line = is(stop, "hose") || is(stop, "pipe") || is(stop, "header");
    return is_by_hand(stop, attr) || (line && (strcmp(attr->name, "bore") == 0 || strcmp(attr->name, "length") == 0));
}

/* What counts where nothing is typed; NULL: nothing to tell. */
static const char *counting(walk *w, const fv_stop *stop, const fv_attr *attr)
{
    char text[96];
    if (attr->dim == FV_DIM_TEXT)
        return *fv_attr_text(stop->part, attr);
    const fv_value value = *fv_attr_value(stop->part, attr);
    if (!fv_is_set(value))
        return NULL;
    if (attr->dim == FV_DIM_FRACTION)
        snprintf(text, sizeof text, "%.3g %%", 100.0 * value.v);
    else if (attr->dim == FV_DIM_WORD)
        fv_word_at(attr->words, fv_word(value), text, sizeof text);
    else if (!fv_quantity_print(attr->dim, value.v, text, sizeof text))
        return NULL;
    return fv_arena_copy(w->out->arena, text);
}

static void add(walk *w, const fv_stop *stop, const fv_attr *attr, const char *path, const char *group)
{
    desk_fields *f = w->out;
    const char *typed = desk_typed(w->source, path, attr->name, f->arena);
    const desk_state *now = desk_now(w->desk);
    const bool changed = desk_writer(now, path, attr->name) < now->count;
    if (attr->dim == FV_DIM_ID || (!typed && !changed && !is_always_there(stop, attr)))
        return;
    void *list = f->fields;
    f->failed = f->failed || !fv_grow(&list, &f->capacity, f->count + 1, sizeof *f->fields);
    if (f->failed)
        return;
    f->fields = list;
    f->fields[f->count++] = (fv_page_field){.part = path,
                                            .attribute = attr->name,
                                            .group = group,
                                            .typed = typed ? typed : "",
                                            .counts = typed ? NULL : counting(w, stop, attr),
                                            .words = attr->dim == FV_DIM_WORD ? attr->words : NULL,
                                            .doc = attr->doc,
                                            .changed = changed,
                                            .by_hand = is_by_hand(stop, attr)};
}

static bool visit(void *context, const fv_stop *stop)
{
    walk *w = context;
    /* A list from a kind is changed there; but each hose's own valve is turned. */
    const bool shown = (!stop->taken || is(stop, "valve")) && !is(stop, "network");
    const char *path = shown ? path_of(w, stop) : NULL;
    if (is(stop, "wall"))
        w->wall = path;
    const char *group = path ? group_of(w, stop) : NULL;
    for (size_t i = 0; group && i < stop->element->attr_count; i++)
        if (!stop->taken || is_by_hand(stop, &stop->element->attrs[i]))
            add(w, stop, &stop->element->attrs[i], path, group);
    return !w->out->failed;
}

bool desk_fields_make(const fv_desk *desk, desk_fields *fields)
{
    *fields = (desk_fields){.arena = fv_arena_new()};
    fv_source *source = fv_source_new(desk->at_now.text.text, desk->at_now.text.length);
    walk w = {.desk = desk, .source = source, .out = fields};
    fields->failed = !source || !fields->arena || !fv_plant_walk(desk->at_now.plant, visit, &w);
    fv_source_free(source);
    return !fields->failed;
}

void desk_fields_free(desk_fields *fields)
{
    free(fields->fields);
    fv_arena_free(fields->arena);
    *fields = (desk_fields){.arena = NULL};
}
