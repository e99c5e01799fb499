/* SPDX-License-Identifier: MIT */
/* plan from question to answer: handlings and purchases, each followed in time, and ranked. Order of plans:
 * farvessel/plan.h. */
#include "study/plan/parts.h"
#include "study/answer.h"

#include <math.h>

void fv_plan_defaults(fv_plan_options *options)
{
    if (!options)
        return;
    *options =
        (fv_plan_options){.goal = FV_PLAN_CHEAPEST, .buy = true, .span = INFINITY, .wage = 20, .turnaround = 7200};
}

/* Of few vessels each plan takes less time, so more of them are looked at. */
static size_t most_plans(const fv_plan_options *options, const fv_plant *plant)
{
    enum { LEAST = 300, MOST = 600, VESSELS = 1800 };
    const size_t even = VESSELS / (plant->vessel_count + 1);
    return options->most ? options->most : even < LEAST ? LEAST : even > MOST ? MOST : even;
}

static study_advice_options hands_options(const plan_question *q)
{
    const fv_plan_answer *a = q->answer;
    return (study_advice_options){.objective = q->objective,
                                  .valves = true,
                                  .starts = true,
                                  .turns = true,
                                  .most = most_plans(&a->options, a->plant)};
}

static bool is_asked_well(const fv_plan_answer *a, fv_faults *faults)
{
    const fv_plan_options *o = &a->options;
    const bool open = study_any_open(a->plant, faults);
    bool fuel = o->goal != FV_PLAN_LEAST_FUEL;
    for (size_t i = 0; i < a->plant->boiler_count; i++)
        fuel = fuel || fv_is_set(a->plant->boilers[i]->fuel);
    if (!fuel)
        fv_error(faults, FV_ERR_INPUT, a->plant->boilers[0]->part.loc,
                 "no boiler names its fuel, so none is counted; say fuel=\"propane\" or the like, or plan for another "
                 "goal");
    if (!(o->span > 0) || !(o->wage >= 0) || !(o->turnaround >= 0))
        fv_error(faults, FV_ERR_INPUT, a->plant->loc, "plan: span above 0, wage and turnaround at least 0");
    return open && fuel && o->span > 0 && o->wage >= 0 && o->turnaround >= 0;
}

/* The plant as it is, followed to the end of its holds. */
static study_ending score_now(plan_question *q)
{
    const study_ask ask = {.follow = true, .fineness = 1, .until = INFINITY};
    const study_outcome *now;
    const study_ending ending = study_evaluate(q->adviser.evaluator, &ask, 1, &now);
    if (ending != STUDY_DONE)
        return ending;
    plan_candidate nothing = {.point = plan_point(q, NULL), .score = {.outcome = now}};
    return nothing.point && plan_add(q, &nothing) ? STUDY_DONE : STUDY_FAILED;
}

/* Where somebody is still late, a second time with twice as many plans from what was found; what runs were made is
 * known, and what was found stays where the second finds nothing better. */
static study_ending advise_late(plan_question *q, const study_advice_options *options, study_advice *advice)
{
    const study_outcome *o = advice->score.outcome;
    study_advice_options more = *options;
    if (advice->stopped || q->answer->options.most || q->answer->slow >= 0 || !o || !o->ran || o->late == 0)
        return STUDY_DONE;
    more.most *= 2;
    return study_advise_again(&q->adviser, &more, advice);
}

static study_ending advise_hands(plan_question *q, const study_advice_options *options)
{
    plan_candidate hands = {.point = plan_point(q, NULL)};
    if (!hands.point || !plan_give(q, &hands, true))
        return STUDY_FAILED;
    plan_add_effort(q, &hands);
    study_advice advice = {.given = &hands.given, .settled = hands.score.effort};
    study_ending ending = study_advise(&q->adviser, options, NULL, 0, &advice);
    if (ending == STUDY_DONE)
        ending = advise_late(q, options, &advice);
    if (ending != STUDY_DONE)
        return ending;
    hands.point = plan_point(q, advice.point);
    hands.score = advice.score;
    q->answer->stopped = advice.stopped;
    return hands.point && plan_add(q, &hands) ? STUDY_DONE : STUDY_FAILED;
}

