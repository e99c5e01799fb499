/* SPDX-License-Identifier: MIT */
/* Best first: each move by itself, with the plant's own handling and with the best one of hands; from the best of
 * these pairs and triples of what does not touch the same; and for the best of all a handling found anew, since a wider
 * hose wants other valves. */
#include "study/batch.h"
#include "study/outcome.h"
#include "study/plan/parts.h"

#include <math.h>
#include <stdlib.h>

static const double FASTER = 0.98; /* of the target's core: others that can give way */
enum { PAIRED = 5, TRIPLED = 3, ANEW = 1, SHARE_ANEW = 6 };

/* Moves of all kinds for the vessel that is last with the best hands. */
static bool list_moves(plan_question *q, study_remedies *list)
{
    const fv_plant *plant = q->answer->plant;
    const study_outcome *o = q->list[q->count - 1].score.outcome;
    bool *faster = fv_arena_alloc(q->answer->arena, plant->vessel_count + 1, sizeof *faster);
    const size_t target = study_last_vessel(o, plant->vessel_count);
    const double last = isnan(o->core[target]) ? INFINITY : o->core[target];
    *list = (study_remedies){
        .plant = plant, .ways = &q->adviser.ways, .target = target, .faster = faster, .arena = q->answer->arena};
    list->vent = study_vents_wanted(plant, q->list[0].score.outcome->chamber, q->answer->arena);
    for (size_t i = 0; i < plant->vessel_count && faster; i++)
        faster[i] = i != target && o->verdicts[i] != FV_SHUT_OFF && o->core[i] < FASTER * last;
    return faster && list->vent && study_remedies_list(list);
}

bool plan_give(const plan_question *q, plan_candidate *c, bool leaves)
{
    study_settings settings = {.arena = q->answer->arena};
    for (size_t i = 0; i < c->move_count; i++)
        study_change_add(&settings, &c->moves[i]->change);
    if (leaves)
        study_change_add(&settings, &q->left);
    c->given = settings.change;
    c->leaves = leaves && q->left.action_count > 0;
    return !settings.failed;
}

static bool join(plan_question *q, const plan_candidate *base, const fv_why_remedy *move, const int *point, bool leaves)
{
    plan_candidate c = {.move_count = base ? base->move_count : 0};
    for (size_t i = 0; i < c.move_count; i++)
        c.moves[i] = base->moves[i];
    c.moves[c.move_count++] = move;
    c.point = plan_point(q, point);
    return plan_give(q, &c, leaves) && c.point && plan_add(q, &c);
}

study_effort plan_moves_effort(const plan_candidate *c)
{
    study_effort effort = {.before = c->move_count};
    for (size_t i = 0; i < c->move_count; i++) {
        effort.money += study_remedy_money(c->moves[i]);
        effort.minutes += c->moves[i]->minutes;
    }
    return effort;
}

void plan_add_effort(const plan_question *q, plan_candidate *c)
{
    const study_effort moves = plan_moves_effort(c);
    const size_t fires = c->fire.action_count + c->given.action_count;
    c->score.effort = study_handling_effort(&q->adviser.handling, c->point);
    c->score.effort.minutes += fires > 0 ? STUDY_WALK : 0;
    c->score.effort.during += fires > 0;
    study_effort_add(&c->score.effort, &moves);
}

/* Leaves only what nothing beats, for the rest is not shown. */
static void drop_beaten(plan_question *q, size_t first)
{
    bool *beaten = calloc(q->count + 1, sizeof *beaten);
    size_t kept = first;
    for (size_t i = first; i < q->count && beaten; i++)
        beaten[i] = !q->list[i].score.outcome || !q->list[i].score.outcome->ran || plan_is_beaten(q, i);
    for (size_t i = first; i < q->count && beaten; i++)
        if (!beaten[i])
            q->list[kept++] = q->list[i];
    q->count = beaten ? kept : q->count;
    free(beaten);
}

/* Candidates from `first` on, all in one go. */
static study_ending score(plan_question *q, size_t first, double fineness, bool follow)
{
    const size_t count = q->count - first;
    study_batch batch;
    const bool good = study_batch_open(&batch, count);
    for (size_t i = 0; i < batch.count; i++) {
        study_change_add(&batch.settings[i], &q->list[first + i].given);
        study_handling_settings(&q->adviser.handling, q->list[first + i].point, &batch.settings[i]);
    }
    const study_ending ending =
        good ? study_batch_evaluate(q->adviser.evaluator, &batch, follow, fineness) : STUDY_FAILED;
    for (size_t i = 0; i < count && ending == STUDY_DONE; i++) {
        q->list[first + i].score.outcome = batch.outcomes[i];
        plan_add_effort(q, &q->list[first + i]);
    }
    study_batch_close(&batch);
    return ending;
}

/* Indices of the best `most` of candidates first to last - 1 for the goal, and of the best `most` of those that buy
 * nothing, which what is bought would crowd out. */
