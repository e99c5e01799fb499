/* SPDX-License-Identifier: MIT */
/* What each change does alone, against the file as it was found. A change that needs another one first has no effect
 * of its own. */
#include "desk/session.h"

#include <string.h>

static bool same_text(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static bool same_change(const desk_change *a, const desk_change *b)
{
    bool same = same_text(a->words, b->words) && a->count == b->count;
    for (size_t i = 0; same && i < a->count; i++)
        same = a->edits[i].kind == b->edits[i].kind && same_text(a->edits[i].part, b->edits[i].part) &&
               same_text(a->edits[i].attribute, b->edits[i].attribute) &&
               same_text(a->edits[i].value, b->edits[i].value);
    return same;
}

const char *desk_effect_of(const fv_desk *desk, const desk_change *change)
{
    for (size_t i = 0; i < desk->effect_count; i++)
        if (same_change(desk->effects[i].change, change))
            return desk->effects[i].words;
    return NULL;
}

static bool add(fv_desk *desk, const desk_change *change, const fv_heat_result *heat)
{
    fv_text words = {0};
    void *list = desk->effects;
    if (!heat)
        fv_text_add(&words, "works only with others");
    else if (!fv_page_difference(desk->at_first.heat, heat, &words))
        words.failed = true;
    const char *copy = words.failed ? NULL : fv_arena_copy(desk->arena, words.text);
    fv_text_free(&words);
    if (!copy || !fv_grow(&list, &desk->effect_capacity, desk->effect_count + 1, sizeof *desk->effects))
        return false;
    desk->effects = list;
    desk->effects[desk->effect_count++] = (desk_effect){change, copy};
    return true;
}

static bool work_out(fv_desk *desk, desk_change *change)
{
    const desk_state alone = {change, 1};
    desk_answers answers = {.plant = NULL};
    const bool is_now = desk_now(desk)->count == 1;
    const bool able = !is_now && desk_answers_make(desk, &alone, &answers, NULL);
    const bool good = add(desk, change, is_now ? desk->at_now.heat : able ? answers.heat : NULL);
    if (able)
        desk_answers_free(&answers);
    return good;
}

fv_status desk_effects(fv_desk *desk, bool all, fv_faults *faults)
{
    const desk_state *now = desk_now(desk);
    bool good = true;
    for (size_t i = 0, done = 0; good && i < now->count && (all || done == 0) && !desk->options.unanswered; i++)
        if (!desk_effect_of(desk, &now->changes[i])) {
            good = work_out(desk, &now->changes[i]);
            done++;
        }
    if (good)
        return FV_OK;
    return fv_error(faults, FV_ERR_SYSTEM, (fv_loc){NULL, 0}, "out of memory");
}
