/* SPDX-License-Identifier: MIT */
/* What each cause changes by itself, and which of them are there at all. */
#include "study/outcome.h"
#include "study/why/question.h"

#include <math.h>

static bool is_present(const study_question *q, int cause)
{
    return q->present & study_cause_bit((fv_why_cause)cause);
}

static bool is_shared(const study_question *q)
{
    return q->answer->options.most > 0;
}

/* The causes that are there at all. */
bool study_find_present(study_question *q)
{
    fv_plant *copy = fv_plant_copy(q->answer->plant);
    const study_causes all = study_cause_bit(FV_WHY_CAUSES) - 1;
    fv_faults *faults = fv_faults_new();
    const bool good = copy && faults && study_idealize(&q->basis, all, -1, copy, &q->present, faults) == FV_OK;
    for (size_t i = 0; faults && i < fv_faults_count(faults) && !good; i++)
        if (!fv_faults_at(faults, i)->caution)
            fv_error(q->faults, fv_faults_blame_system(faults) ? FV_ERR_SYSTEM : FV_ERR_NUMERICS, q->answer->plant->loc,
                     "the plant without its causes of slow heating would not be sound: %s",
                     fv_faults_at(faults, i)->text);
    if (!copy || !faults)
        fv_error(q->faults, FV_ERR_SYSTEM, q->answer->plant->loc, "out of memory");
    fv_plant_free(copy);
    fv_faults_free(faults);
    return good;
}

/* ---- runs: a list in the arena, and where each of its outcomes belongs ---- */

typedef struct {
    study_try *list, **place;
    size_t count;
} tries;

static bool open_tries(const study_question *q, size_t most, tries *t)
{
    t->list = fv_arena_alloc(q->answer->arena, most + 1, sizeof *t->list);
    t->place = fv_arena_alloc(q->answer->arena, most + 1, sizeof *t->place);
    t->count = 0;
    return t->list && t->place;
}

static bool add_try(study_question *q, tries *t, study_causes causes, const fv_change *change, study_try *place)
{
    t->list[t->count] = (study_try){.causes = causes, .only = -1, .change = change, .until = q->until};
    t->place[t->count] = place;
    return study_try_room(q->answer->arena, q->answer->plant->vessel_count, &t->list[t->count++]);
}

static study_ending run_tries(study_question *q, const study_work *plan, tries *t)
{
    const study_ending outcome = study_tries_run(&q->basis, plan, t->list, t->count);
    q->answer->runs += t->count;
    for (size_t i = 0; i < t->count; i++)
        *t->place[i] = t->list[i];
    return outcome;
}

/* ---- each cause alone, all together, and the changes; then, where it matters, each last ---- */

static study_ending run_first(study_question *q, const study_work *plan, const fv_change *const *changes, size_t count,
                              study_try *outcomes)
{
    tries t;
    bool good = open_tries(q, FV_WHY_CAUSES + 1 + count, &t) && add_try(q, &t, q->present, NULL, &q->full);
    for (int c = 0; c < FV_WHY_CAUSES && good; c++)
        if (is_present(q, c) && is_shared(q))
            good = add_try(q, &t, study_cause_bit((fv_why_cause)c), NULL, &q->alone[c]);
    for (size_t i = 0; i < count && good; i++)
        good = add_try(q, &t, 0, changes[i], &outcomes[i]);
    return good ? run_tries(q, plan, &t) : STUDY_FAILED;
}

/* What alone already matters is kept anyway, and its last effect comes from the subsets. */
static study_ending run_last(study_question *q, const study_work *plan)
{
    tries t;
    bool good = open_tries(q, FV_WHY_CAUSES, &t);
    for (int c = 0; c < FV_WHY_CAUSES && good; c++) {
        q->last[c].failed = true;
        if (is_present(q, c) && (q->full.failed || !study_matters(q, c)))
            good = add_try(q, &t, q->present & ~study_cause_bit((fv_why_cause)c), NULL, &q->last[c]);
    }
    if (!good)
        return STUDY_FAILED;
    const study_ending outcome = run_tries(q, plan, &t);
    for (size_t i = 0; i < t.count; i++)
        q->answer->runs_failed += t.list[i].failed;
    return outcome;
}

