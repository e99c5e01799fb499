/* SPDX-License-Identifier: MIT */
/* The small work that treats the asked number, done for every other number, too: all together again. */
#include "study/carry/parts.h"
#include "study/evaluate.h"

#include <math.h>

typedef struct {
    fv_carry_answer *answer;
    study_caches *caches;
} following;

static const fv_carry_way *small_work(const fv_carry_answer *answer)
{
    for (size_t i = 0; i < answer->way_count; i++)
        if (answer->ways[i].other == FV_CARRY_SMALL_WORK && answer->ways[i].meets)
            return &answer->ways[i];
    return NULL;
}

/* The same work on another number of vessels: at all that have the fault, or at one. False: out of memory. */
static bool find_same(fv_arena *arena, const fv_why_remedy *work, fv_carry_row *row)
{
    study_remedies works;
    if (!study_works_list(arena, row->plant, row->together.latest_vessel, &works))
        return false;
    for (size_t i = 0; i < works.count && row->work.count == 0; i++)
        if (works.list[i].kind == work->kind && (works.list[i].part_count > 1) == (work->part_count > 1))
            row->work = works.list[i].change;
    return true;
}

static fv_status follow(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const following *f = context;
    fv_carry_row *row = &f->answer->rows[index];
    if ((int)index == f->answer->asked || row->work.count == 0)
        return FV_OK; /* known, or there is none */
    const carry_how how = {
        .follow = CARRY_TO_END, .fineness = 1, .until = NAN, .cache = study_cache(f->caches, worker)};
    const fv_status status = carry_batch(row->plant, &row->work, &f->answer->options, &how, progress, &row->worked);
    if (!row->worked.ran || study_lifts_lid(row->worked.chamber, study_lid_bears(row->together.chamber)))
        row->work.count = 0;
    return status;
}

study_ending carry_works(fv_carry_answer *answer, const study_work *plan)
{
    const fv_carry_way *way = small_work(answer);
    fv_carry_row *asked = &answer->rows[answer->asked];
    following f = {.answer = answer, .caches = plan->caches};
    bool good = true;
    if (!way)
        return STUDY_DONE;
    for (size_t i = 0; i < answer->row_count && good; i++)
        if ((int)i != answer->asked)
            good = find_same(answer->arena, way->work, &answer->rows[i]) &&
                   carry_room(answer->arena, answer->rows[i].plant, &answer->rows[i].worked);
    answer->work = way->work;
    asked->work = way->change;
    asked->worked = way->run;
    const study_ending ending = good ? study_run(plan, answer->row_count, follow, &f) : STUDY_FAILED;
    for (size_t i = 0; i < answer->row_count; i++) /* stopped: what was not followed is not told */
        if (!answer->rows[i].worked.ran)
            answer->rows[i].work.count = 0;
    return ending;
}
