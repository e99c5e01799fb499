/* SPDX-License-Identifier: MIT */
/* Changes applied to a copy of a plant, and written as --set and --do take them. Values are SI, as in the model. */
#include "farvessel/change.h"

#include "farvessel/steady.h"
#include "study/settings.h"

#include <math.h>

/* The value that a setting means, NULL with the reason said where there is none. */
static fv_value *value_of(const fv_setting *setting, const fv_plant *plant, const fv_attr **attr, fv_faults *faults)
{
    const fv_element *element;
    fv_part *part = fv_plant_find(plant, setting->path, &element);
    if (!part) {
        fv_error(faults, FV_ERR_INPUT, plant->loc, "nothing is called '%s'", setting->path);
        return NULL;
    }
    *attr = fv_attr_find(element, setting->attribute);
    if (!*attr || (*attr)->dim == FV_DIM_TEXT || (*attr)->dim == FV_DIM_ID) {
        fv_error(faults, FV_ERR_INPUT, part->loc, "'%s' is a %s, which has no value called '%s'", setting->path,
                 element->name, setting->attribute);
        return NULL;
    }
    return fv_attr_value(part, *attr);
}

static fv_value set(double si)
{
    return (fv_value){.v = si, .origin = FV_SETTING};
}

/* False: out of memory. */
static bool add_action(const fv_change_action *action, fv_plant *plant)
{
    fv_action *a = fv_plant_add_action(plant, plant->loc);
    if (!a)
        return false;
    const char *const from[] = {action->after, action->boiler, action->valve, action->vessel};
    const char **const to[] = {&a->after, &a->boiler, &a->valve, &a->vessel};
    for (size_t i = 0; i < sizeof from / sizeof *from; i++)
        if (from[i] && !(*to[i] = fv_arena_copy(plant->arena, from[i])))
            return false;
    *(action->after ? &a->delay : &a->at) = set(action->at);
    *(action->boiler ? &a->fire : action->valve ? &a->open : &a->act) = set(action->value);
    return true;
}

static bool any_is_silent(const fv_plant *plant)
{
    bool any = false;
    for (size_t i = 0; i < plant->vessel_count; i++)
        any = any || fv_packing_is_silent(plant->vessels[i]);
    return any;
}

fv_status fv_change_apply(const fv_change *change, fv_plant *plant, fv_faults *faults)
{
    if (!change || !plant)
        return fv_error_null(faults, __func__);
    const bool said = !any_is_silent(plant);
    for (size_t i = 0; i < change->count; i++) {
        const fv_attr *attr;
        fv_value *value = value_of(&change->settings[i], plant, &attr, faults);
        if (!value)
            return FV_FAIL;
        *value = (fv_value){.v = change->settings[i].si, .origin = FV_SETTING, .known = value->known};
    }
    for (size_t i = 0; i < change->action_count; i++)
        if (!add_action(&change->actions[i], plant))
            return fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    const fv_status status = fv_plant_link(plant, faults);
    if (said && status != FV_FAIL)
        study_keep_packing(plant);
    return status;
}

fv_plant *fv_change_copy(const fv_change *change, const fv_plant *plant, fv_faults *faults)
{
    if (!change || !plant) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_plant *copy = fv_plant_copy(plant);
    if (!copy)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    else if (fv_change_apply(change, copy, faults) == FV_OK)
        return copy;
    fv_plant_free(copy);
    return NULL;
}

bool fv_setting_write(const fv_setting *setting, const fv_plant *plant, fv_text *out)
{
    if (!setting || !plant || !out)
        return false;
    const fv_attr *attr;
    char word[64];
    if (!value_of(setting, plant, &attr, NULL))
        return false;
    fv_text_add(out, "%s.%s=", setting->path, setting->attribute);
    if (attr->dim != FV_DIM_WORD)
        return fv_quantity_write(attr->dim, setting->si, out) && !out->failed;
    const char *text = isnan(setting->si) ? NULL : fv_word_at(attr->words, (int)setting->si, word, sizeof word);
    fv_text_add(out, "%s", text ? text : "");
    return text && !out->failed;
}

bool fv_change_action_write(const fv_change_action *action, fv_text *out)
{
    if (!action)
        return false;
    static const char *const acts[] = {"shut", "open", "detach"};
    bool good = true;
    if (action->after)
        fv_text_add(out, "%s%s", action->after, action->at > 0 ? " + " : "");
    if (!action->after || action->at > 0)
        good = fv_quantity_write(FV_DIM_TIME, action->at, out);
    fv_text_add(out, ": %s ", action->boiler ? action->boiler : action->valve ? action->valve : action->vessel);
    if (action->vessel)
        fv_text_add(out, "%s", acts[(int)action->value]);
    else
        good = fv_quantity_write(FV_DIM_FRACTION, action->value, out) && good;
    return good && !out->failed;
}
