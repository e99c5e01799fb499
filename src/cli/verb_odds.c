/* SPDX-License-Identifier: MIT */
/* odds: how sure is this, and what should be measured first? */
#include "cli/cli.h"

#include "farvessel/odds.h"

static bool answer(cli_job *job, void *question)
{
    const fv_progress progress = cli_stoppable(job->progress);
    fv_odds_answer *found = fv_odds_run(job->plant, question, &progress, job->faults);
    cli_signals_end(found != NULL);
    fv_faults_sort(job->faults);
    if (found)
        fv_report_odds(found, job->faults, &job->report, &job->text);
    const bool good = found != NULL;
    fv_odds_free(found);
    return good;
}

cli_exit cli_odds(const cli_request *request)
{
    fv_odds_options odds;
    fv_odds_defaults(&odds);
    odds.exact = request->value[OPTION_EXACT] != NULL;
    cli_exit code = cli_read_threads(request, &odds.threads);
    if (code == CLI_GOOD)
        code = cli_read_runs(request, &odds.runs);
    if (code == CLI_GOOD)
        code = cli_read_seed(request, &odds.seed);
    return code == CLI_GOOD ? cli_run(request, answer, &odds) : code;
}