/* A cause without which the plant has no solution is not looked at. */
static void leave_out_failed(study_question *q)
{
    for (int c = 0; c < FV_WHY_CAUSES; c++)
        if (is_present(q, c) && q->alone[c].failed) {
            q->answer->runs_failed++;
            q->present &= ~study_cause_bit((fv_why_cause)c);
        }
    q->answer->runs_failed += q->full.failed;
}

/* Where the plant without all causes has no solution, the one without all but the least of them stands for it. */
static bool find_full(study_question *q)
{
    int least = -1;
    double smallest = INFINITY;
    for (int c = 0; c < FV_WHY_CAUSES && q->full.failed; c++) {
        if (!is_present(q, c) || q->last[c].failed)
            continue;
        double effect = 0;
        for (size_t v = 0; v < q->answer->plant->vessel_count; v++)
            effect = fmax(effect, fabs(study_counted(q, &q->now, v) - study_counted(q, &q->alone[c], v)));
        if (effect < smallest) {
            smallest = effect;
            least = c;
        }
    }
    if (!q->full.failed)
        return true;
    if (least < 0) {
        fv_error(q->faults, FV_ERR_NUMERICS, q->answer->plant->loc,
                 "the delay cannot be shared out; the plant with all causes of slow heating taken away: %s",
                 q->full.reason);
        return false;
    }
    q->full = q->last[least];
    q->present &= ~study_cause_bit((fv_why_cause)least);
    for (int c = 0; c < FV_WHY_CAUSES; c++)
        q->last[c].failed = true; /* they were measured against another plant */
    return true;
}

/* Nothing is shared out: that a vessel could be faster is all that is known of causes; where even that failed, how fast
 * its load alone would be. */
static study_ending forget_causes(study_question *q)
{
    q->present = 0;
    for (size_t v = 0; v < q->answer->plant->vessel_count && q->full.failed; v++)
        q->full.took[v] = q->basis.ample[v];
    return STUDY_DONE;
}

study_ending study_screen(study_question *q, const study_work *plan, const fv_change *const *changes, size_t count,
                          study_try *outcomes)
{
    study_work first = *plan, second = *plan;
    first.to = second.from = plan->from + 0.8 * (plan->to - plan->from);
    study_ending outcome = run_first(q, &first, changes, count, outcomes);
    if (outcome != STUDY_DONE)
        return outcome;
    if (!is_shared(q))
        return forget_causes(q);
    leave_out_failed(q);
    outcome = run_last(q, &second);
    if (outcome != STUDY_DONE)
        return outcome;
    return find_full(q) ? STUDY_DONE : STUDY_FAILED;
}

void study_fill_vessels(study_question *q)
{
    fv_why_answer *a = q->answer;
    a->best = -1;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        fv_why_vessel *v = &a->vessels[i];
        *v = (fv_why_vessel){.took = study_counted(q, &q->now, i),
                             .ideal = study_counted(q, &q->full, i),
                             .ample = study_conduction(a->now, i),
                             .vent = q->basis.vent[i],
                             .arrives = q->now.took[i] < a->cap,
                             .asked = q->asked[i],
                             .first = FV_WHY_NOTHING,
                             .next = FV_WHY_NOTHING,
                             .part_here = -1};
        for (int c = 0; c < FV_WHY_CAUSES; c++) {
            const bool there = q->present & study_cause_bit((fv_why_cause)c);
            v->alone[c] = there ? v->took - study_counted(q, &q->alone[c], i) : (double)NAN;
            v->last[c] = there && !q->last[c].failed ? study_counted(q, &q->last[c], i) - v->ideal : (double)NAN;
        }
        const bool better = a->best < 0 || v->took - v->ideal < a->vessels[a->best].took - a->vessels[a->best].ideal;
        if (v->arrives && better)
            a->best = (int)i;
    }
    if (a->plant->vessel_count < 2)
        a->best = -1;
}
