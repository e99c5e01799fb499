/* SPDX-License-Identifier: MIT */
/* carry: does one boiler carry a further vessel? */
#include "cli/cli.h"

enum { COUNT_MOST = 20 };

static cli_exit read_options(const cli_request *request, fv_carry_options *options)
{
    fv_carry_defaults(options);
    options->like = request->value[OPTION_LIKE];
    options->at = request->value[OPTION_AT];
    options->others = !request->value[OPTION_NO_OTHERS];
    cli_exit code = cli_read_count(request, OPTION_MORE, COUNT_MOST, &options->more);
    if (code == CLI_GOOD)
        code = cli_read_count(request, OPTION_FEWER, COUNT_MOST, &options->fewer);
    if (code == CLI_GOOD)
        code = cli_read_positive(request, OPTION_TURNAROUND, FV_DIM_TIME, &options->turnaround);
    return code == CLI_GOOD ? cli_read_threads(request, &options->threads) : code;
}

/* What --save writes: the plant with the number of vessels in question, and what hands have to do for it. */
static fv_plant *grown(const fv_carry_answer *carry, fv_faults *faults)
{
    const fv_carry_row *row = &carry->rows[carry->asked];
    return fv_change_copy(fv_carry_change_of(row, carry->does), row->plant, faults);
}

static bool answer(cli_job *job, void *question)
{
    if (fv_steady_remarks(job->plant, NULL, job->faults) == FV_FAIL || !cli_lid_remarks(job))
        return false;
    const fv_progress progress = cli_stoppable(job->progress);
    fv_carry_answer *found = fv_carry_run(job->plant, question, &progress, job->faults);
    cli_signals_end(found != NULL);
    bool good = found != NULL;
    fv_faults_sort(job->faults);
    if (good && cli_saves(job))
        good = (job->saved = grown(found, job->faults)) != NULL;
    if (good && cli_asks_odds(job))
        good = cli_compare(job, fv_report_carry_choices(found, &job->choices));
    if (good)
        fv_report_carry(found, job->faults, &job->report, &job->text);
    fv_carry_free(found);
    return good;
}

cli_exit cli_carry(const cli_request *request)
{
    fv_carry_options carry;
    cli_exit code = read_options(request, &carry);
    return code == CLI_GOOD ? cli_run_sure(request, answer, &carry) : code;
}
