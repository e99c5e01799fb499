/* SPDX-License-Identifier: MIT */
/* forecast: the log so far, and when each vessel will be done. With --follow again and again, as the logger writes. */
#include "cli/cli.h"

#include "farvessel/forecast.h"

static cli_exit answer(const cli_request *request, const fv_forecast_options *options, const fv_plant *plant,
                       const fv_logfile *log, fv_faults *faults)
{
    const fv_report_options report = cli_report_options(request);
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    cli_work_begin(&work);
    fv_forecast_answer *found = fv_forecast_run(plant, log, options, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    if (found) {
        fv_report_forecast(found, faults, &report, &text);
        code = cli_deliver(request, plant, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_forecast_free(found);
    return code;
}

typedef struct {
    fv_forecast_options options;
    fv_datafile_options file;
} forecast_question;

static cli_exit once(const cli_request *request, const void *asked)
{
    const forecast_question *question = asked;
    fv_faults *faults = fv_faults_new();
    char digest[CLI_DIGEST_SIZE];
    fv_plant *plant = faults ? cli_load(request, digest, faults) : NULL;
    fv_logfile *log = plant ? fv_logfile_read(request->value[OPTION_LOG], &question->file, faults) : NULL;
    const cli_exit code = log ? answer(request, &question->options, plant, log, faults) : cli_say_faults(faults);
    fv_logfile_free(log);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
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
