/* SPDX-License-Identifier: MIT */
/* why: why does this vessel heat slowly, and what would help? */
#include "farvessel/lid.h"

#include "cli/cli.h"

/* What --save writes: the plant with the next step. */
static fv_plant *improved(const fv_why_answer *why, fv_faults *faults)
{
    const fv_change nothing = {0};
    return fv_change_copy(why->cheapest >= 0 ? &why->remedies[why->cheapest].change : &nothing, why->plant, faults);
}

typedef struct {
    fv_why_options why;
    fv_choices_options odds;
} question;

static bool answer(cli_job *job, void *asked)
{
    question *q = asked;
    fv_why_answer *found = fv_why_run(job->plant, &q->why, job->progress, job->faults);
    fv_choices_answer *odds = NULL;
    fv_choice_list choices = {0};
    bool good = found && fv_lid_remarks(job->plant, job->faults) != FV_FAIL;
    fv_faults_sort(job->faults);
    if (good && cli_saves(job))
        good = (job->saved = improved(found, job->faults)) != NULL;
    if (good && cli_asks_odds(job))
        good = cli_compare(job, fv_report_why_choices(found, job->report.units, &choices), &choices, &q->odds, &odds);
    if (good)
        fv_report_why(found, job->faults, &job->report, &job->text);
    fv_choices_free(odds);
    fv_choice_list_free(&choices);
    fv_why_free(found);
    return good;
}

cli_exit cli_why(const cli_request *request)
{
    question q;
    fv_why_defaults(&q.why);
    q.why.vessel = request->value[OPTION_VESSEL];
    q.why.remedies = !request->value[OPTION_NO_REMEDIES];
    cli_exit code = cli_read_threads(request, &q.why.threads);
    if (code == CLI_GOOD)
        code = cli_read_odds(request, &q.odds);
    return code == CLI_GOOD ? cli_run(request, answer, &q) : code;
}
