/* SPDX-License-Identifier: MIT */
#include "report/listed.h"

bool report_list_begin(size_t most, fv_choice_list *out)
{
    *out = (fv_choice_list){.arena = fv_arena_new()};
    if (out->arena)
        out->list = fv_arena_alloc(out->arena, most + 1, sizeof *out->list);
    return out->list != NULL;
}

void fv_choice_list_free(fv_choice_list *list)
{
    if (!list)
        return;
    fv_arena_free(list->arena);
    *list = (fv_choice_list){0};
}

bool report_list_add(fv_choice_list *to, fv_text *name, fv_choice choice)
{
    choice.name = name->failed || !name->text ? NULL : fv_arena_copy(to->arena, name->text);
    fv_text_free(name);
    to->list[to->count] = choice;
    to->count += choice.name != NULL;
    if (!choice.name)
        fv_choice_list_free(to);
    return choice.name != NULL;
}

bool report_list_as_it_is(fv_choice_list *to, const fv_plant *plant)
{
    fv_text name = {0};
    fv_text_add(&name, "as it is");
    return report_list_add(to, &name, (fv_choice){.plant = plant});
}

void report_list_pick_second(fv_choice_list *list)
{
    for (size_t i = 0; i < list->count; i++)
        list->list[i].pick = list->count > 1;
}

bool fv_report_heat_choices(const fv_plant *plant, fv_choice_list *out)
{
    return plant && out && report_list_begin(1, out) && report_list_as_it_is(out, plant);
}
