/* SPDX-License-Identifier: MIT */
/* --do "WHEN: WHAT HOW": an action in one line. WHEN: an event, "bin1 core", perhaps "+ 15 min", or a time since the
 * start, "2 h". WHAT: the id of a valve, a boiler or a vessel. HOW: a share, or for a vessel shut, open or detach. */
#include "farvessel/plantfile.h"

#include "model/near.h"

#include <stdlib.h>
#include <string.h>

#define HOW                                                                                                            \
    "write when: what how, such as \"bin1 core: v1 25 %%\", \"bin1 core + 15 min: bin2 open\" or \"2 h: boiler 50 "    \
    "%%\""

typedef struct {
    fv_plant *plant;
    const fv_units *units;
    fv_faults *faults;
    const char *text; /* the whole, for messages */
} reading;

static bool refuse(const reading *r, const char *why)
{
    fv_error(r->faults, FV_ERR_INPUT, (fv_loc){"--do", 0}, "'%.120s': %s; " HOW, r->text, why);
    return false;
}

static bool no_memory(const reading *r)
{
    fv_error(r->faults, FV_ERR_SYSTEM, (fv_loc){"--do", 0}, "out of memory");
    return false;
}

/* `hint` says which name is near; "" if none is. */
static bool refuse_name(const reading *r, const char *what, const char *name, const char *hint)
{
    const fv_shortened shown = fv_shorten(name, 40);
    if (*hint)
        fv_error(r->faults, FV_ERR_INPUT, (fv_loc){"--do", 0}, "'%.120s': %s '%s'%s", r->text, what, shown.text, hint);
    else
        fv_error(r->faults, FV_ERR_INPUT, (fv_loc){"--do", 0}, "'%.120s': %s '%s'; " HOW, r->text, what, shown.text);
    return false;
}

/* Without the blanks around it; in the plant's arena. */
static char *trimmed(const reading *r, const char *from, size_t length)
{
    while (length > 0 && *from == ' ') {
        from++;
        length--;
    }
    while (length > 0 && from[length - 1] == ' ')
        length--;
    return fv_arena_printf(r->plant->arena, "%.*s", (int)length, from);
}

static bool read_value(const reading *r, fv_dim dim, const char *text, fv_value *value)
{
    char *why = NULL;
    double si;
    if (fv_quantity_parse(r->units, dim, text, &si, &why) == FV_FAIL) {
        refuse(r, why ? why : "no such quantity");
        free(why);
        return false;
    }
    *value = (fv_value){.v = si, .origin = FV_SETTING};
    return true;
}

static bool read_when(const reading *r, const char *when, fv_action *action)
{
    int index;
    const char *plus = strchr(when, '+');
    char *event = trimmed(r, when, plus ? (size_t)(plus - when) : strlen(when));
    if (!event)
        return no_memory(r);
    if (fv_plant_event(r->plant, event, &index) == FV_EVENT_NONE) {
        char hint[2 * MODEL_NEAR_LONGEST];
        if (plus || *model_near_event(r->plant, event, hint, sizeof hint))
            return refuse_name(r, "no event is called", event, model_near_event(r->plant, event, hint, sizeof hint));
        return read_value(r, FV_DIM_TIME, when, &action->at);
    }
    action->after = event;
    return !plus || read_value(r, FV_DIM_TIME, plus + 1, &action->delay);
}

static bool read_what(const reading *r, const char *what, fv_action *action)
{
    const fv_element *element = NULL;
    const size_t length = strcspn(what, " ");
    char *id = trimmed(r, what, length), *how = trimmed(r, what + length, strlen(what + length));
    if (!id || !how)
        return no_memory(r);
    if (!fv_plant_find(r->plant, id, &element)) {
        char hint[2 * MODEL_NEAR_LONGEST];
        model_near near = model_near_start(id);
        model_near_parts(&near, r->plant, NULL);
        return refuse_name(r, "nothing is called", id, model_near_hint(&near, hint, sizeof hint));
    }
    if (strcmp(element->name, "boiler") == 0) {
        action->boiler = id;
        return read_value(r, FV_DIM_FRACTION, how, &action->fire);
    }
    if (strcmp(element->name, "valve") == 0) {
        action->valve = id;
        return read_value(r, FV_DIM_FRACTION, how, &action->open);
    }
    const int act = fv_word_find("shut|open|detach", how);
    if (strcmp(element->name, "vessel") != 0 || act < 0)
        return refuse(r, "a valve or a boiler takes a share, a vessel shut, open or detach, other parts nothing");
    action->vessel = id;
    action->act = (fv_value){.v = act, .origin = FV_SETTING};
    return true;
}

static bool do_one(reading *r)
{
    const char *colon = strchr(r->text, ':');
    if (!colon)
        return refuse(r, "there is no colon");
    const char *when = trimmed(r, r->text, (size_t)(colon - r->text)), *what = trimmed(r, colon + 1, strlen(colon + 1));
    fv_action *action = when && what ? fv_plant_add_action(r->plant, (fv_loc){"--do", 0}) : NULL;
    if (!action)
        return no_memory(r);
    return read_when(r, when, action) && read_what(r, what, action);
}

fv_status fv_plantfile_do(fv_plant *plant, const char *const *texts, size_t count, fv_faults *faults)
{
    if (!plant || (count > 0 && !texts))
        return fv_error_null(faults, __func__);
    fv_units *units = fv_units_new(faults);
    bool good = units != NULL;
    for (size_t i = 0; i < count && units; i++) {
        reading r = {.plant = plant, .units = units, .faults = faults, .text = texts[i]};
        good = do_one(&r) && good;
    }
    fv_units_free(units);
    return good ? fv_plant_link(plant, faults) : FV_FAIL;
}
