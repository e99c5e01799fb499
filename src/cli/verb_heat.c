/* SPDX-License-Identifier: MIT */
/* heat: when is each core done, and which vessel is starved? */
#include "cli/cli.h"

enum { RANKED_MOST = 8 }; /* vessels */
#define SAMPLES_MOST 1e6
#define YEAR (365.0 * 86400.0)

/* --until, --every and --fire. */
static cli_exit read_options(const cli_request *request, fv_heat_options *options)
{
    fv_heat_defaults(options);
    cli_exit code = cli_read_positive(request, OPTION_UNTIL, FV_DIM_TIME, &options->until);
    if (code == CLI_GOOD)
        code = cli_read_positive(request, OPTION_EVERY, FV_DIM_TIME, &options->every);
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

static bool answer(cli_job *job, void *question)
{
    if (fv_steady_remarks(job->plant, NULL, job->faults) == FV_FAIL || !cli_lids(job))
        return false;
    fv_heat_result *result = fv_heat_run(job->plant, question, job->progress, job->faults);
    fv_faults_sort(job->faults);
    /* Only people read it there, and not of plants that take long; check ranks larger ones, too. */
    const bool ranks = result && job->report.format == FV_REPORT_TEXT && job->plant->vessel_count <= RANKED_MOST;
    fv_assumed_answer *assumed = NULL;
    fv_overheat_answer *overheat = result ? fv_overheat_run(result, job->progress, job->faults) : NULL;
    bool good = overheat && (!ranks || cli_assumed(job, &assumed));
    job->report.assumed = assumed;
    job->report.overheat = overheat;
    if (good && cli_asks_odds(job))
        good = cli_compare(job, fv_report_heat_choices(job->plant, &job->choices));
    if (good)
        fv_report_heat(result, job->faults, &job->report, &job->text);
    fv_assumed_free(assumed);
    fv_overheat_free(overheat);
    fv_heat_free(result);
    return good;
}

cli_exit cli_heat(const cli_request *request)
{
    fv_heat_options heat;
    cli_exit code = read_options(request, &heat);
    return code == CLI_GOOD ? cli_run_sure(request, answer, &heat) : code;
}
