/* SPDX-License-Identifier: MIT */
#include "study/size/parts.h"

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
                                 .screens_most = 3000,
                                 .runs_most = 200};
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
    return fuel;
}

static fv_size_answer *open_answer(const fv_plant *plant, const fv_size_options *options, fv_faults *faults)
{
    fv_size_answer *answer = calloc(1, sizeof *answer);
    if (answer)
        answer->arena = fv_arena_new();
    if (!answer || !answer->arena) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        free(answer);
        return NULL;
    }
    answer->plant = plant;
    answer->options = *options;
    answer->currency = plant->currency;
    answer->best = answer->nearest = -1;
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

fv_size_answer *fv_size_run(const fv_plant *plant, const fv_size_options *options, const fv_progress *progress,
                            fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    const double searching = 0.75; /* of the whole */
    fv_size_answer *answer = open_answer(plant, options, faults);
    size_pool pool;
    if (!answer)
        return NULL;
    bool good = size_pool_open(&pool, answer, faults);
    pool.progress = progress;
    pool.to = searching;
    good = good && size_search(&pool, answer);
    if (!good && !pool.stopped && fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (good && pool.list[0]->state == SIZE_UNSOLVED)
        fv_caution(faults, FV_ERR_NUMERICS, plant->loc, "the plant as it is has no solution with all vessels heating");
    good = good && size_make_rows(&pool, answer, faults) != FV_FAIL;
    size_pool_close(&pool);
    if (good && (any_followed(answer) || say_unfollowed(plant, progress, faults)))
        return answer;
    fv_size_free(answer);
    return NULL;
}

void fv_size_free(fv_size_answer *answer)
{
    if (!answer)
        return;
    fv_arena_free(answer->arena);
    free(answer);
}
