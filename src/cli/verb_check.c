/* SPDX-License-Identifier: MIT */
/* check: is the plant file sound, and what is assumed where it is silent? */
#include "cli/cli.h"

#include <string.h>

static cli_exit list(const cli_request *request)
{
    fv_report_options options = cli_report_options(request);
    fv_text text = {0};
    fv_report_list(request->value[OPTION_LIST], &options, &text);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}

static bool answer(cli_job *job, void *question)
{
    (void)question;
    fv_check_answer *checked = fv_check_answer_new(job->plant, job->faults);
    fv_assumed_answer *assumed = NULL;
    const bool good = checked && cli_lids(job) && cli_assumed(job, &assumed);
    fv_faults_sort(job->faults);
    job->report.assumed = assumed;
    if (good)
        fv_report_check(checked, job->faults, &job->report, &job->text);
    fv_assumed_free(assumed);
    fv_check_answer_free(checked);
    return good;
}

static cli_exit once(const cli_request *request, const void *question)
{
    (void)question;
    return cli_run(request, answer, NULL);
}

cli_exit cli_check(const cli_request *request)
{
    const char *path = request->operand;
    if (request->value[OPTION_LIST])
        return list(request);
    if (!request->value[OPTION_WATCH])
        return once(request, NULL);
    if (path && strcmp(path, "-") == 0)
        return cli_usage("--watch looks at a file, not at standard input");
    return path ? cli_watch(request, path, once, NULL) : once(request, NULL);
}