/* Nothing can be advised about a plant that cannot be followed: its own run says why. */
static study_ending say_unfollowed(plan_question *q)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    fv_heat_free(fv_heat_run(q->answer->plant, &options, q->progress, q->faults));
    if (fv_faults_errors(q->faults) == 0)
        fv_error(q->faults, FV_ERR_NUMERICS, q->answer->plant->loc, "no plan for this plant could be followed");
    return STUDY_FAILED;
}

static bool any_ran(const plan_question *q)
{
    for (size_t i = 0; i < q->count; i++)
        if (q->list[i].score.outcome && q->list[i].score.outcome->ran)
            return true;
    return false;
}

/* Nothing that is done with steam brings its load there in time. */
static void find_slow_load(fv_plan_answer *a, const study_outcome *now)
{
    double most = 1;
    a->slow = -1;
    a->slow_takes = NAN;
    for (size_t i = 0; i < a->plant->vessel_count && now->ran; i++) {
        const double times = now->ample[i] / a->plant->vessels[i]->within.v; /* a NaN is passed over */
        if (now->verdicts[i] == FV_SHUT_OFF || !(times > most))
            continue;
        most = times;
        a->slow = (int)i;
        a->slow_takes = now->ample[i];
    }
}

/* A plan that bears slips of hands, where time is what counts. */
static study_ending make_robust(plan_question *q, plan_candidate *c)
{
    const double quickest = c->score.outcome ? c->score.outcome->last : NAN;
    study_advice advice = {.given = &c->given, .point = plan_point(q, c->point), .score = c->score};
    bool robust = false;
    if (q->objective.goal != FV_PLAN_CHEAPEST && q->objective.goal != FV_PLAN_EARLIEST)
        return STUDY_DONE;
    const study_ending ending =
        advice.point ? study_make_robust(&q->adviser, &q->objective, &advice, &robust) : STUDY_FAILED;
    if (ending != STUDY_DONE || advice.score.outcome == c->score.outcome)
        return ending;
    c->point = advice.point;
    c->score.outcome = advice.score.outcome;
    plan_add_effort(q, c);
    q->answer->quickest = quickest < c->score.outcome->last ? quickest : NAN;
    return ending;
}

static study_ending find_slip(plan_question *q, plan_candidate *c)
{
    fv_plan_answer *a = q->answer;
    if (!c->score.outcome || !c->score.outcome->ran)
        return STUDY_DONE;
    return study_slips_worst(q->adviser.evaluator, a->plant, &a->rows[0].change, c->score.outcome, a->arena, &a->slip);
}

/* What is mended or bought gets few plans of hands; where somebody is late with the best of it still, as many as hands
 * alone. */
static study_ending handle_late(plan_question *q, plan_candidate *c)
{
    const study_outcome *o = c->score.outcome;
    if (c->move_count == 0 || !o || !o->ran || o->late == 0 || q->answer->slow >= 0)
        return STUDY_DONE;
    const study_advice_options options = hands_options(q);
    study_advice advice = {.given = &c->given, .settled = plan_moves_effort(c), .point = c->point, .score = c->score};
    const study_ending ending = study_advise_again(&q->adviser, &options, &advice);
    if (ending != STUDY_DONE)
        return ending;
    c->point = plan_point(q, advice.point);
    c->score.outcome = advice.score.outcome;
    if (!c->point)
        return STUDY_FAILED;
    plan_add_effort(q, c);
    return advice.stopped ? STUDY_STOPPED : STUDY_DONE;
}

/* Stopped among what could be bought: what was only roughly followed is not set against what was followed in full. */
static void keep_followed(plan_question *q)
{
    size_t kept = 2;
    for (size_t i = 2; i < q->count; i++) {
        const study_outcome *o = q->list[i].score.outcome;
        if (o && o->ran && o->followed && o->fineness >= 1)
            q->list[kept++] = q->list[i];
    }
    q->count = kept;
}

