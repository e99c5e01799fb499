/* SPDX-License-Identifier: MIT */
/* What hands make of each number of vessels: starts by the clock, and valves. */
#include "study/advise.h"
#include "study/carry/parts.h"
#include "study/schedule.h"
#include "study/slips.h"

#include <math.h>
#include <string.h>

static const double WAITS = 2 * 3600; /* s: so late after lighting it opens in its turn */
/* Plans looked at: starts alone; valves and starts, more where there are few vessels, for each takes less time. */
enum { STARTS = 72, ALL = 150, ALL_OF_ONE = 576 };

static size_t most_plans(const fv_carry_row *row, bool staggers)
{
    const size_t even = ALL_OF_ONE / row->count;
    return staggers ? STARTS : even > ALL ? even : ALL;
}

static const fv_carry_batch *batch_of(const fv_carry_row *row, fv_carry_manner manner)
{
    return manner == FV_CARRY_STAGGERED ? &row->staggered : &row->throttled;
}

/* Whether it is worth the trouble: fewer starved, or as many and earlier by what matters. */
static bool is_worth_it(const fv_carry_answer *answer, const fv_carry_row *row, const fv_carry_batch *batch)
{
    const fv_carry_batch *together = &row->together;
    if (!batch->ran || batch->starved != together->starved)
        return batch->ran && batch->starved < together->starved;
    return carry_is_better(batch, together) &&
           (isnan(together->done) || batch->done <= (1 - answer->options.matters) * together->done);
}

/* What hands do with the number before, the last vessel's for those that come after it, too; false: out of memory. */
static bool grow_point(const carry_found *before, const study_handling *handling, fv_arena *arena, int **point)
{
    const size_t n = handling->count, known = before->count;
    *point = NULL;
    if (!before->point || known == 0 || n < known)
        return true;
    const size_t last = handling->knobs[known - 1].vessel;
    if (!(*point = fv_arena_alloc(arena, n + 1, sizeof **point)))
        return false;
    memcpy(*point, before->point, known * sizeof **point);
    for (size_t i = known; i < n; i++) {
        const int like = study_knob_find(handling, handling->knobs[i].kind, last);
        (*point)[i] = like >= 0 && (size_t)like < known ? (*point)[like] : 0;
    }
    return true;
}

/* Where vessels open one after the other it matters which goes first: twice as many plans, from what was found. */
static study_ending search_orders(study_adviser *adviser, const study_advice_options *options, study_advice *advice)
{
    const study_handling *h = &adviser->handling;
    study_advice_options more = *options;
    size_t waits = 0;
    for (size_t i = 0; i < h->count; i++)
        waits += h->knobs[i].kind == STUDY_KNOB_START && study_knob_value(&h->knobs[i], advice->point[i]) > WAITS;
    if (waits < 2 || !options->valves || advice->stopped)
        return STUDY_DONE;
    more.most *= 2;
    return study_advise_again(adviser, &more, advice);
}

/* `from`: of what starts alone make, given for all that follows, and of the number before; `count` points. */
static study_ending search(fv_carry_answer *answer, fv_carry_row *row, study_adviser *adviser, fv_carry_manner manner,
                           const int *from, size_t count, const int **point)
{
    const bool staggers = manner == FV_CARRY_STAGGERED;
    const study_advice_options options = {.objective = {.goal = FV_PLAN_EARLIEST,
                                                        .by_end = true,
                                                        .span = INFINITY,
                                                        .turnaround = answer->options.turnaround},
                                          .valves = !staggers,
                                          .turns = !staggers,
                                          .starts = true,
                                          .most = most_plans(row, staggers)};
    study_advice advice = {0};
    study_settings settings = {.arena = answer->arena};
    fv_change *change = staggers ? &row->stagger : &row->throttle;
    fv_carry_batch *batch = staggers ? &row->staggered : &row->throttled, found;
    study_ending ending = study_advise(adviser, &options, from, count, &advice);
    if (ending == STUDY_DONE && row->added == 0)
        ending = search_orders(adviser, &options, &advice);
    if (ending != STUDY_DONE)
        return ending;
    answer->stopped = answer->stopped || advice.stopped;
    *point = advice.point;
    study_advice_settings(adviser, &advice, &settings);
    const carry_how how = {.follow = CARRY_TO_END, .fineness = 1, .until = NAN};
    if (settings.failed || !carry_room(answer->arena, row->plant, &found) ||
        carry_batch(row->plant, &settings.change, &answer->options, &how, NULL, &found) == FV_FAIL)
        return STUDY_FAILED;
    const bool more = staggers || carry_is_better(&found, &row->staggered); /* than starts alone */
    if (settings.change.count + settings.change.action_count == 0 || !more || !is_worth_it(answer, row, &found))
        return STUDY_DONE;
    *change = settings.change;
    *batch = found;
    return study_steps_of(&adviser->handling, advice.point, advice.score.outcome, answer->arena,
                          staggers ? &row->stagger_steps : &row->throttle_steps,
                          staggers ? &row->stagger_step_count : &row->throttle_step_count)
               ? STUDY_DONE
               : STUDY_FAILED;
}

