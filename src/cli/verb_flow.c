/* SPDX-License-Identifier: MIT */
/* flow: which vessel gets how much steam, and which is starved? */
#include "cli/cli.h"

static bool answer(cli_job *job, void *question)
{
    fv_flow_answer *solved = fv_flow_answer_new(job->plant, question, job->progress, job->faults);
    const bool good = solved && cli_lids(job);
    fv_faults_sort(job->faults);
    if (good)
        fv_report_flow(solved, job->faults, &job->report, &job->text);
    fv_flow_answer_free(solved);
    return good;
}

cli_exit cli_flow(const cli_request *request)
{
    fv_flow_options flow;
    fv_flow_defaults(&flow);
    flow.turndown = !request->value[OPTION_NO_TURNDOWN];
    if (request->value[OPTION_PHASE])
        flow.phase = fv_word_find("heating|holding", request->value[OPTION_PHASE]);
    cli_exit code = cli_read_fire(request, &flow.fire);
    return code == CLI_GOOD ? cli_run(request, answer, &flow) : code;
}
