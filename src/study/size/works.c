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

/* Earlier than another that gains, or fewer are late. */
static bool is_before(const study_outcome *o, const study_outcome *than)
{
    return !than || o->late < than->late || (o->late == than->late && o->last < than->last);
}

/* The list's works beside those taken already; the best of them that breaks no limit more than now is taken. */
static study_ending take_one(size_question *q, const size_basis *basis, const study_remedies *list,
                             study_settings *taken, bool *found)
{
    fv_size_answer *a = q->answer;
    study_batch batch;
    bool good = study_batch_open(&batch, list->count + 1);
    for (size_t i = 0; i < batch.count; i++) {
        study_change_add(&batch.settings[i], &taken->change);
        if (i > 0 && !study_changes_meet(&taken->change, &list->list[i - 1].change))
            study_change_add(&batch.settings[i], &list->list[i - 1].change);
    }
    study_ending ending = good ? study_batch_evaluate(q->adviser.evaluator, &batch, false, STUDY_ROUGH) : STUDY_FAILED;
    size_t best = 0;
    for (size_t i = 1; i < batch.count && ending == STUDY_DONE; i++) {
        size_candidate c = {0};
        if (!gains(batch.outcomes[i], batch.outcomes[0]) ||
            !is_before(batch.outcomes[i], best ? batch.outcomes[best] : NULL))
            continue;
        if (size_judge(basis, &batch.settings[i].change, &c, NULL) == FV_FAIL)
            ending = STUDY_FAILED;
        best = size_is_out(&c) ? best : i;
    }
    *found = best > 0;
    if (*found) {
        size_t at = a->work_count++;
        for (; at > 0 && a->works[at - 1]->kind == FV_REMEDY_COUPLINGS; at--) /* last, for another bore undoes them */
            a->works[at] = a->works[at - 1];
        a->works[at] = &list->list[best - 1];
        study_change_add(taken, &list->list[best - 1].change);
    }
    study_batch_close(&batch);
    return taken->failed ? STUDY_FAILED : ending;
}

study_ending size_find_works(size_question *q)
{
    fv_size_answer *a = q->answer;
    const study_ask ask = {.follow = true, .fineness = 1, .until = INFINITY};
    const study_outcome *now;
    const fv_change nothing = {0};
    size_candidate as_it_is = {0};
    size_basis basis = {.plant = a->plant, .limits = &a->options.limits};
    study_settings taken = {.arena = a->arena};
    study_remedies list;
    study_ending ending = study_evaluate(q->adviser.evaluator, &ask, 1, &now);
    if (ending != STUDY_DONE)
        return ending;
    if (size_judge(&basis, &nothing, &as_it_is, NULL) == FV_FAIL)
        return STUDY_FAILED;
    basis.now = as_it_is.checks;
    bool found = now->ran;
    if (found && !study_works_list(a->arena, a->plant, (int)study_last_vessel(now, a->plant->vessel_count), &list))
        return STUDY_FAILED;
    if (found)
        leave_out_sizes(&list);
    while (found && a->work_count < WORKS_MOST && list.count > 0 && ending == STUDY_DONE)
        ending = take_one(q, &basis, &list, &taken, &found);
    return ending == STUDY_DONE && a->work_count > 0 && !size_add_works(a) ? STUDY_FAILED : ending;
}
