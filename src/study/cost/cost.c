/* SPDX-License-Identifier: MIT */
/* A batch is one heat run; a change is two.
 *
 * Simple payback: spent / saved a year. Present value at the interest i over n years, savings at the end of each year:
 *   -spent + saved (1 - (1 + i)^-n) / i   (annuity, any textbook of engineering economics).
 * Break-even price of fuel: the one at which that is nought, all else as it is. */
#include "study/cost/money.h"

#include <math.h>
#include <stdlib.h>

void fv_cost_defaults(fv_cost_options *options)
{
    if (!options)
        return;
    *options = (fv_cost_options){.spend = NAN, .batches_a_year = NAN, .years = 10.0};
}

const char *fv_cost_word(fv_cost_item item)
{
    static const char *const words[FV_COST_ITEMS] = {"fuel", "water", "hours", "medium", "bags"};
    return words[item];
}

/* Work on a batch, s of people: each vessel's tasks, the lighting, looks while it burns; NaN: no task is said. */
static double work_of(const fv_plant *plant, size_t vessels, double burning)
{
    const fv_work *work = &plant->work;
    double sum = 0.0;
    for (size_t i = 0; i < work->task_count; i++) {
        const fv_task *task = work->tasks[i];
        const fv_task_kind what = (fv_task_kind)fv_word(task->what);
        const double times = what == FV_WORK_LIGHT  ? 1.0
                             : what == FV_WORK_LOOK ? floor(burning / fv_or(task->every, 7200.0))
                                                    : (double)vessels;
        sum += times * task->takes.v * task->people.v;
    }
    return work->task_count > 0 ? sum : (double)NAN;
}

static void take_vessels(const fv_plant *plant, const fv_heat_result *result, fv_cost_batch *batch, size_t *vessels)
{
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        const fv_load *load = &plant->vessels[i]->load;
        if (h->verdict == FV_SHUT_OFF)
            continue;
        ++*vessels;
        batch->kg += fv_load_mass(load);
        batch->pieces += fv_is_set(load->count) ? (size_t)load->count.v : 0;
        batch->starved += h->verdict == FV_STARVED;
        fv_vessel_need need = {0}; /* what was followed has one */
        fv_vessel_need_of(plant, plant->vessels[i], fv_sat_line(), &need, NULL);
        batch->least_fuel += need.load;
        if (!(h->core <= batch->last_core))
            batch->last_core = isnan(batch->last_core) ? (double)NAN : h->core;
    }
}

static void pay(const fv_plant *plant, fv_cost_batch *batch)
{
    bool any = false;
    for (int i = 0; i < FV_COST_ITEMS; i++) {
        batch->rows[i].money = cost_money(plant, (fv_cost_item)i, batch->rows[i].amount);
        any = any || !isnan(batch->rows[i].money);
        batch->money += isnan(batch->rows[i].money) ? 0.0 : batch->rows[i].money;
    }
    if (!any)
        batch->money = NAN;
    batch->worth = cost_worth(plant, batch->kg, batch->pieces);
}

static bool run(const fv_plant *plant, const fv_progress *progress, fv_cost_batch *batch, fv_faults *faults)
{
    fv_heat_options options;
    size_t vessels = 0;
    fv_heat_defaults(&options);
    fv_heat_result *result = fv_heat_run(plant, &options, progress, faults);
    if (!result || result->stopped) {
        fv_heat_free(result);
        return false;
    }
    *batch = (fv_cost_batch){.ran = true, .steam_end = result->steam_end};
    take_vessels(plant, result, batch, &vessels);
    for (size_t i = 0; i < result->boiler_count; i++) {
        batch->rows[FV_COST_FUEL].amount += result->boilers[i].fuel;
        batch->rows[FV_COST_WATER].amount += result->boilers[i].water;
    }
    batch->rows[FV_COST_HOURS].amount = work_of(plant, vessels, result->steam_end);
    batch->rows[FV_COST_MEDIUM].amount = batch->kg;
    batch->rows[FV_COST_BAGS].amount = (double)batch->pieces;
    pay(plant, batch);
    fv_heat_free(result);
    return true;
}

static double annuity(double interest, double years)
{
    return interest > 0.0 ? (1.0 - pow(1.0 + interest, -years)) / interest : years;
}

static void compare(fv_cost_answer *a)
{
    const double factor = annuity(a->plant->work.interest.v, a->options.years);
    const fv_price *fuel = cost_price(a->plant, FV_PRICE_FUEL);
    if (isnan(a->now.last_core) || isnan(a->then.last_core))
        return; /* what treats nothing is no batch to save on */
    a->saved = a->now.money - a->then.money;
    a->saved_a_year = a->saved * a->options.batches_a_year;
    a->payback = a->saved > 0.0 ? a->options.spend / a->saved_a_year : (double)NAN;
    a->present_value = a->saved_a_year * factor - a->options.spend;
    if (!fuel)
        return;
    const fv_per per = (fv_per)fv_word(fuel->per);
    const double less = fv_cost_fuel_units(a->plant, per, a->now.rows[FV_COST_FUEL].amount) -
                        fv_cost_fuel_units(a->changed, per, a->then.rows[FV_COST_FUEL].amount);
    const double others = a->saved - less * fuel->is.v;
    const double price = (a->options.spend / (factor * a->options.batches_a_year) - others) / less;
    a->break_even = less > 0.0 && price > 0.0 ? price : (double)NAN;
}

fv_cost_answer *fv_cost_run(const fv_plant *plant, const fv_plant *changed, const fv_cost_options *options,
                            const fv_progress *progress, fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_cost_answer *a = calloc(1, sizeof *a);
    if (!a) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return NULL;
    }
    *a = (fv_cost_answer){.plant = plant, .changed = changed, .options = *options, .break_even = NAN};
    a->saved = a->saved_a_year = a->payback = a->present_value = NAN;
    if (!run(plant, progress, &a->now, faults) || (changed && !run(changed, progress, &a->then, faults))) {
        free(a);
        return NULL;
    }
    if (changed)
        compare(a);
    return a;
}

void fv_cost_free(fv_cost_answer *answer)
{
    free(answer);
}
