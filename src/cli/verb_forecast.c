/* SPDX-License-Identifier: MIT */
/* forecast: the log so far, and when each vessel will be done. With --follow again and again, as the logger writes. */
#include "cli/cli.h"

#include "farvessel/forecast.h"

#include <sys/stat.h>
#include <time.h>

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

static cli_exit once(const cli_request *request, const fv_forecast_options *options, const fv_datafile_options *file)
{
    fv_faults *faults = fv_faults_new();
    char digest[CLI_DIGEST_SIZE];
    fv_plant *plant = faults ? cli_load(request, digest, faults) : NULL;
    fv_logfile *log = plant ? fv_logfile_read(request->value[OPTION_LOG], file, faults) : NULL;
    const cli_exit code = log ? answer(request, options, plant, log, faults) : cli_say_faults(faults);
    fv_logfile_free(log);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}

/* Waits until the file has grown, or was written anew, and then stands still for a second. */
static bool wait_for_more(const char *path, off_t *size)
{
    const struct timespec second = {.tv_sec = 1};
    struct stat now;
    off_t before = *size;
    do {
        nanosleep(&second, NULL);
        if (stat(path, &now) != 0)
            return false;
        const bool still = now.st_size == before;
        before = now.st_size;
        if (still && now.st_size != *size)
            break;
    } while (true);
    *size = before;
    return true;
}

cli_exit cli_forecast(const cli_request *request)
{
    fv_forecast_options options;
    fv_datafile_options file;
    struct stat now;
    fv_forecast_defaults(&options);
    cli_exit code = cli_read_fit(request, &options.fit, &file);
    options.then = request->then;
    options.then_count = request->then_count;
    if (code != CLI_GOOD)
        return code;
    const char *path = request->value[OPTION_LOG];
    if (request->value[OPTION_FOLLOW] && request->value[OPTION_NOW])
        return cli_usage("--follow reads on as time goes by, so it takes no --now");
    off_t size = stat(path, &now) == 0 ? now.st_size : 0;
    code = once(request, &options, &file);
    while (request->value[OPTION_FOLLOW] && code != CLI_SYSTEM && wait_for_more(path, &size)) {
        putchar('\n');
        fflush(stdout);
        code = once(request, &options, &file);
    }
    return code;
}
