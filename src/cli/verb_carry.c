/* SPDX-License-Identifier: MIT */
/* carry: does one boiler carry a further vessel? */
#include "cli/cli.h"

#include "farvessel/carry.h"

enum { COUNT_MOST = 20, THREADS_MOST = 64 };

static cli_exit read_count(const cli_request *request, cli_option_id option, const char *name, size_t most,
                           size_t *count)
{
    const char *text = request->value[option];
    double value = 0.0;
    if (!text)
        return CLI_GOOD;
    if (fv_quantity_parse(NULL, FV_DIM_COUNT, text, &value, NULL) == FV_FAIL || value > (double)most)
        return cli_usage("--%s \"%s\": a whole number from 0 to %zu was expected", name, text, most);
    *count = (size_t)value;
    return CLI_GOOD;
}

cli_exit cli_read_threads(const cli_request *request, size_t *threads)
{
    return read_count(request, OPTION_THREADS, "threads", THREADS_MOST, threads);
}

static cli_exit read_options(const cli_request *request, fv_carry_options *options)
{
    fv_carry_defaults(options);
    options->like = request->value[OPTION_LIKE];
    options->at = request->value[OPTION_AT];
    options->others = !request->value[OPTION_NO_OTHERS];
    cli_exit code = read_count(request, OPTION_MORE, "more", COUNT_MOST, &options->more);
    if (code == CLI_GOOD)
        code = read_count(request, OPTION_FEWER, "fewer", COUNT_MOST, &options->fewer);
    if (code == CLI_GOOD)
        code = cli_read_duration(request, OPTION_TURNAROUND, "turnaround", &options->turnaround);
    return code == CLI_GOOD ? cli_read_threads(request, &options->threads) : code;
}

/* What --save writes: the plant with the number of vessels in question, and the stagger that it needs. */
static fv_plant *grown(const fv_carry_answer *carry, fv_faults *faults)
{
    const fv_carry_row *row = &carry->rows[carry->asked];
    const fv_change nothing = {0};
    return fv_change_copy(row->together.carries ? &nothing : &row->stagger, row->plant, faults);
}

static cli_exit answer(const cli_request *request, const fv_carry_options *carry, const fv_plant *plant,
                       fv_faults *faults)
{
    fv_report_options options = cli_report_options(request);
    cli_work work;
    fv_text text = {0};
    cli_exit code = CLI_GOOD;
    if (fv_steady_remarks(plant, NULL, faults) == FV_FAIL)
        return cli_say_faults(faults);
    cli_work_begin(&work);
    fv_carry_answer *found = fv_carry_run(plant, carry, &work.progress, faults);
    cli_work_end(&work);
    fv_faults_sort(faults);
    fv_plant *saved = found && request->value[OPTION_SAVE] ? grown(found, faults) : NULL;
    if (found && (saved || !request->value[OPTION_SAVE])) {
        fv_report_carry(found, faults, &options, &text);
        code = cli_deliver(request, saved, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_plant_free(saved);
    fv_carry_free(found);
    return code;
}

cli_exit cli_carry(const cli_request *request)
{
    fv_carry_options carry;
    cli_exit code = read_options(request, &carry);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? cli_load(request, faults) : NULL;
    code = plant ? answer(request, &carry, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
