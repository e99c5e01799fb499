/* SPDX-License-Identifier: MIT */
/* --set id.attribute=value */
#include "plantfile/setting.h"

#include "model/near.h"
#include "model/parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define HOW "write part.attribute=value, such as s1.bore=25 mm"

static void say_no_part(reading *r, const char *path)
{
    char id[MODEL_NEAR_LONGEST + 1], hint[2 * MODEL_NEAR_LONGEST];
    snprintf(id, sizeof id, "%.*s", (int)strcspn(path, "."), path);
    model_near near = model_near_start(id);
    model_near_try(&near, "site");
    model_near_parts(&near, r->plant, NULL);
    /* The part may be right and its child wrong: then the part is no help. */
    if (near.best && strcmp(near.best, id) == 0)
        near.best = NULL;
    plantfile_reading_say(r, 0, "nothing is called '%s'%s", fv_shorten(path, 80).text,
                          model_near_hint(&near, hint, sizeof hint));
}

fv_value *plantfile_set_attribute(reading *r, const char *path, const char *name, const char *text)
{
    char who[300], hint[2 * MODEL_NEAR_LONGEST];
    const fv_element *element;
    fv_part *part = fv_plant_find(r->plant, path, &element);
    if (!part) {
        say_no_part(r, path);
        return NULL;
    }
    const fv_attr *attr = fv_attr_find(element, name);
    if (!attr || strcmp(name, "id") == 0) {
        model_near near = model_near_start(name);
        model_near_attributes(&near, element);
        plantfile_reading_say(r, 0, "%s is a %s, which has no '%s' that can be set%s", fv_shorten(path, 80).text,
                              element->name, fv_shorten(name, 40).text,
                              attr ? "" : model_near_hint(&near, hint, sizeof hint));
        return NULL;
    }
    snprintf(who, sizeof who, "%s", fv_shorten(path, 80).text);
    if (!plantfile_attribute_read(r, who, attr, part, text, FV_SETTING, 0))
        return NULL;
    if (!model_is_text(attr))
        return fv_attr_value(part, attr);
    part->texts_from_kind &= ~(1u << (attr - element->attrs));
    return NULL;
}

bool plantfile_split_setting(reading *r, const char *setting, plantfile_setting *s)
{
    const char *equals = strchr(setting, '=');
    if (!equals) {
        plantfile_reading_say(r, 0, "'%s' has no '='; " HOW, fv_shorten(setting, 80).text);
        return false;
    }
    size_t n = (size_t)(equals - setting);
    while (n > 0 && setting[n - 1] == ' ')
        n--;
    s->path = strndup(setting, n);
    if (!s->path) {
        plantfile_reading_no_memory(r);
        return false;
    }
    char *dot = strrchr(s->path, '.');
    if (!dot || dot == s->path || dot[1] == '\0') {
        plantfile_reading_say(r, 0, "'%s' names no attribute; " HOW, fv_shorten(s->path, 80).text);
        free(s->path);
        return false;
    }
    *dot = '\0';
    s->attribute = dot + 1;
    s->text = equals + 1;
    return true;
}

static void set_one(reading *r, const char *setting)
{
    plantfile_setting s;
    if (!plantfile_split_setting(r, setting, &s))
        return;
    plantfile_set_attribute(r, s.path, s.attribute, s.text);
    free(s.path);
}

fv_status fv_plantfile_set(fv_plant *plant, const char *const *settings, size_t count, fv_faults *faults)
{
    if (!plant || (count > 0 && !settings))
        return fv_error_null(faults, __func__);
    fv_units *units = fv_units_new(faults);
    if (!units)
        return FV_FAIL;
    reading r = {.plant = plant, .units = units, .faults = faults, .file = "--set", .most = count + 1};
    for (size_t i = 0; i < count; i++)
        set_one(&r, settings[i]);
    fv_units_free(units);
    return r.said ? FV_FAIL : fv_plant_link(plant, faults);
}
