/* SPDX-License-Identifier: MIT */
/* The states of a session. Each is a list of changes on the file as it was found, so that without changes the file
 * comes back byte for byte, and one can be taken back from the midst of the others. */
#include "desk/session.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { STATES_MOST = 1000, CHANGES_MOST = 500, VALUE_MOST = 200 };

static const fv_loc nowhere = {NULL, 0};

static fv_status no_memory(fv_faults *faults)
{
    return fv_error(faults, FV_ERR_SYSTEM, nowhere, "out of memory");
}

static fv_status refuse(fv_faults *faults, const char *why)
{
    return fv_error(faults, FV_ERR_INPUT, nowhere, "%s", why);
}

static char *copy_bytes(const char *bytes, size_t length)
{
    char *made = malloc(length + 1);
    if (made) {
        memcpy(made, bytes, length);
        made[length] = '\0';
    }
    return made;
}

bool desk_begin(fv_desk *desk, const char *bytes, size_t length, bool saved, fv_faults *faults)
{
    if (!fv_plantfile_can_edit(bytes, length, desk->name, faults))
        return false;
    desk->began = copy_bytes(bytes, length);
    desk->saved_length = saved ? length : 0;
    desk->saved = copy_bytes(bytes, desk->saved_length);
    desk->began_length = length;
    if (!desk->began || !desk->saved)
        no_memory(faults);
    else if (desk_answers_make(desk, desk_now(desk), &desk->at_first, faults) &&
             desk_answers_make(desk, desk_now(desk), &desk->at_now, faults)) {
        if (desk->options.units_of_plant) /* where nobody asked for others */
            desk->options.units = (fv_unit_system)fv_or(desk->at_now.plant->units, desk->options.units);
        return true;
    }
    desk_answers_free(&desk->at_first);
    free(desk->began);
    free(desk->saved);
    desk->began = desk->saved = NULL;
    return false;
}

static bool begin(fv_desk *desk, const char *bytes, size_t length, const char *name, fv_faults *faults)
{
    void *list = desk->states;
    desk->arena = fv_arena_new();
    desk->name = desk->arena ? fv_arena_copy(desk->arena, name ? name : "the plant") : NULL;
    if (!desk->name || !fv_grow(&list, &desk->capacity, 1, sizeof *desk->states)) {
        no_memory(faults);
        return false;
    }
    desk->states = list;
    desk->states[0] = (desk_state){NULL, 0};
    desk->count = 1;
    return !bytes || desk_begin(desk, bytes, length, true, faults);
}

