/* SPDX-License-Identifier: MIT */
/* odds: how sure is this, and what should be measured first? */
#include "cli/cli.h"

#include "farvessel/odds.h"

static cli_exit read_options(const cli_request *request, fv_odds_options *odds, fv_report_options *report)
{
    double runs = 0, seed = 0;
    fv_odds_defaults(odds);
    cli_exit code = cli_read_start(request, &report->clock, &report->twelve_hours);
    if (code == CLI_GOOD)
        code = cli_read_threads(request, &odds->threads);
    if (code == CLI_GOOD)
        code = cli_read_whole(request, OPTION_RUNS, 64, 1 << 20, &runs);
    if (code == CLI_GOOD)
        code = cli_read_whole(request, OPTION_SEED, 0, 4294967295.0, &seed);
    if (request->value[OPTION_RUNS])
        odds->runs = (size_t)(runs / FV_ODDS_SETS + 0.5) * FV_ODDS_SETS;
    if (request->value[OPTION_SEED])
        odds->seed = (unsigned long)seed;
    odds->exact = request->value[OPTION_EXACT] != NULL;
    return code;
}

static cli_exit answer(const cli_request *request, const fv_odds_options *odds, const fv_report_options *report,
                       const fv_plant *plant, fv_faults *faults)
{
    cli_work work;
    fv_text text = {0};
    cli_work_begin(&work);
    const fv_progress progress = cli_stoppable(&work.progress);
    cli_signals_hold();
    fv_odds_answer *found = fv_odds_run(plant, odds, &progress, faults);
    if (found)
        cli_signals_forget();
    cli_signals_release();
    cli_work_end(&work);
    fv_faults_sort(faults);
    cli_exit code = CLI_GOOD;
    if (found) {
        fv_report_odds(found, faults, report, &text);
        code = cli_deliver(request, plant, &text);
    } else {
        code = cli_say_faults(faults);
    }
    fv_text_free(&text);
    fv_odds_free(found);
    return code;
}

cli_exit cli_odds(const cli_request *request)
{
    fv_odds_options odds;
    fv_report_options report = cli_report_options(request);
    cli_exit code = read_options(request, &odds, &report);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    char digest[CLI_DIGEST_SIZE];
    fv_plant *plant = faults ? cli_load(request, digest, faults) : NULL;
    code = plant ? answer(request, &odds, &report, plant, faults) : cli_say_faults(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
