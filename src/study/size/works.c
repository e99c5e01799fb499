/* SPDX-License-Identifier: MIT */
/* Small work by itself, the best first, as long as it gains: it is neither hands nor a size, and where a bucket of
 * water under a drain does it, nothing has to be bought. */
#include "study/batch.h"
#include "study/outcome.h"
#include "study/size/parts.h"

#include <math.h>

static const double GAIN = 0.03; /* of the last core: less is not worth the trouble */
enum { WORKS_MOST = 3 };

/* Fewer late, or clearly earlier, and no worse for any lid. */
static bool gains(const study_outcome *o, const study_outcome *over)
{
    if (!o->ran || o->unsafe > over->unsafe || o->late > over->late)
        return false;
    return !over->ran || o->late < over->late || o->last < (1 - GAIN) * over->last;
}

/* Holes are sizes. */
static void leave_out_sizes(study_remedies *list)
{
    size_t kept = 0;
    for (size_t i = 0; i < list->count; i++)
        if (list->list[i].kind != FV_REMEDY_DRILL && list->list[i].kind != FV_REMEDY_BLANK_OTHERS)
            list->list[kept++] = list->list[i];
    list->count = kept;
}

/* The list's works beside those taken already; the best of them is taken. */
static study_ending take_one(size_question *q, const study_remedies *list, study_settings *taken,
                             const study_outcome **so_far, bool *found)
{
    fv_size_answer *a = q->answer;
    study_batch batch;
    bool good = study_batch_open(&batch, list->count + 1);
    for (size_t i = 0; i < batch.count; i++) {
        study_change_add(&batch.settings[i], &taken->change);
        if (i > 0 && !study_changes_meet(&taken->change, &list->list[i - 1].change))
            study_change_add(&batch.settings[i], &list->list[i - 1].change);
    }
    const study_ending ending =
        good ? study_batch_evaluate(q->adviser.evaluator, &batch, false, STUDY_ROUGH) : STUDY_FAILED;
    size_t best = 0;
    *so_far = ending == STUDY_DONE ? batch.outcomes[0] : NULL;
    for (size_t i = 1; i < batch.count && ending == STUDY_DONE; i++)
        if (gains(batch.outcomes[i], *so_far) && (best == 0 || batch.outcomes[i]->late < batch.outcomes[best]->late ||
                                                  (batch.outcomes[i]->late == batch.outcomes[best]->late &&
                                                   batch.outcomes[i]->last < batch.outcomes[best]->last)))
            best = i;
    *found = best > 0;
    if (*found) {
        a->works[a->work_count++] = &list->list[best - 1];
        study_change_add(taken, &list->list[best - 1].change);
    }
    study_batch_close(&batch);
    return taken->failed ? STUDY_FAILED : ending;
}

study_ending size_find_works(size_question *q)
{
    fv_size_answer *a = q->answer;
    const study_ask ask = {.follow = true, .fineness = 1, .until = INFINITY};
    const study_outcome *now, *so_far;
    study_settings taken = {.arena = a->arena};
    study_remedies list;
    study_ending ending = study_evaluate(q->adviser.evaluator, &ask, 1, &now);
    if (ending != STUDY_DONE)
        return ending;
    bool found = now->ran;
    if (found && !study_works_list(a->arena, a->plant, (int)study_last_vessel(now, a->plant->vessel_count), &list))
        return STUDY_FAILED;
    if (found)
        leave_out_sizes(&list);
    while (found && a->work_count < WORKS_MOST && list.count > 0 && ending == STUDY_DONE)
        ending = take_one(q, &list, &taken, &so_far, &found);
    return ending == STUDY_DONE && a->work_count > 0 && !size_add_works(a) ? STUDY_FAILED : ending;
}
