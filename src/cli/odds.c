/* SPDX-License-Identifier: MIT */
/* --odds: how sure an answer is. */
#include "cli/cli.h"

#include "farvessel/choices.h"

#include <string.h>

cli_exit cli_read_odds(const cli_request *request, fv_choices_options *options)
{
    fv_choices_defaults(options);
    const char *table = request->value[OPTION_TABLE];
    if (!request->value[OPTION_ODDS]) {
        if (table && strncmp(table, "odds", 4) == 0)
            return cli_usage("--table %s needs --odds", table);
        if (request->value[OPTION_RUNS] || (request->value[OPTION_SEED] && !request->value[OPTION_LOG]))
            return cli_usage("--runs and --seed are of --odds");
        return CLI_GOOD;
    }
    cli_exit code = cli_read_runs(request, &options->runs);
    if (code == CLI_GOOD)
        code = cli_read_seed(request, &options->seed);
    if (code == CLI_GOOD)
        code = cli_read_fire(request, &options->fire);
    return code == CLI_GOOD ? cli_read_threads(request, &options->threads) : code;
}

bool cli_asks_odds(const cli_job *job)
{
    return job->request->value[OPTION_ODDS] != NULL;
}

bool cli_compare(cli_job *job, bool listed)
{
    if (!listed) {
        fv_error(job->faults, FV_ERR_SYSTEM, job->plant->loc, "out of memory");
        return false;
    }
    const fv_progress progress = cli_stoppable(job->progress);
    job->sure = fv_choices_run(job->choices.list, job->choices.count, &job->odds, &progress, job->faults);
    cli_signals_end(job->sure != NULL);
    job->report.odds = job->sure;
    return job->sure != NULL;
}