fv_desk *fv_desk_new(const char *bytes, size_t length, const char *name, const fv_desk_options *options,
                     fv_faults *faults)
{
    if (!options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_desk *desk = calloc(1, sizeof *desk);
    if (!desk) {
        no_memory(faults);
        return NULL;
    }
    desk->options = *options;
    desk->version = 1;
    desk->wrong_answer = FV_NEW_QUESTIONS;
    if (begin(desk, bytes, length, name, faults))
        return desk;
    fv_desk_free(desk);
    return NULL;
}

void fv_desk_free(fv_desk *desk)
{
    if (!desk)
        return;
    desk_answers_free(&desk->at_first);
    desk_answers_free(&desk->at_now);
    desk_answers_free(&desk->before);
    free(desk->effects);
    fv_text_free(&desk->page);
    fv_text_free(&desk->said);
    free(desk->said_part);
    free(desk->said_attribute);
    free(desk->said_value);
    free(desk->states);
    free(desk->began);
    free(desk->saved);
    fv_arena_free(desk->arena);
    free(desk);
}

/* Answers for a state and makes it the present one; what could be done again is then forgotten, unless the state is one
 * of those. */
static fv_status enter(fv_desk *desk, const desk_state *state, size_t as, fv_faults *faults)
{
    desk_answers answers;
    void *list = desk->states;
    if (!fv_grow(&list, &desk->capacity, as + 1, sizeof *desk->states))
        return no_memory(faults);
    desk->states = list;
    if (!desk_answers_make(desk, state, &answers, faults))
        return FV_FAIL;
    if (as == STATES_MOST) { /* the oldest is forgotten */
        memmove(desk->states, desk->states + 1, (as - 1) * sizeof *desk->states);
        as--;
    }
    desk_answers_free(&desk->before);
    desk->before = desk->at_now;
    desk->at_now = answers;
    desk->states[as] = *state;
    desk->now = as;
    desk->version++;
    return FV_OK;
}

static fv_status enter_new(fv_desk *desk, const desk_state *state, fv_faults *faults)
{
    const fv_status status = enter(desk, state, desk->now + 1, faults);
    if (status == FV_OK)
        desk->count = desk->now + 1;
    return status;
}

/* All changes but the one at `without`, with room for one more. */
static bool copy_state(fv_desk *desk, size_t without, desk_state *copy)
{
    const desk_state *now = desk_now(desk);
    *copy = (desk_state){fv_arena_alloc(desk->arena, now->count + 1, sizeof *copy->changes), 0};
    for (size_t i = 0; copy->changes && i < now->count; i++)
        if (i != without)
            copy->changes[copy->count++] = now->changes[i];
    return copy->changes != NULL;
}

static bool writes(const desk_change *change, const char *part, const char *attribute)
{
    for (size_t i = 0; i < change->count; i++)
        if (change->edits[i].kind == FV_EDIT_SET && strcmp(change->edits[i].part, part) == 0 &&
            strcmp(change->edits[i].attribute, attribute) == 0)
            return true;
    return false;
}

size_t desk_writer(const desk_state *state, const char *part, const char *attribute)
{
    for (size_t i = state->count; i-- > 0;)
        if (writes(&state->changes[i], part, attribute))
            return i;
    return state->count;
}

/* Whether a value stands so in the file with the changes of a state. */
static bool stands(const fv_desk *desk, const desk_state *state, const fv_edit *edit)
{
    fv_text text = {0}, typed = {0};
    const bool written = desk_write(desk, state, &text, NULL);
    fv_source *source = written ? fv_source_new(text.text, text.length) : NULL;
    const bool is_there = source && fv_source_typed(source, edit->part, edit->attribute, &typed);
    const bool same =
        is_there ? edit->value && strcmp(edit->value, typed.text ? typed.text : "") == 0 : source && !edit->value;
    fv_source_free(source);
    fv_text_free(&typed);
    fv_text_free(&text);
    return same;
}

/* NULL, or the value without blanks around it, in the arena. False: out of memory, or longer than any value. */
static bool trim(fv_desk *desk, const char *value, const char **trimmed, fv_faults *faults)
{
    *trimmed = NULL;
    while (value && isspace((unsigned char)*value))
        value++;
    size_t length = value ? strlen(value) : 0;
    while (length > 0 && isspace((unsigned char)value[length - 1]))
        length--;
    if (length == 0)
        return true;
    if (length > VALUE_MOST) {
        refuse(faults, "too long for a value");
        return false;
    }
    *trimmed = fv_arena_printf(desk->arena, "%.*s", (int)length, value);
    if (!*trimmed)
        no_memory(faults);
    return *trimmed != NULL;
}

/* False: nobody may change that; said. */
static bool is_fair(const fv_desk *desk, const char *part, const char *attribute, fv_faults *faults)
{
    const fv_element *element;
    const void *found = fv_plant_find(desk->at_now.plant, part, &element);
    const fv_attr *attr = found ? fv_attr_find(element, attribute) : NULL;
    if (attr && strcmp(attribute, "id") != 0)
        return true;
    fv_error(faults, FV_ERR_INPUT, nowhere, found ? "%s has no '%s' that can be changed" : "nothing is called '%s'",
             fv_shorten(part, 80).text, fv_shorten(attribute, 40).text);
    return false;
}

fv_status fv_desk_set(fv_desk *desk, const char *part, const char *attribute, const char *value, fv_faults *faults)
{
    const char *typed;
    desk_state next;
    if (!desk || !part || !attribute)
        return fv_error_null(faults, __func__);
    if (desk_asks(desk))
        return refuse(faults, "there is no plant yet");
    if (!is_fair(desk, part, attribute, faults) || !trim(desk, value, &typed, faults))
        return FV_FAIL;
    const size_t count = desk_now(desk)->count, last = desk_writer(desk_now(desk), part, attribute);
    const size_t at = last < count && desk_is_value(&desk_now(desk)->changes[last]) ? last : count; /* it replaces */
    const fv_edit wanted = {.part = part, .attribute = attribute, .value = typed};
    if (stands(desk, desk_now(desk), &wanted))
        return FV_OK;
    if (!copy_state(desk, at, &next))
        return no_memory(faults);
    if (at < count && stands(desk, &next, &wanted))
        return enter_new(desk, &next, faults);
    fv_edit *edit = fv_arena_alloc(desk->arena, 1, sizeof *edit);
    const char *own_part = fv_arena_copy(desk->arena, part), *own = fv_arena_copy(desk->arena, attribute);
    if (!edit || !own_part || !own)
        return no_memory(faults);
    *edit = (fv_edit){.part = own_part, .attribute = own, .value = typed};
    const desk_change change = {.edits = edit, .count = 1};
    if (at == count)
        return desk_add_change(desk, &change, faults);
    if (!copy_state(desk, count, &next))
        return no_memory(faults);
    next.changes[at] = change;
    return enter_new(desk, &next, faults);
}

fv_status desk_add_change(fv_desk *desk, const desk_change *change, fv_faults *faults)
{
    desk_state next;
    const size_t count = desk_now(desk)->count;
    if (count == CHANGES_MOST)
        return refuse(faults, "no more changes; save them first");
    if (!copy_state(desk, count, &next))
        return no_memory(faults);
    next.changes[next.count++] = *change;
    return enter_new(desk, &next, faults);
}

fv_status fv_desk_take_back(fv_desk *desk, size_t change, fv_faults *faults)
{
    desk_state next;
    if (!desk || change >= desk_now(desk)->count)
        return desk ? refuse(faults, "there is no such change") : FV_FAIL;
    return copy_state(desk, change, &next) ? enter_new(desk, &next, faults) : no_memory(faults);
}

fv_status fv_desk_undo(fv_desk *desk, fv_faults *faults)
{
    if (!desk || desk->now == 0)
        return desk ? refuse(faults, "there is nothing to undo") : FV_FAIL;
    return enter(desk, &desk->states[desk->now - 1], desk->now - 1, faults);
}

fv_status fv_desk_redo(fv_desk *desk, fv_faults *faults)
{
    if (!desk || desk->now + 1 >= desk->count)
        return desk ? refuse(faults, "there is nothing to do again") : FV_FAIL;
    return enter(desk, &desk->states[desk->now + 1], desk->now + 1, faults);
}

size_t fv_desk_change_count(const fv_desk *desk)
{
    return desk ? desk_now(desk)->count : 0;
}

const fv_edit *fv_desk_change(const fv_desk *desk, size_t i)
{
    return i < fv_desk_change_count(desk) ? desk_now(desk)->changes[i].edits : NULL;
}

const char *fv_desk_text(const fv_desk *desk, size_t *length)
{
    if (!desk)
        return NULL;
    if (length)
        *length = desk->at_now.text.length;
    return desk->at_now.text.text;
}

bool fv_desk_unsaved(const fv_desk *desk)
{
    return desk && !desk_asks(desk) &&
           (desk->saved_length != desk->at_now.text.length ||
            memcmp(desk->saved, desk->at_now.text.text, desk->saved_length) != 0);
}

fv_status fv_desk_save(fv_desk *desk, fv_faults *faults)
{
    if (!desk || !desk->options.keep || desk_asks(desk))
        return desk ? refuse(faults, "there is no file to save it in") : FV_FAIL;
    const fv_text *now = &desk->at_now.text;
    char *saved = copy_bytes(now->text, now->length);
    if (!saved)
        return no_memory(faults);
    if (desk->options.keep(desk->options.context, now->text, now->length, faults) == FV_FAIL) {
        free(saved);
        return FV_FAIL;
    }
    free(desk->saved);
    desk->saved = saved;
    desk->saved_length = now->length;
    desk->asked_version += desk->asked_version == desk->version; /* the plant is the same */
    desk->version++;
    return FV_OK;
}
