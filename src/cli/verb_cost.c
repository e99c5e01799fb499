/* SPDX-License-Identifier: MIT */
/* cost: what does a batch cost, and does a change pay? The change is what --set makes of the plant. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"

/* The plant as the file has it, where --set changes it. */
static fv_plant *unchanged(const cli_job *job)
{
    return fv_plantfile_read(job->request->operand, NULL, job->faults);
}

static bool answer(cli_job *job, void *question)
{
    const bool changed = job->request->setting_count > 0;
    fv_plant *before = changed ? unchanged(job) : NULL;
    if (changed && !before)
        return false;
    fv_cost_answer *found = changed ? fv_cost_run(before, job->plant, question, job->progress, job->faults)
                                    : fv_cost_run(job->plant, NULL, question, job->progress, job->faults);
    const bool good = found != NULL;
    fv_faults_sort(job->faults);
    if (good)
        fv_report_cost(found, job->faults, &job->report, &job->text);
    fv_cost_free(found);
    fv_plant_free(before);
    return good;
}

cli_exit cli_cost(const cli_request *request)
{
    fv_cost_options cost;
    fv_cost_defaults(&cost);
    cli_exit code = cli_read_positive(request, OPTION_SPEND, FV_DIM_PRICE, &cost.spend);
    if (code == CLI_GOOD)
        code = cli_read_positive(request, OPTION_BATCHES, FV_DIM_NUMBER, &cost.batches_a_year);
    if (code == CLI_GOOD)
        code = cli_read_positive(request, OPTION_YEARS, FV_DIM_NUMBER, &cost.years);
    if (code == CLI_GOOD && request->setting_count == 0 &&
        (request->value[OPTION_SPEND] || request->value[OPTION_YEARS]))
        code = cli_usage("--spend and --years are about a change, which --set makes");
    if (code == CLI_GOOD && request->setting_count > 0 && request->operand && request->operand[0] == '-' &&
        !request->operand[1])
        code = cli_usage("cost reads the plant twice where --set changes it, so it needs a file");
    return code == CLI_GOOD ? cli_run(request, answer, &cost) : code;
}