study_ending carry_hands(fv_carry_answer *answer, fv_carry_row *row, const study_work *work, carry_found *before)
{
    study_adviser adviser;
    row->staggered = row->throttled = row->worked = row->together;
    row->best = FV_CARRY_TOGETHER;
    row->throttle_slip = (fv_slip){.last = -1};
    row->searched = !answer->stopped && row->together.ran && (row->added == 0 || row->added == 1);
    if (!row->searched)
        return STUDY_DONE;
    if (!study_adviser_open(&adviser, row->plant, work))
        return STUDY_FAILED;
    const size_t n = adviser.handling.count;
    int *grown, *from = fv_arena_alloc(answer->arena, 2 * n + 1, sizeof *from);
    study_ending ending =
        from && grow_point(before, &adviser.handling, answer->arena, &grown) ? STUDY_DONE : STUDY_FAILED;
    const int *point = NULL;
    for (fv_carry_manner manner = FV_CARRY_STAGGERED;
         manner <= FV_CARRY_THROTTLED && ending == STUDY_DONE && !answer->stopped; manner++) {
        size_t count = 0;
        if (manner == FV_CARRY_STAGGERED && row->count < 2)
            continue;
        if (point)
            memcpy(from + n * count++, point, n * sizeof *from);
        if (grown && manner == FV_CARRY_THROTTLED)
            memcpy(from + n * count++, grown, n * sizeof *from);
        ending = search(answer, row, &adviser, manner, from, count, &point);
        const fv_carry_batch *best = row->best == FV_CARRY_TOGETHER ? &row->together : batch_of(row, row->best);
        if (ending == STUDY_DONE && carry_is_better(batch_of(row, manner), best))
            row->best = manner;
    }
    before->count = point ? n : 0;
    before->point = point ? fv_arena_alloc(answer->arena, n + 1, sizeof *before->point) : NULL;
    if (before->point)
        memcpy(before->point, point, n * sizeof *point);
    answer->plans += study_evaluator_plans(adviser.evaluator);
    study_adviser_close(&adviser);
    return ending;
}

study_ending carry_slips(fv_carry_answer *answer, const study_work *work)
{
    study_ending ending = STUDY_DONE;
    for (int i = 0; i < (int)answer->row_count && ending == STUDY_DONE; i++) {
        fv_carry_row *row = &answer->rows[i];
        const study_ask ask = {.change = &row->throttle, .follow = true, .fineness = 1, .until = INFINITY};
        const study_outcome *planned;
        const bool told = i == answer->present || i == answer->asked || i == answer->most;
        if (!told || row->throttle.count + row->throttle.action_count == 0)
            continue;
        study_evaluator *evaluator = study_evaluator_new(row->plant, work);
        ending = evaluator ? study_evaluate(evaluator, &ask, 1, &planned) : STUDY_FAILED;
        if (ending == STUDY_DONE)
            ending = study_slips_worst(evaluator, row->plant, ask.change, planned, answer->arena, &row->throttle_slip);
        study_evaluator_free(evaluator);
    }
    return ending;
}