static size_t *ranked(const plan_question *q, size_t first, size_t last, fv_plan_goal goal, size_t most, size_t *count)
{
    study_objective objective = q->objective;
    const size_t all = last - first;
    size_t *order = calloc(2 * all + 1, sizeof *order), free = 0;
    objective.goal = goal;
    *count = all < most ? all : most;
    for (size_t i = first; i < last && order; i++) {
        size_t j = i - first;
        for (; j > 0 && study_compare(&objective, &q->list[i].score, &q->list[order[j - 1]].score) < 0; j--)
            order[j] = order[j - 1];
        order[j] = i;
    }
    for (size_t i = 0, kept = *count; i < all && free < most && order; i++) {
        const bool buys = !(q->list[order[i]].score.effort.money <= 0);
        free += !buys;
        if (!buys && i >= kept)
            order[(*count)++] = order[i];
    }
    return order;
}

static bool has_move(const plan_candidate *c, const fv_why_remedy *move)
{
    for (size_t i = 0; i < c->move_count; i++)
        if (c->moves[i] == move || c->moves[i]->kind == move->kind ||
            study_changes_meet(&c->moves[i]->change, &move->change))
            return true;
    return false;
}

/* Each of the best `most` of first..last joined with single moves of the best that do not touch the same. */
static bool join_best(plan_question *q, size_t first, size_t last, size_t singles, size_t singles_end, size_t most)
{
    size_t bases, others, *order = ranked(q, first, last, FV_PLAN_EARLIEST, most, &bases),
                          *single = ranked(q, singles, singles_end, FV_PLAN_EARLIEST, most, &others);
    bool good = order && single;
    for (size_t i = 0; i < bases && good; i++)
        for (size_t j = 0; j < others && good; j++) {
            const plan_candidate base = q->list[order[i]], other = q->list[single[j]];
            const bool again = first == singles && j <= i;
            if (again || base.move_count >= 3 || has_move(&base, other.moves[0]))
                continue;
            good = join(q, &base, other.moves[0], base.point, base.leaves);
        }
    free(order);
    free(single);
    return good;
}

/* A handling found anew for one of them, as a candidate of its own. */
static study_ending handle(plan_question *q, size_t which, const study_advice_options *options)
{
    plan_candidate c = q->list[which];
    study_advice advice = {.given = &c.given, .settled = plan_moves_effort(&c)};
    const study_ending ending = study_advise(&q->adviser, options, c.point, 1, &advice);
    if (ending != STUDY_DONE)
        return ending;
    c.point = plan_point(q, advice.point);
    c.score.outcome = advice.score.outcome;
    if (!c.point || !plan_add(q, &c))
        return STUDY_FAILED;
    plan_add_effort(q, &q->list[q->count - 1]);
    return advice.stopped ? STUDY_STOPPED : STUDY_DONE;
}

/* The best of first..last that lifts fewer lids than the plant as it is; `last`: none does. */
static size_t best_of_lids(const plan_question *q, size_t first, size_t last)
{
    const size_t lifted = q->list[0].score.outcome->lifted;
    size_t best = last;
    for (size_t i = first; i < last; i++) {
        const study_scored *s = &q->list[i].score;
        if (s->outcome && s->outcome->ran && s->outcome->lifted < lifted &&
            (best == last || study_compare(&q->objective, s, &q->list[best].score) < 0))
            best = i;
    }
    return best;
}

/* For the best of all, and for the best that lifts fewer lids, which another handling hides. */
static study_ending handle_anew(plan_question *q, size_t first, const study_advice_options *options)
{
    study_ending ending = STUDY_DONE;
    const size_t last = q->count, lids = best_of_lids(q, first, last);
    const fv_plan_goal goals[] = {q->objective.goal, FV_PLAN_EARLIEST};
    study_advice_options fewer = *options;
    fewer.most = options->most / SHARE_ANEW;
    fewer.objective = q->objective;
    for (size_t k = 0; k < 2 && ending == STUDY_DONE; k++) {
        size_t count, *order = ranked(q, first, last, goals[k], ANEW, &count);
        if (!order)
            return STUDY_FAILED;
        for (size_t i = 0; i < count && ending == STUDY_DONE; i++)
            ending = handle(q, order[i], &fewer);
        free(order);
    }
    return ending == STUDY_DONE && lids < last ? handle(q, lids, &fewer) : ending;
}

study_ending plan_moves(plan_question *q, const study_advice_options *options)
{
    study_remedies list;
    const size_t singles = q->count;
    const int *hands = q->list[q->count - 1].point;
    bool good = list_moves(q, &list);
    for (size_t i = 0; i < list.count && good; i++)
        if (study_remedy_is_move(list.list[i].kind))
            good = join(q, NULL, &list.list[i], NULL, false) && join(q, NULL, &list.list[i], hands, true);
    const size_t pairs = q->count;
    study_ending ending = good ? score(q, singles, STUDY_ROUGH, false) : STUDY_FAILED;
    if (ending == STUDY_DONE)
        ending =
            join_best(q, singles, pairs, singles, pairs, PAIRED) ? score(q, pairs, STUDY_ROUGH, false) : STUDY_FAILED;
    const size_t triples = q->count;
    if (ending == STUDY_DONE)
        ending = join_best(q, pairs, triples, singles, pairs, TRIPLED) ? score(q, triples, STUDY_ROUGH, false)
                                                                       : STUDY_FAILED;
    plan_count_bills(q);
    if (ending == STUDY_DONE)
        ending = handle_anew(q, singles, options);
    if (ending != STUDY_DONE)
        return ending;
    drop_beaten(q, singles);
    return score(q, singles, 1, true);
}
