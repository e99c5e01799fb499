/* SPDX-License-Identifier: MIT */
/* check: is the plant file sound, and what is assumed where it is silent? */
#include "cli/cli.h"

#include "farvessel/steady.h"

static cli_exit list(const cli_request *request)
{
    fv_report_options options = cli_report_options(request);
    fv_text text = {0};
    fv_report_list(request->value[OPTION_LIST], &options, &text);
    cli_exit code = cli_deliver(request, NULL, &text);
    fv_text_free(&text);
    return code;
}

static cli_exit answer(const cli_request *request, const fv_plant *plant, fv_faults *faults)
{
    fv_report_options options = cli_report_options(request);
    fv_check_answer *checked = fv_check_answer_new(plant, faults);
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    fv_faults_sort(faults);
    if (checked) {
        fv_report_check(checked, faults, &options, &text);
        code = cli_deliver(request, plant, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_check_answer_free(checked);
    return code;
}

cli_exit cli_check(const cli_request *request)
{
    if (request->value[OPTION_LIST])
        return list(request);
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? cli_load(request, faults) : NULL;
    cli_exit code = plant ? answer(request, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
