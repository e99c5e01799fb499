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

static bool answer(cli_job *job, void *question)
{
    char digest[CLI_DIGEST_SIZE] = "";
    const fv_progress progress = cli_stoppable(job->progress);
    fv_fit_answer *found = fv_fit_run(job->plant, job->log, question, &progress, job->faults);
    bool good = found != NULL;
    cli_signals_end(good);
    fv_faults_sort(job->faults);
    if (cli_saves(job))
        good = cli_digest(job->request->value[OPTION_LOG], digest, job->faults) && good &&
               (job->saved = fitted(found, digest, job->faults)) != NULL;
    if (good)
        fv_report_fit(found, job->faults, &job->report, &job->text);
    fv_fit_free(found);
    return good;
}

cli_exit cli_fit(const cli_request *request)
{
    fv_fit_options options;
    fv_datafile_options file;
    const cli_exit code = cli_read_fit(request, &options, &file);
    return code == CLI_GOOD ? cli_run_log(request, &file, answer, &options) : code;
}
