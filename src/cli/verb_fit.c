/* SPDX-License-Identifier: MIT */
/* fit: what must the plant be like, given the log? */
#include "cli/cli.h"

#include "farvessel/fit.h"

#include <math.h>

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

static fv_value *value_of(fv_plant *plant, const fv_setting *setting)
{
    const fv_element *element;
    void *part = fv_plant_find(plant, setting->path, &element);
    const fv_attr *attr = part ? fv_attr_find(element, setting->attribute) : NULL;
    return attr ? fv_attr_value(part, attr) : NULL;
}

/* What is left of a spread, as spread= has it. */
static void narrow(const fv_unknown *u, double narrower, fv_value *value)
{
    double share = u->spread * narrower;
    value->spread_as = FV_SPREAD_ABSOLUTE;
    if (u->shape == FV_SPREAD_LOG_NORMAL || u->shape == FV_SPREAD_EVEN_FACTOR) {
        value->spread_as = FV_SPREAD_RELATIVE;
        share =
            (u->shape == FV_SPREAD_LOG_NORMAL ? pow(1 + u->spread, narrower) : pow(u->spread, narrower / sqrt(3.0))) -
            1; /* even: a third's root */
    }
    value->spread = (float)share;
}

/* The plant as fitted, each fitted value known by a probe to what the log left of its spread, with the log's hash above
 * it. What belongs to that day has been so, but says no more of another. */
static fv_plant *fitted(const fv_fit_answer *fit, const char *digest, fv_faults *faults)
{
    fv_plant *plant = fv_change_copy(&fit->best, fit->plant, faults);
    for (size_t i = 0; plant && i < fit->best.count; i++) {
        fv_value *value = value_of(plant, &fit->best.settings[i]);
        if (value)
            value->known = FV_KNOWN_PROBE;
    }
    for (size_t k = 0; plant && k < fit->unknown_count; k++)
        for (size_t t = 0; t < fit->unknown_list[k].target_count; t++) {
            const fv_unknown *u = &fit->unknown_list[k];
            fv_value *value = value_of(plant, &u->targets[t]);
            if (value)
                narrow(u, u->of_day ? 1 : fmin(1, fit->unknowns[k].narrower), value);
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
