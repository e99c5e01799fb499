/* SPDX-License-Identifier: MIT */
#include "study/answer.h"

void *study_answer_new(size_t size, fv_loc loc, fv_arena **arena, fv_faults *faults)
{
    *arena = fv_arena_new();
    void *answer = *arena ? fv_arena_alloc(*arena, 1, size) : NULL;
    if (answer)
        return answer;
    fv_error(faults, FV_ERR_SYSTEM, loc, "out of memory");
    fv_arena_free(*arena);
    *arena = NULL;
    return NULL;
}

bool study_any_open(const fv_plant *plant, fv_faults *faults)
{
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (fv_word(plant->vessels[i]->phase) != FV_PHASE_SHUT)
            return true;
    fv_error(faults, FV_ERR_INPUT, plant->loc, "no vessel is open to the steam: phase=\"shut\" stands in all");
    return false;
}
