/* SPDX-License-Identifier: MIT */
/* Names of other parts that a part gives: they must be there. */
#include "model/check.h"
#include "model/near.h"

#include <stdio.h>
#include <string.h>

int model_split(const char *text, const char *words, char id[MODEL_ID])
{
    const char *space = text ? strrchr(text, ' ') : NULL;
    if (!space || space == text || space - text >= MODEL_ID)
        return -1;
    snprintf(id, MODEL_ID, "%.*s", (int)(space - text), text);
    return fv_word_find(words, space + 1);
}

/* A valve without a name of its own: "s2.fitting1". */
static bool is_child(const model_link *link, model_place place, const char *path)
{
    const fv_element *element;
    return strchr(path, '.') && fv_plant_find(link->plant, path, &element) && element == model_element(place);
}

bool model_check_named(const model_link *link, fv_loc loc, const char *who, model_place place, const char *id,
                       int *index)
{
    const model_named *named = model_names_find(&link->names, id);
    *index = named && named->element == model_element(place) ? named->index : -1;
    if (*index >= 0 || is_child(link, place, id))
        return true;
    model_near near = model_near_start(id);
    for (size_t i = 0; i < link->names.count && model_may_hint(link); i++)
        if (link->names.list[i].element == model_element(place))
            model_near_try(&near, link->names.list[i].id);
    char hint[MODEL_SAY];
    fv_error(link->faults, FV_ERR_INPUT, loc, "%s: no %s has the id '%s'%s", who, model_element(place)->name, id,
             model_near_hint(&near, hint, sizeof hint));
    return false;
}
