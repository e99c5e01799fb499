/* SPDX-License-Identifier: MIT */
/* Finding a part by a path ("s1", "bin1.load", "bin1.wall2.layer1", "site"), and setting one of its values. */
#include "model/parts.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_PATH = 256 };

typedef struct {
    fv_part *part;
    const fv_element *element;
    const fv_vessel *vessel; /* the vessel itself, also from its coil */
    const fv_line *line;
    const fv_wall *wall;
    const fv_site *site;
} found;

typedef struct {
    const char *id;
    size_t length;
    found result;
} search;

static found as_found(const fv_element *element, fv_part *part)
{
    found f = {.part = part, .element = element};
    if (element == model_element(EL_VESSEL) || element == model_element(EL_KIND))
        f.vessel = (const fv_vessel *)part;
    else if (model_is_line(element))
        f.line = (const fv_line *)part;
    else if (element == model_element(EL_WALL))
        f.wall = (const fv_wall *)part;
    else if (element == model_element(EL_SITE))
        f.site = (const fv_site *)part;
    return f;
}

static bool match_id(void *context, const model_stop *stop)
{
    search *s = context;
    if (!stop->part->id || strlen(stop->part->id) != s->length || memcmp(stop->part->id, s->id, s->length) != 0)
        return true;
    s->result = as_found(stop->element, stop->part);
    return false;
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

static bool is_word(const char *child, size_t length, const char *word)
{
    return strlen(word) == length && memcmp(child, word, length) == 0;
}

static found numbered_opening(const fv_vessel *vessel, const char *child, size_t length, size_t number)
{
    for (size_t i = 0; i < vessel->opening_count; i++) {
        fv_opening *opening = vessel->openings[i];
        const fv_element *element = model_opening_element(opening->kind);
        bool counts = is_word(child, length, "opening") || is_word(child, length, element->name);
        if (counts && --number == 0)
            return as_found(element, &opening->part);
    }
    return (found){0};
}

static found child_of_vessel(const fv_vessel *vessel, const char *child, size_t length)
{
    union {
        const fv_vessel *given;
        fv_vessel *vessel;
    } writable = {.given = vessel};
    fv_vessel *v = writable.vessel;
    size_t name;
    size_t number = number_of(child, length, &name);
    if (is_word(child, length, "coil"))
        return (found){.part = &v->coil.part, .element = model_element(EL_COIL), .vessel = vessel};
    if (is_word(child, length, "load"))
        return (found){.part = &v->load.part, .element = model_element(EL_LOAD)};
    if (is_word(child, length, "shell"))
        return (found){.part = &v->shell.part, .element = model_element(EL_SHELL)};
    if (number == 0)
        return (found){0};
    if (is_word(child, name, "wall") && number <= v->wall_count)
        return as_found(model_element(EL_WALL), &v->walls[number - 1]->part);
    if (is_word(child, name, "hole") && number <= v->coil.hole_count)
        return as_found(model_element(EL_HOLE), &v->coil.hole[number - 1]->part);
    return numbered_opening(v, child, name, number);
}

static found child_of_line(const fv_line *line, const char *child, size_t length)
{
    size_t name;
    size_t number = number_of(child, length, &name);
    for (size_t i = 0; i < line->fitting_count && number > 0; i++) {
        fv_fitting *fitting = line->fittings[i];
        const fv_element *element = model_fitting_element(fitting->kind);
        /* "fitting2" counts whatever sits in the line, "barb2" the barbs. */
        if ((is_word(child, name, "fitting") || is_word(child, name, element->name)) && --number == 0)
            return as_found(element, &fitting->part);
    }
    return (found){0};
}

static found child_of(const found *parent, const char *child, size_t length)
{
    size_t name;
    size_t number = number_of(child, length, &name);
    if (parent->vessel)
        return child_of_vessel(parent->vessel, child, length);
    if (parent->line)
        return child_of_line(parent->line, child, length);
    if (parent->wall && is_word(child, name, "layer") && number >= 1 && number <= parent->wall->layer_count)
        return as_found(model_element(EL_LAYER), &parent->wall->layers[number - 1]->part);
    if (parent->site && is_word(child, name, "weather") && number >= 1 && number <= parent->site->weather_count)
        return as_found(model_element(EL_WEATHER), &parent->site->weather[number - 1]->part);
    return (found){0};
}

/* Ids may hold dots, so the whole is tried as an id before it is split at its last dot. */
static found find(const fv_plant *plant, const char *path, size_t length)
{
    search s = {.id = path, .length = length};
    model_walk(plant, match_id, &s);
    if (s.result.part)
        return s.result;
    if (is_word(path, length, "site")) {
        union {
            const fv_site *given;
            fv_site *site;
        } writable = {.given = &plant->site};
        return as_found(model_element(EL_SITE), &writable.site->part);
    }
    size_t dot = length;
    while (dot > 0 && path[dot - 1] != '.')
        dot--;
    if (dot < 2)
        return (found){0};
    found parent = find(plant, path, dot - 1);
    return parent.part ? child_of(&parent, path + dot, length - dot) : parent;
}

void *fv_plant_find(const fv_plant *plant, const char *path, const fv_element **element)
{
    size_t length = strlen(path);
    found f = length > LONGEST_PATH ? (found){0} : find(plant, path, length);
    *element = f.element;
    return f.part;
}

fv_status fv_plant_set(fv_plant *plant, const char *path, const char *attribute, double si, fv_faults *faults)
{
    const fv_element *element;
    fv_part *part = fv_plant_find(plant, path, &element);
    if (!part) {
        fv_error(faults, FV_ERR_INPUT, plant->loc, "nothing is called '%s'", path);
        return FV_FAIL;
    }
    const fv_attr *attr = fv_attr_find(element, attribute);
    if (!attr || model_is_text(attr)) {
        fv_error(faults, FV_ERR_INPUT, part->loc, "'%s' is a %s, which has no value called '%s'", path, element->name,
                 attribute);
        return FV_FAIL;
    }
    fv_value *value = fv_attr_value(part, attr);
    *value = (fv_value){.v = si, .origin = FV_SETTING, .known = value->known};
    return fv_plant_link(plant, faults);
}
