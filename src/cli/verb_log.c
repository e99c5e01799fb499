/* SPDX-License-Identifier: MIT */
/* log: does this log say that the batch was treated? */
#include "cli/cli.h"

#include "farvessel/datafile.h"
#include "farvessel/log.h"
#include "farvessel/plantfile.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static cli_exit read_temperature(const cli_request *request, cli_option_id option, const char *name, fv_dim dim,
                                 double *si)
{
    const char *text = request->value[option];
    char *why = NULL;
    cli_exit code = CLI_GOOD;
    if (text && fv_quantity_parse(NULL, dim, text, si, &why) == FV_FAIL)
        code = cli_usage("--%s \"%s\": %s", name, text, why ? why : "no temperature");
    free(why);
    return code;
}

static cli_exit read_options(const cli_request *request, fv_log_options *log, fv_datafile_options *file)
{
    fv_log_defaults(log);
    cli_exit code = cli_read_datafile(request, file);
    if (code == CLI_GOOD)
        code = read_temperature(request, OPTION_TARGET, "target", FV_DIM_TEMPERATURE, &log->target);
    if (code == CLI_GOOD)
        code = read_temperature(request, OPTION_REFERENCE, "reference", FV_DIM_TEMPERATURE, &log->reference);
    if (code == CLI_GOOD)
        code = read_temperature(request, OPTION_Z, "z", FV_DIM_TEMPERATURE_DIFFERENCE, &log->z);
    return code == CLI_GOOD ? cli_read_positive(request, OPTION_HOLD, FV_DIM_TIME, &log->hold) : code;
}

/* The plant that is named, or, of NAME-log.csv, NAME.xml beside it. */
static fv_plant *load_plant(const cli_request *request, bool *failed, fv_faults *faults)
{
    static const char ending[] = "-log.csv";
    const char *named = request->value[OPTION_PLANT], *log = request->operand;
    const size_t n = strlen(log), m = sizeof ending - 1;
    fv_text beside = {0};
    if (!named && !request->value[OPTION_TARGET] && n > m && strcmp(log + n - m, ending) == 0)
        fv_text_add(&beside, "%.*s.xml", (int)(n - m), log);
    const char *path = named ? named : beside.text && access(beside.text, R_OK) == 0 ? beside.text : NULL;
    fv_plant *plant = path ? fv_plantfile_read(path, NULL, faults) : NULL;
    *failed = path && !plant;
    fv_text_free(&beside);
    return plant;
}

static cli_exit answer(const cli_request *request, const fv_log_options *options, const fv_plant *plant,
                       const fv_logfile *log, fv_faults *faults)
{
    fv_report_options report = cli_report_options(request);
    fv_text text = {0};
    cli_exit code;
    report.units = cli_units(request, plant);
    fv_log_answer *found = fv_log_run(plant, log, options, faults);
    fv_faults_sort(faults);
    if (found) {
        fv_report_log(found, faults, &report, &text);
        code = cli_deliver(request, plant, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_log_free(found);
    return code;
}

cli_exit cli_log(const cli_request *request)
{
    fv_log_options options;
    fv_datafile_options file;
    cli_exit code = read_options(request, &options, &file);
    if (code != CLI_GOOD)
        return code;
    if (!request->operand)
        return cli_usage("which log? As in `farvessel log run.csv --plant plant.xml`");
    fv_faults *faults = fv_faults_new();
    bool failed = false;
    fv_plant *plant = faults ? load_plant(request, &failed, faults) : NULL;
    fv_logfile *log = faults && !failed ? fv_logfile_read(request->operand, &file, faults) : NULL;
    code = log ? answer(request, &options, plant, log, faults) : cli_say_faults(faults);
    fv_logfile_free(log);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
