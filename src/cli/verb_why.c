/* SPDX-License-Identifier: MIT */
/* why: why does this vessel heat slowly, and what would help? */
#include "cli/cli.h"

/* What --save writes: the plant with the next step. */
static fv_plant *improved(const fv_why_answer *why, fv_faults *faults)
{
    const fv_change nothing = {0};
    return fv_change_copy(why->cheapest >= 0 ? &why->remedies[why->cheapest].change : &nothing, why->plant, faults);
}

static bool answer(cli_job *job, void *question)
{
    const fv_progress progress = cli_stoppable(job->progress);
    fv_why_answer *found = fv_why_run(job->plant, question, &progress, job->faults);
    cli_signals_end(found != NULL);
    bool good = found && cli_lids(job);
    fv_faults_sort(job->faults);
    if (good && cli_saves(job))
        good = (job->saved = improved(found, job->faults)) != NULL;
    if (good && cli_asks_odds(job))
        good = cli_compare(job, fv_report_why_choices(found, job->report.units, &job->choices));
    if (good)
        fv_report_why(found, job->faults, &job->report, &job->text);
    fv_why_free(found);
    return good;
}

cli_exit cli_why(const cli_request *request)
{
    fv_why_options why;
    fv_why_defaults(&why);
    why.vessel = request->value[OPTION_VESSEL];
    why.remedies = !request->value[OPTION_NO_REMEDIES];
    cli_exit code = cli_read_threads(request, &why.threads);
    return code == CLI_GOOD ? cli_run_sure(request, answer, &why) : code;
}
