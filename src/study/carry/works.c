/* SPDX-License-Identifier: MIT */
/* What can be done once and without a shop, for the vessel that is latest and for all that have the same fault. */
#include "study/carry/parts.h"

bool carry_works(fv_arena *arena, const fv_carry_row *row, study_remedies *works)
{
    const int latest = row->together.latest_vessel;
    study_ways ways;
    bool *faster = fv_arena_alloc(arena, row->plant->vessel_count + 1, sizeof *faster);
    *works = (study_remedies){.plant = row->plant,
                              .ways = &ways,
                              .target = (size_t)(latest < 0 ? 0 : latest),
                              .faster = faster,
                              .arena = arena};
    if (!faster || !study_ways_find(row->plant, arena, &ways) || !study_remedies_list(works))
        return false;
    size_t kept = 0;
    for (size_t i = 0; i < works->count; i++)
        if (works->list[i].effort != FV_EFFORT_BUY && study_remedy_is_move(works->list[i].kind))
            works->list[kept++] = works->list[i];
    works->count = kept;
    works->ways = NULL; /* of this function */
    return true;
}
