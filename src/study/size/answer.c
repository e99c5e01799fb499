/* SPDX-License-Identifier: MIT */
/* size from question to answer: hands first, then the search over sizes, then a handling for the best. Limits, their
 * sources and units: farvessel/size.h. */
#include "study/size/parts.h"
#include "study/answer.h"

#include <math.h>
#include <stdlib.h>

void fv_size_defaults(fv_size_options *options)
{
    if (!options)
        return;
    *options = (fv_size_options){.goal = FV_SIZE_FOR_TIME,
                                 .limits = {.spread_most = 1.5,
                                            .evenness_least = 0.8,
                                            .area_most = NAN,
                                            .pressure_share_most = 0.95,
                                            .velocity_most = 60,
                                            .backward_most = 8,
                                            .coil_velocity_most = 20,
                                            .vent_pressure_most = 200},
                                 .hands = true,
                                 .wage = 20,
                                 .most = 400};
}

/* Cheapest of what, where nothing has a price? */
static bool is_answerable(const fv_size_answer *answer, fv_faults *faults)
{
    if (answer->options.goal == FV_SIZE_FOR_COST && !answer->priced) {
        fv_error(faults, FV_ERR_INPUT, answer->plant->loc,
                 "the stock list has no price for what is varied, so nothing is cheapest; give some, such as <hose "
                 "bore=\"25 mm\" price=\"19\"/>, or choose for time, spread or fuel");
        return false;
    }
    bool fuel = answer->options.goal != FV_SIZE_FOR_FUEL;
    for (size_t i = 0; i < answer->plant->boiler_count; i++)
        fuel = fuel || fv_is_set(answer->plant->boilers[i]->fuel);
    if (!fuel)
        fv_error(faults, FV_ERR_INPUT, answer->plant->boilers[0]->part.loc,
                 "no boiler names its fuel, so none is counted; say fuel=\"propane\" or the like, or choose for time, "
                 "spread or cost");
    return study_any_open(answer->plant, faults) && fuel;
}

static fv_size_answer *open_answer(const fv_plant *plant, const fv_size_options *options, fv_faults *faults)
{
    fv_arena *arena;
    fv_size_answer *answer = study_answer_new(sizeof *answer, plant->loc, &arena, faults);
    if (!answer)
        return NULL;
    answer->arena = arena;
    answer->plant = plant;
    answer->options = *options;
    answer->currency = plant->currency;
    answer->hands = -1;
    answer->options.vary = size_wanted(plant, options, faults);
    answer->could_vary = size_possible(plant) & ~answer->options.vary;
    answer->priced = size_has_prices(plant, answer->options.vary);
    if (answer->options.vary && is_answerable(answer, faults) && size_space(answer, faults) != FV_FAIL)
        return answer;
    fv_size_free(answer);
    return NULL;
}

static bool any_followed(const fv_size_answer *answer)
{
    for (size_t i = 0; i < answer->row_count; i++)
        if (answer->rows[i].run.ran)
            return true;
    return false;
}

/* Whatever the sizes, the plant cannot be followed: what its own run says is the reason. */
static bool say_unfollowed(const fv_plant *plant, const fv_progress *progress, fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    fv_heat_result *result = fv_heat_run(plant, &options, progress, faults);
    fv_heat_free(result);
    if (fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_NUMERICS, plant->loc, "the plant could not be followed with any of the sizes");
    return false;
}

static bool open_question(size_question *q, fv_size_answer *answer, const fv_progress *progress)
{
    static const fv_plan_goal goals[] = {[FV_SIZE_FOR_TIME] = FV_PLAN_EARLIEST,
                                         [FV_SIZE_FOR_SPREAD] = FV_PLAN_MOST_EVEN,
                                         [FV_SIZE_FOR_COST] = FV_PLAN_CHEAPEST,
                                         [FV_SIZE_FOR_FUEL] = FV_PLAN_LEAST_FUEL};
    const fv_size_options *o = &answer->options;
    *q = (size_question){
        .answer = answer,
        .work = {.threads = o->threads, .progress = progress},
        .objective = {.goal = goals[o->goal], .wage = o->wage, .spread_most = o->limits.spread_most, .span = INFINITY}};
    if (!study_adviser_open(&q->adviser, answer->plant, &q->work))
        return false;
    q->none = fv_arena_alloc(answer->arena, q->adviser.handling.count + 1, sizeof *q->none);
    return q->none && size_pool_open(&q->pool, answer, &q->work);
}

static void close_question(size_question *q)
{
    size_pool_close(&q->pool);
    study_adviser_close(&q->adviser);
    free(q->list);
}

fv_size_answer *fv_size_run(const fv_plant *plant, const fv_size_options *options, const fv_progress *progress,
                            fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_size_answer *answer = open_answer(plant, options, faults);
    size_question q = {0};
    if (!answer)
        return NULL;
    study_ending ending = open_question(&q, answer, progress) ? size_search(&q) : STUDY_FAILED;
    if (ending == STUDY_DONE && q.pool.list[0]->state == SIZE_UNSOLVED)
        fv_caution(faults, FV_ERR_NUMERICS, plant->loc, "the plant as it is has no solution with all vessels heating");
    if (ending == STUDY_DONE)
        ending = size_make_rows(&q);
    answer->plans = q.adviser.evaluator ? study_evaluator_plans(q.adviser.evaluator) : 0;
    close_question(&q);
    if (ending == STUDY_FAILED && fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (ending == STUDY_DONE && (any_followed(answer) || say_unfollowed(plant, progress, faults)))
        return answer;
    fv_size_free(answer);
    return NULL;
}

void fv_size_free(fv_size_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
