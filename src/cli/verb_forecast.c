/* SPDX-License-Identifier: MIT */
/* forecast: the log so far, and when each vessel will be done. With --follow again and again, as the logger writes. */
#include "cli/cli.h"

#include "farvessel/forecast.h"

static bool answer(cli_job *job, void *question)
{
    const bool follows = job->request->value[OPTION_FOLLOW] != NULL; /* Ctrl-C ends that at once */
    const fv_progress progress = follows ? *job->progress : cli_stoppable(job->progress);
    fv_forecast_answer *found = fv_forecast_run(job->plant, job->log, question, &progress, job->faults);
    const bool good = found != NULL;
    if (!follows)
        cli_signals_end(good);
    fv_faults_sort(job->faults);
    if (good)
        fv_report_forecast(found, job->faults, &job->report, &job->text);
    fv_forecast_free(found);
    return good;
}

typedef struct {
    fv_forecast_options options;
    fv_datafile_options file;
} forecast_question;

static cli_exit once(const cli_request *request, const void *asked)
{
    const forecast_question *question = asked;
    fv_forecast_options options = question->options;
    return cli_run_log(request, &question->file, answer, &options);
}

cli_exit cli_forecast(const cli_request *request)
{
    forecast_question question;
    fv_forecast_defaults(&question.options);
    cli_exit code = cli_read_fit(request, &question.options.fit, &question.file);
    question.options.then = request->then;
    question.options.then_count = request->then_count;
    if (code != CLI_GOOD)
        return code;
    if (!request->value[OPTION_FOLLOW])
        return once(request, &question);
    if (request->value[OPTION_NOW])
        return cli_usage("--follow reads on as time goes by, so it takes no --now");
    return cli_watch(request, request->value[OPTION_LOG], once, &question);
}