/* What makes the best one better, or tells more of it; stopped: it stays as it is. */
static study_ending unless_stopped(plan_question *q, size_t best,
                                   study_ending (*step)(plan_question *, plan_candidate *))
{
    if (q->answer->stopped)
        return STUDY_DONE;
    const study_ending ending = step(q, &q->list[best]);
    q->answer->stopped = ending == STUDY_STOPPED;
    return ending == STUDY_STOPPED ? STUDY_DONE : ending;
}

static study_ending answer_question(plan_question *q)
{
    fv_plan_answer *a = q->answer;
    study_bounds bounds;
    study_evaluator_progress(q->adviser.evaluator, 0, 0.6, "trying what hands can do");
    study_ending ending = score_now(q);
    plan_count_bills(q);
    const study_advice_options options = hands_options(q);
    if (ending == STUDY_DONE && study_bounds_find(&q->adviser, q->list[0].score.outcome, NULL, &bounds) == FV_FAIL)
        ending = STUDY_FAILED;
    if (ending == STUDY_DONE) {
        find_slow_load(a, q->list[0].score.outcome);
        a->conduction = bounds.conduction;
        a->energy = bounds.energy;
        a->sharing = bounds.sharing;
        ending = plan_leave_fire(q);
    }
    if (ending == STUDY_DONE)
        ending = advise_hands(q, &options);
    if (ending == STUDY_DONE && a->options.buy && !a->stopped) {
        study_evaluator_progress(q->adviser.evaluator, 0.6, 1, "trying what could be bought");
        ending = plan_moves(q, &options);
        a->stopped = ending == STUDY_STOPPED;
        if (a->stopped)
            keep_followed(q);
        ending = a->stopped ? STUDY_DONE : ending;
    }
    if (ending == STUDY_DONE && !any_ran(q))
        ending = say_unfollowed(q);
    plan_count_bills(q);
    const size_t best = plan_best(q);
    if (ending == STUDY_DONE && best > 0)
        ending = unless_stopped(q, best, handle_late);
    if (ending == STUDY_DONE && best > 0)
        ending = unless_stopped(q, best, make_robust);
    if (ending == STUDY_DONE && best > 0)
        ending = unless_stopped(q, best, plan_turn_down);
    if (ending == STUDY_DONE && !plan_rows(q, best))
        ending = STUDY_FAILED;
    if (ending == STUDY_DONE)
        ending = unless_stopped(q, best, find_slip);
    a->looked_at = study_evaluator_plans(q->adviser.evaluator);
    a->runs = study_evaluator_runs(q->adviser.evaluator) + 1;
    return ending;
}

fv_plan_answer *fv_plan_run(const fv_plant *plant, const fv_plan_options *options, const fv_progress *progress,
                            fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_plan_answer *a = study_answer_new(sizeof *a, plant->loc, &arena, faults);
    if (!a)
        return NULL;
    const study_work work = {.threads = options->threads, .progress = progress};
    plan_question q = {
        .answer = a,
        .progress = progress,
        .faults = faults,
        .objective = {
            .goal = options->goal, .wage = options->wage, .turnaround = options->turnaround, .span = options->span}};
    study_ending ending = STUDY_FAILED;
    *a = (fv_plan_answer){.plant = plant,
                          .options = *options,
                          .arena = arena,
                          .currency = plant->currency,
                          .quickest = NAN,
                          .slip = {.last = -1}};
    if (is_asked_well(a, faults) && study_adviser_open(&q.adviser, plant, &work))
        ending = answer_question(&q);
    study_adviser_close(&q.adviser);
    if (ending == STUDY_FAILED && fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (ending == STUDY_DONE)
        return a;
    fv_arena_free(arena);
    return NULL;
}

void fv_plan_free(fv_plan_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
