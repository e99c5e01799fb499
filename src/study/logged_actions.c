/* SPDX-License-Identifier: MIT */
/* "14:10 v1 open 50 %": what somebody did, or may do, as an action of the plant. */
#include "study/match.h"

#include <stdio.h>
#include <string.h>

static fv_status refuse(const char *text, const char *option, const char *why, fv_faults *faults)
{
    return fv_error(
        faults, FV_ERR_INPUT, (fv_loc){option, 0},
        "\"%.80s\": %s; write a time, a part and what was done, such as \"14:10 v1 open 50 %%\", \"14:10 v1 shut\", "
        "\"14:10 boiler fire 60 %%\" or \"14:10 bench1 shut\"",
        text, why);
}

static bool read_share(const char *text, double *share)
{
    return fv_quantity_parse(NULL, FV_DIM_FRACTION, text, share, NULL) == FV_OK;
}

/* What is done to a part: its element decides. */
static bool set_action(const fv_element *element, const char *id, const char *verb, const char *value, fv_action *a)
{
    double share = strcmp(verb, "shut") == 0 ? 0 : 1;
    if (*value && !read_share(value, &share))
        return false;
    if (strcmp(element->name, "valve") == 0 && (strcmp(verb, "open") == 0 || strcmp(verb, "shut") == 0)) {
        a->valve = id;
        a->open = fv_given(share);
    } else if (strcmp(element->name, "boiler") == 0 && (strcmp(verb, "fire") == 0 || strcmp(verb, "shut") == 0)) {
        a->boiler = id;
        a->fire = fv_given(share);
    } else if (strcmp(element->name, "vessel") == 0 && !*value) {
        a->vessel = id;
        const int act = fv_word_find("shut|open|detach", verb);
        a->act = fv_given(act);
        return act >= 0;
    } else {
        return false;
    }
    return true;
}

/* A time may be one word or two ("2027-06-16 14:10", "2:10 pm"). */
static fv_status split_time(const fv_logfile *log, double near, const char *text, const char *option, double *time,
                            const char **rest)
{
    char head[64];
    for (int words = 2; words >= 1; words--) {
        const char *end = text;
        for (int w = 0; w < words; w++) {
            end += strspn(end, " ");
            end += strcspn(end, " ");
        }
        snprintf(head, sizeof head, "%.*s", (int)(end - text < 60 ? end - text : 60), text);
        if (fv_logfile_when(log, head, near, option, time, NULL) == FV_OK) {
            *rest = end + strspn(end, " ");
            return FV_OK;
        }
    }
    return FV_FAIL;
}

fv_status study_logged_action_add(fv_plant *plant, const fv_logfile *log, double lit, double near, const char *text,
                                  const char *option, fv_faults *faults)
{
    double time;
    const char *rest;
    char part[80], verb[16];
    int used = 0;
    if (split_time(log, near, text, option, &time, &rest) == FV_FAIL)
        return refuse(text, option, "it does not begin with a time of the log", faults);
    if (sscanf(rest, "%79s %15s %n", part, verb, &used) < 2)
        return refuse(text, option, "something is missing", faults);
    const fv_element *element;
    if (!fv_plant_find(plant, part, &element))
        return refuse(text, option, "nothing in the plant has that name", faults);
    fv_action *action = fv_plant_add_action(plant, (fv_loc){option, 0});
    const char *id = action ? fv_arena_copy(plant->arena, part) : NULL;
    if (!id)
        return fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    action->at = fv_given(time - lit > 0 ? time - lit : 0);
    if (!set_action(element, id, verb, rest + used, action))
        return refuse(text, option, "that cannot be done to this part", faults);
    return FV_OK;
}
