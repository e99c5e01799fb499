/* SPDX-License-Identifier: MIT */
/* heat: when is each core done, and which vessel is starved? */
#include "cli/cli.h"

#include "farvessel/heatup.h"

#define SAMPLES_MOST 1e6
#define YEAR (365.0 * 86400.0)

/* --until, --every and --fire. */
static cli_exit read_options(const cli_request *request, fv_heat_options *options)
{
    fv_heat_defaults(options);
    cli_exit code = cli_read_duration(request, OPTION_UNTIL, "until", &options->until);
    if (code == CLI_GOOD)
        code = cli_read_duration(request, OPTION_EVERY, "every", &options->every);
    if (code == CLI_GOOD)
        code = cli_read_fire(request, &options->fire);
    if (code != CLI_GOOD)
        return code;
    if (options->until > YEAR)
        return cli_usage("--until \"%s\": at most a year", request->value[OPTION_UNTIL]);
    if (options->until / options->every > SAMPLES_MOST)
        return cli_usage("--every and --until would make more than a million samples");
    return CLI_GOOD;
}

static cli_exit answer(const cli_request *request, const fv_heat_options *heat, const fv_report_options *options,
                       const fv_plant *plant, fv_faults *faults)
{
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    if (fv_steady_remarks(plant, NULL, faults) == FV_FAIL)
        return cli_say_faults(faults);
    cli_work_begin(&work);
    fv_heat_result *result = fv_heat_run(plant, heat, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    if (result) {
        fv_report_heat(result, faults, options, &text);
        code = cli_deliver(request, plant, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_heat_free(result);
    return code;
}

cli_exit cli_heat(const cli_request *request)
{
    fv_report_options options = cli_report_options(request);
    fv_heat_options heat;
    cli_exit code = read_options(request, &heat);
    if (code == CLI_GOOD)
        code = cli_read_start(request, &options.clock, &options.twelve_hours);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? cli_load(request, faults) : NULL;
    code = plant ? answer(request, &heat, &options, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
