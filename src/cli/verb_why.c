/* SPDX-License-Identifier: MIT */
/* why: why does this vessel heat slowly, and what would help? */
#include "cli/cli.h"

#include "farvessel/why.h"

static cli_exit read_options(const cli_request *request, fv_why_options *options)
{
    fv_why_defaults(options);
    options->vessel = request->value[OPTION_VESSEL];
    options->remedies = !request->value[OPTION_NO_REMEDIES];
    return cli_read_threads(request, &options->threads);
}

/* What --save writes: the plant with the next step. */
static fv_plant *improved(const fv_why_answer *why, fv_faults *faults)
{
    const fv_change nothing = {0};
    return fv_change_copy(why->cheapest >= 0 ? &why->remedies[why->cheapest].change : &nothing, why->plant, faults);
}

static cli_exit answer(const cli_request *request, const fv_why_options *why, const fv_plant *plant, fv_faults *faults)
{
    fv_report_options options = cli_report_options(request);
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    cli_work_begin(&work);
    fv_why_answer *found = fv_why_run(plant, why, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    fv_plant *saved = found && request->value[OPTION_SAVE] ? improved(found, faults) : NULL;
    if (found && (saved || !request->value[OPTION_SAVE])) {
        fv_report_why(found, faults, &options, &text);
        code = cli_deliver(request, saved, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_plant_free(saved);
    fv_why_free(found);
    return code;
}

cli_exit cli_why(const cli_request *request)
{
    fv_why_options why;
    cli_exit code = read_options(request, &why);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? cli_load(request, faults) : NULL;
    code = plant ? answer(request, &why, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
