/* SPDX-License-Identifier: MIT */
/* Actions and `start-after`: what they name must be there, and nothing may wait for itself. */
#include "model/check.h"
#include "model/near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char event_words[] = "full|core|hold|cool|detached|steam"; /* from FV_EVENT_FULL on */

/* FV_EVENT_NONE: it is nothing like that. */
static fv_event_kind parse_event(const char *text, char id[MODEL_ID])
{
    const int word = model_split(text, event_words, id);
    return word < 0 ? FV_EVENT_NONE : (fv_event_kind)((int)FV_EVENT_FULL + word);
}

/* "last core": of all vessels; no id of a vessel is hidden by it. */
static bool is_of_last(fv_event_kind event, const char *id)
{
    return event >= FV_EVENT_FULL && event <= FV_EVENT_COOL && strcmp(id, "last") == 0;
}

fv_event_kind fv_plant_event(const fv_plant *plant, const char *text, int *index)
{
    char id[MODEL_ID];
    if (!plant || !text || !index)
        return FV_EVENT_NONE;
    fv_event_kind event = parse_event(text, id);
    *index = -1;
    if (event != FV_EVENT_NONE)
        *index = event == FV_EVENT_STEAM ? fv_plant_boiler_index(plant, id) : fv_plant_vessel_index(plant, id);
    return *index < 0 && !is_of_last(event, id) ? FV_EVENT_NONE : event;
}

/* The same, by the sorted names. */
static fv_event_kind find_event(const model_link *link, const char *text, int *index)
{
    char id[MODEL_ID];
    fv_event_kind event = parse_event(text, id);
    const model_named *named = event == FV_EVENT_NONE ? NULL : model_names_find(&link->names, id);
    const bool good = named && named->element == model_element(event == FV_EVENT_STEAM ? EL_BOILER : EL_VESSEL);
    if (!good && !is_of_last(event, id))
        return FV_EVENT_NONE;
    *index = good ? named->index : -1;
    return event;
}

/* The word that was meant; "" if none is near. */
static void near_word(const char *wanted, char best[MODEL_ID])
{
    char tried[MODEL_ID];
    model_near near = model_near_start(wanted);
    best[0] = '\0';
    for (int i = 0; *fv_word_at(event_words, i, tried, sizeof tried) != '?'; i++) {
        model_near_try(&near, tried);
        if (near.best == tried)
            near.best = strcpy(best, tried);
    }
}

const char *model_near_event(const fv_plant *plant, const char *event, char *buffer, size_t size)
{
    char id[MODEL_ID], word[MODEL_ID];
    const char *space = strrchr(event, ' ');
    buffer[0] = '\0';
    if (!space || space == event || space - event >= MODEL_ID)
        return buffer;
    snprintf(id, sizeof id, "%.*s", (int)(space - event), event);
    near_word(space + 1, word);
    model_near near = model_near_start(id);
    const bool steam = strcmp(word, "steam") == 0;
    for (size_t i = 0; i < (steam ? plant->boiler_count : plant->vessel_count); i++)
        model_near_try(&near, steam ? plant->boilers[i]->part.id : plant->vessels[i]->part.id);
    if (*word && near.best)
        snprintf(buffer, size, "; did you mean '%.64s %s'?", near.best, word);
    return buffer;
}

static void say_event(const model_link *link, fv_loc loc, const char *who, const char *attribute, const char *text)
{
    char hint[MODEL_SAY] = "";
    if (model_may_hint(link))
        model_near_event(link->plant, text, hint, sizeof hint);
    fv_error(link->faults, FV_ERR_INPUT, loc, "%s: %s=\"%s\" names no event%s", who, attribute, text,
             *hint ? hint
                   : "; write a vessel's id and full, core, hold, cool or detached, or a boiler's id and steam, such "
                     "as \"bin1 core\"; or \"last core\", of all vessels");
}

static void check_touched(const model_link *link, const fv_action *action, model_place place, const char *id,
                          fv_value setting, const char *attribute)
{
    const char *what = model_element(place)->name;
    int index;
    if (id) {
        model_check_named(link, action->part.loc, "action", place, id, &index);
        if (!fv_is_set(setting))
            fv_error(link->faults, FV_ERR_INPUT, action->part.loc, "action: %s='%s' is named, but %s is missing", what,
                     id, attribute);
    } else if (fv_is_set(setting)) {
        fv_error(link->faults, FV_ERR_INPUT, action->part.loc, "action: %s is given, but no %s is named", attribute,
                 what);
    }
}

static void check_action(const model_link *link, const fv_action *action)
{
    int index;
    bool timed = fv_is_set(action->at);
    if (timed == (action->after != NULL))
        fv_error(link->faults, FV_ERR_INPUT, action->part.loc,
                 "action: %s; say either at=\"2 h\" or after=\"bin1 core\"",
                 timed ? "both at and after are given" : "neither at nor after is given");
    if (action->after && find_event(link, action->after, &index) == FV_EVENT_NONE)
        say_event(link, action->part.loc, "action", "after", action->after);
    if (!action->boiler && !action->valve && !action->vessel)
        fv_error(link->faults, FV_ERR_INPUT, action->part.loc,
                 "action: nothing is touched; name a boiler with fire, a valve with open, or a vessel with act");
    check_touched(link, action, EL_BOILER, action->boiler, action->fire, "fire");
    check_touched(link, action, EL_VALVE, action->valve, action->open, "open");
    check_touched(link, action, EL_VESSEL, action->vessel, action->act, "act");
}

/* Whom vessel i waits for: the last of all is itself at the latest; -1: nobody. */
static int waits_for(const model_link *link, size_t i)
{
    const fv_vessel *vessel = link->plant->vessels[i];
    int index;
    char who[MODEL_SAY];
    if (!vessel->start_after)
        return -1;
    fv_event_kind event = find_event(link, vessel->start_after, &index);
    if (event == FV_EVENT_NONE)
        say_event(link, vessel->part.loc, model_name_of(model_element(EL_VESSEL), vessel, who, sizeof who),
                  "start-after", vessel->start_after);
    return event == FV_EVENT_NONE || event == FV_EVENT_STEAM ? -1 : index < 0 ? (int)i : index;
}

/* Each vessel waits for one other at most: follow, and mark with the number of the walk. */
static bool check_waiting(const model_link *link)
{
    const fv_plant *plant = link->plant;
    size_t n = plant->vessel_count;
    int *next = malloc((n + 1) * sizeof *next);
    size_t *walk = calloc(n + 1, sizeof *walk);
    for (size_t i = 0; next && i < n; i++)
        next[i] = waits_for(link, i);
    for (size_t i = 0; next && walk && i < n; i++) {
        int v = (int)i;
        while (v >= 0 && !walk[v]) {
            walk[v] = i + 1;
            v = next[v];
        }
        if (v >= 0 && walk[v] == i + 1)
            fv_error(link->faults, FV_ERR_INPUT, plant->vessels[v]->part.loc,
                     "vessel '%s': start-after=\"%s\" comes round to the vessel itself; it would never start",
                     plant->vessels[v]->part.id ? plant->vessels[v]->part.id : "?", plant->vessels[v]->start_after);
    }
    bool good = next && walk;
    free(next);
    free(walk);
    return good;
}

bool model_check_actions(model_link *link)
{
    for (size_t i = 0; i < link->plant->action_count && !model_is_enough(link); i++)
        check_action(link, link->plant->actions[i]);
    return check_waiting(link);
}
