/* SPDX-License-Identifier: MIT */
/* fit: what must the plant be like, given the log? */
#include "cli/cli.h"

#include "farvessel/fit.h"

cli_exit cli_read_fit(const cli_request *request, fv_fit_options *options, fv_datafile_options *file)
{
    fv_fit_defaults(options);
    if (!request->value[OPTION_LOG])
        return cli_usage("which log? As in `farvessel %s plant.xml --log run.csv`", request->verb->name);
    cli_exit code = cli_read_datafile(request, file);
    if (code == CLI_GOOD)
        code = cli_read_threads(request, &options->threads);
    if (code == CLI_GOOD)
        code = cli_read_seed(request, &options->seed);
    options->lit = request->value[OPTION_LIT];
    options->now = request->value[OPTION_NOW];
    options->did = request->did;
    options->did_count = request->did_count;
    return code;
}

/* The plant as fitted, each fitted value known by a probe, with the log's hash above it. */
static fv_plant *fitted(const fv_fit_answer *fit, const char *digest, fv_faults *faults)
{
    fv_plant *plant = fv_change_copy(&fit->best, fit->plant, faults);
    for (size_t i = 0; plant && i < fit->best.count; i++) {
        const fv_element *element;
        void *part = fv_plant_find(plant, fit->best.settings[i].path, &element);
        const fv_attr *attr = part ? fv_attr_find(element, fit->best.settings[i].attribute) : NULL;
        if (attr)
            fv_attr_value(part, attr)->known = FV_KNOWN_PROBE;
    }
    if (plant)
        plant->comment = fv_arena_printf(plant->arena, "Fitted to %s, SHA-256 %s", fit->log->file, digest);
    return plant;
}

static cli_exit answer(const cli_request *request, const fv_fit_options *options, const fv_plant *plant,
                       const fv_logfile *log, fv_faults *faults)
{
    const fv_report_options report = cli_report_options(request);
    const bool save = request->value[OPTION_SAVE] != NULL;
    char digest[CLI_DIGEST_SIZE] = "";
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    cli_work_begin(&work);
    fv_fit_answer *found = fv_fit_run(plant, log, options, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    const bool hashed = !save || cli_digest(request->value[OPTION_LOG], digest, faults);
    fv_plant *saved = found && save && hashed ? fitted(found, digest, faults) : NULL;
    if (found && (saved || !save)) {
        fv_report_fit(found, faults, &report, &text);
        code = cli_deliver(request, saved, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_plant_free(saved);
    fv_fit_free(found);
    return code;
}

cli_exit cli_fit(const cli_request *request)
{
    fv_fit_options options;
    fv_datafile_options file;
    cli_exit code = cli_read_fit(request, &options, &file);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    char digest[CLI_DIGEST_SIZE];
    fv_plant *plant = faults ? cli_load(request, digest, faults) : NULL;
    fv_logfile *log = plant ? fv_logfile_read(request->value[OPTION_LOG], &file, faults) : NULL;
    code = log ? answer(request, &options, plant, log, faults) : cli_say_faults(faults);
    fv_logfile_free(log);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
