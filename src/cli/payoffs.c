/* SPDX-License-Identifier: MIT */
/* What a batch costs, and what each remedy that was found saves. */
#include "cli/cli.h"

#include <stdlib.h>

enum { WEEKS_A_YEAR = 52 };

static void ask(const cli_job *job, const fv_why_remedy *remedy, fv_cost_options options, cli_payoff *payoff)
{
    fv_faults *unsaid = fv_faults_new();
    options.spend = remedy->cost;
    payoff->plant = unsaid ? fv_change_copy(&remedy->change, job->plant, unsaid) : NULL;
    if (payoff->plant)
        payoff->answer = fv_cost_run(job->plant, payoff->plant, &options, job->progress, unsaid);
    fv_faults_free(unsaid);
}

bool cli_payoffs_find(const cli_job *job, const fv_why_answer *why, const fv_week_answer *week, cli_payoffs *payoffs)
{
    fv_cost_options options;
    *payoffs = (cli_payoffs){.cost = NULL};
    if (job->plant->work.price_count == 0)
        return true;
    fv_cost_defaults(&options);
    if (week)
        options.batches_a_year = WEEKS_A_YEAR * (double)week->plan.batches;
    payoffs->cost = fv_cost_run(job->plant, NULL, &options, job->progress, job->faults);
    if (!payoffs->cost || !why)
        return payoffs->cost != NULL;
    payoffs->list = calloc(why->remedy_count + 1, sizeof *payoffs->list);
    payoffs->answers = calloc(why->remedy_count + 1, sizeof *payoffs->answers);
    for (; payoffs->list && payoffs->answers && payoffs->count < why->remedy_count; payoffs->count++) {
        cli_payoff *payoff = &payoffs->list[payoffs->count];
        /* A batch that is smaller costs less, and saves nothing. */
        if (why->remedies[payoffs->count].worth > 0.0 && why->remedies[payoffs->count].kind != FV_REMEDY_LESS_LOAD)
            ask(job, &why->remedies[payoffs->count], options, payoff);
        payoffs->answers[payoffs->count] = payoff->answer;
    }
    return payoffs->list && payoffs->answers;
}

void cli_payoffs_free(cli_payoffs *payoffs)
{
    for (size_t i = 0; i < payoffs->count; i++) {
        fv_cost_free(payoffs->list[i].answer);
        fv_plant_free(payoffs->list[i].plant);
    }
    fv_cost_free(payoffs->cost);
    free(payoffs->list);
    free(payoffs->answers);
    *payoffs = (cli_payoffs){.cost = NULL};
}
