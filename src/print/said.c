/* SPDX-License-Identifier: MIT */
/* What was assumed, guessed, fixed or left to a correlation: read off the origin of each value. */
#include "print/safe.h"
#include "print/notes.h"
#include "print/said.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const char *print_said_word(print_said said)
{
    static const char *const words[SAID_KINDS] = {"default", "guess", "fixed", "from_correlation", "setting"};
    return words[said];
}

/* Nothing that only describes lagging matters on a bare line. */
static bool is_idle(const fv_stop *stop, const fv_attr *attr)
{
    const fv_attr *lagging = fv_attr_find(stop->element, "lagging");
    if (!lagging || strncmp(attr->name, "lagging", 7) != 0 || attr == lagging)
        return false;
    const fv_value *thickness = (const fv_value *)(const void *)((const char *)stop->part + lagging->offset);
    return !(thickness->v > 0.0);
}

/* The part of a schema line after "not said: " or "default ", which says what applies. */
static const char *after(const char *doc, const char *mark)
{
    const char *found = doc ? strstr(doc, mark) : NULL;
    return found ? found + strlen(mark) : "";
}

static print_said_row *row_for(print_said_list *list, print_said said, const char *element, const fv_attr *attr,
                               double si)
{
    for (size_t i = 0; i < list->row_count; i++) {
        print_said_row *row = &list->rows[i];
        bool equal = row->si == si || (isnan(row->si) && isnan(si));
        if (row->said == said && equal && strcmp(row->element, element) == 0 &&
            strcmp(row->attr->name, attr->name) == 0)
            return row;
    }
    void *rows = list->rows;
    if (!fv_grow(&rows, &list->capacity, list->row_count + 1, sizeof(print_said_row)))
        return NULL;
    list->rows = rows;
    const char *reason = said == SAID_LEFT || isnan(si) ? after(attr->doc, "not said: ")
                         : said == SAID_DEFAULT         ? after(attr->doc, "default ")
                                                        : "";
    print_said_row *row = &list->rows[list->row_count++];
    *row = (print_said_row){.said = said, .element = element, .attr = attr, .si = si, .reason = reason};
    return row;
}

/* The line, vessel or boiler that it belongs to; the joint of a tee. */
static const char *owner_of(const fv_stop *stop)
{
    const fv_attr *at = fv_attr_find(stop->element, "at");
    const char *id = stop->owner ? stop->owner->id : stop->part->id;
    if (!id && !stop->owner)
        id = at ? *fv_attr_text(stop->part, at) : stop->element->name;
    return id ? id : "";
}

static bool add(print_said_list *list, print_said said, const fv_stop *stop, const fv_attr *attr, double si)
{
    print_said_row *row = row_for(list, said, stop->element->name, attr, si);
    if (!row)
        return false;
    list->values[said]++;
    const print_names *owners = &row->owners;
    const char *owner = owner_of(stop);
    if (owners->count > 0 && strcmp(owners->list[owners->count - 1], owner) == 0)
        return true; /* a second fitting on the same line */
    return print_names_push(&row->owners, list->arena, owner);
}

static bool add_value(print_said_list *list, const fv_stop *stop, const fv_attr *attr, fv_value value)
{
    bool good = true, said_by_user = value.origin == FV_GIVEN || value.origin == FV_KIND || value.origin == FV_SETTING;
    if (value.origin == FV_ASSUMED)
        good = add(list, SAID_DEFAULT, stop, attr, value.v);
    if (value.origin == FV_UNSET && (attr->is & FV_COEFFICIENT))
        good = add(list, SAID_LEFT, stop, attr, NAN);
    if (good && value.origin == FV_SETTING)
        good = add(list, SAID_SETTING, stop, attr, value.v);
    if (good && said_by_user && value.known == FV_KNOWN_GUESS)
        good = add(list, SAID_GUESS, stop, attr, value.v);
    if (good && said_by_user && (attr->is & FV_COEFFICIENT))
        good = add(list, SAID_FIXED, stop, attr, value.v);
    return good;
}

/* Whether a load or a shell is there: nothing need be said of either. */
static bool is_there(const fv_stop *stop)
{
    const fv_load *load = (const fv_load *)stop->part;
    if (stop->element == fv_element_find("load"))
        return fv_is_set(load->mass) || fv_is_set(load->count) || fv_is_set(load->depth);
    return stop->element != fv_element_find("shell") || fv_is_set(((const fv_shell *)stop->part)->mass);
}

static bool look(void *context, const fv_stop *stop)
{
    print_said_list *list = context;
    if (stop->aside || !is_there(stop)) /* kinds are seen through their vessels */
        return true;
    for (size_t i = 0; i < stop->element->attr_count; i++) {
        const fv_attr *attr = &stop->element->attrs[i];
        const char *place = (const char *)stop->part + attr->offset;
        if (is_idle(stop, attr))
            continue;
        if (attr->dim != FV_DIM_TEXT && attr->dim != FV_DIM_ID) {
            if (!add_value(list, stop, attr, *(const fv_value *)(const void *)place))
                return false;
        } else if ((attr->is & FV_NAMED) && !*(const char *const *)(const void *)place) {
            if (!add(list, SAID_DEFAULT, stop, attr, NAN))
                return false;
        }
    }
    return true;
}

bool print_said_collect(const fv_plant *plant, print_said_list *list)
{
    *list = (print_said_list){.arena = fv_arena_new()};
    return list->arena && fv_plant_walk(plant, look, list);
}

void print_said_free(print_said_list *list)
{
    fv_arena_free(list->arena);
    free(list->rows);
    *list = (print_said_list){0};
}

void print_note_sources(const fv_plant *plant, print_notes *notes)
{
    print_said_list said;
    bool good = print_said_collect(plant, &said);
    if (good && said.values[SAID_GUESS] > 0)
        print_note_add(notes, "guesses", "Values marked as guesses: %zu. What follows from them is a guess, too.",
                       said.values[SAID_GUESS]);
    if (good && said.values[SAID_SETTING] > 0)
        print_note_add(notes, "settings", "Values changed on top of the file: %zu.", said.values[SAID_SETTING]);
    fv_text file = {0};
    print_shell_word(plant->file ? plant->file : "FILE", &file);
    notes->failed = notes->failed || file.failed;
    if (good && !file.failed)
        print_note_add(notes, "assumed",
                       "Documented defaults: %zu values; from correlations: %zu coefficients. `farvessel check %s` "
                       "lists them; each can be fixed in the file.",
                       said.values[SAID_DEFAULT], said.values[SAID_LEFT], file.text);
    fv_text_free(&file);
    notes->failed = notes->failed || !good;
    print_said_free(&said);
}
