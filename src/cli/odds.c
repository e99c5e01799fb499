/* SPDX-License-Identifier: MIT */
/* --odds: how sure an answer is. */
#include "cli/cli.h"

#include "farvessel/choices.h"

#include <string.h>

cli_exit cli_read_odds(const cli_request *request, fv_choices_options *options)
{
    double runs = 0, seed = 0;
    fv_choices_defaults(options);
    const char *table = request->value[OPTION_TABLE];
    if (!request->value[OPTION_ODDS]) {
        if (table && strncmp(table, "odds", 4) == 0)
            return cli_usage("--table %s needs --odds", table);
        if (request->value[OPTION_RUNS] || (request->value[OPTION_SEED] && !request->value[OPTION_LOG]))
            return cli_usage("--runs and --seed are of --odds");
        return CLI_GOOD;
    }
    cli_exit code = cli_read_whole(request, OPTION_RUNS, 64, 1 << 20, &runs);
    if (code == CLI_GOOD)
        code = cli_read_whole(request, OPTION_SEED, 0, 4294967295.0, &seed);
    if (code == CLI_GOOD)
        code = cli_read_fire(request, &options->fire);
    if (request->value[OPTION_RUNS])
        options->runs = (size_t)(runs / FV_ODDS_SETS + 0.5) * FV_ODDS_SETS;
    if (request->value[OPTION_SEED])
        options->seed = (unsigned long)seed;
    return code == CLI_GOOD ? cli_read_threads(request, &options->threads) : code;
}

bool cli_asks_odds(const cli_job *job)
{
    return job->request->value[OPTION_ODDS] != NULL;
}

bool cli_compare(cli_job *job, bool listed, fv_choice_list *list, const fv_choices_options *options,
                 fv_choices_answer **found)
{
    *found = NULL;
    if (!listed) {
        fv_error(job->faults, FV_ERR_SYSTEM, job->plant->loc, "out of memory");
        return false;
    }
    const fv_progress progress = cli_stoppable(job->progress);
    cli_signals_hold();
    *found = fv_choices_run(list->list, list->count, options, &progress, job->faults);
    if (*found)
        cli_signals_forget();
    cli_signals_release();
    job->report.odds = *found;
    return *found != NULL;
}
