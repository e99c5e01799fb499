/* SPDX-License-Identifier: MIT */
/* flow: which vessel gets how much steam, and which is starved? */
#include "cli/cli.h"

#include "farvessel/steady.h"

#include <stdlib.h>

cli_exit cli_read_fire(const cli_request *request, double *fire)
{
    const char *text = request->value[OPTION_FIRE];
    char *why = NULL;
    cli_exit code = CLI_GOOD;
    if (!text)
        return CLI_GOOD;
    if (fv_quantity_parse(NULL, FV_DIM_FRACTION, text, fire, &why) == FV_FAIL)
        code = cli_usage("--fire \"%s\": %s", text, why ? why : "no share");
    else if (*fire < 0.0 || *fire > 1.0)
        code = cli_usage("--fire \"%s\": a share from 0 to 100 %% of the boiler's own setting was expected", text);
    free(why);
    return code;
}

/* --fire, --phase and --no-turndown. */
static cli_exit read_options(const cli_request *request, fv_flow_options *options)
{
    const char *phase = request->value[OPTION_PHASE];
    fv_flow_defaults(options);
    options->turndown = !request->value[OPTION_NO_TURNDOWN];
    if (phase)
        options->phase = fv_word_find("heating|holding", phase);
    return cli_read_fire(request, &options->fire);
}

static cli_exit answer(const cli_request *request, const fv_flow_options *flow, const fv_plant *plant,
                       fv_faults *faults)
{
    fv_report_options options = cli_report_options(request);
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    cli_work_begin(&work);
    fv_flow_answer *solved = fv_flow_answer_new(plant, flow, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    if (solved) {
        fv_report_flow(solved, faults, &options, &text);
        code = cli_deliver(request, plant, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_flow_answer_free(solved);
    return code;
}

cli_exit cli_flow(const cli_request *request)
{
    fv_flow_options flow;
    cli_exit code = read_options(request, &flow);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? cli_load(request, faults) : NULL;
    code = plant ? answer(request, &flow, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
