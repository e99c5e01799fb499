/* SPDX-License-Identifier: MIT */
/* What every verb does with a plant: read it, answer with progress shown, and deliver the answer or say what is wrong.
 */
#include "cli/cli.h"

#include <string.h>

/* `units`: as the file says them, for the plant that is saved. */
static cli_exit answer_and_deliver(cli_job *job, fv_plant *plant, fv_value units, cli_answer answer, void *question)
{
    cli_work work;
    cli_work_begin(&work);
    job->progress = &work.progress;
    const bool good = answer(job, question);
    cli_work_end(&work);
    job->progress = NULL;
    if (!good)
        return cli_say_faults(job->faults);
    fv_plant *saved = job->saved ? job->saved : plant;
    saved->units = units;
    return cli_deliver(job->request, saved, &job->text);
}

static cli_exit run(const cli_request *request, bool sure, const fv_datafile_options *file, cli_answer answer,
                    void *question)
{
    cli_job job = {.request = request, .report = cli_report_options(request), .faults = fv_faults_new()};
    cli_exit usage = sure ? cli_read_odds(request, &job.odds) : CLI_GOOD;
    if (usage == CLI_GOOD)
        usage = cli_read_start(request, &job.report.clock, &job.report.twelve_hours);
    if (usage != CLI_GOOD) {
        fv_faults_free(job.faults);
        return usage;
    }
    fv_plant *plant = job.faults ? cli_load(request, job.digest, job.faults) : NULL;
    fv_logfile *log = plant && file ? fv_logfile_read(request->value[OPTION_LOG], file, job.faults) : NULL;
    job.plant = plant;
    const fv_value units = plant ? plant->units : (fv_value){.origin = FV_ASSUMED};
    if (plant && request->value[OPTION_UNITS]) /* trade sizes follow; not said by the file, so not saved with it */
        plant->units = (fv_value){.v = cli_units(request, NULL), .origin = FV_ASSUMED};
    job.report.units = cli_units(request, plant);
    job.log = log;
    const cli_exit code =
        plant && (log || !file) ? answer_and_deliver(&job, plant, units, answer, question) : cli_say_faults(job.faults);
    fv_text_free(&job.text);
    fv_lid_free(job.lids);
    fv_choices_free(job.sure);
    fv_choice_list_free(&job.choices);
    fv_plant_free(job.saved);
    fv_logfile_free(log);
    fv_plant_free(plant);
    fv_faults_free(job.faults);
    return code;
}

cli_exit cli_run(const cli_request *request, cli_answer answer, void *question)
{
    return run(request, false, NULL, answer, question);
}

cli_exit cli_run_sure(const cli_request *request, cli_answer answer, void *question)
{
    return run(request, true, NULL, answer, question);
}

cli_exit cli_run_log(const cli_request *request, const fv_datafile_options *file, cli_answer answer, void *question)
{
    return run(request, false, file, answer, question);
}

bool cli_lid_remarks(cli_job *job)
{
    job->lids = fv_lid_run(job->plant, job->faults);
    fv_lid_remarks(job->lids, job->faults);
    return job->lids != NULL;
}

bool cli_lids(cli_job *job)
{
    const bool good = cli_lid_remarks(job);
    job->report.lids = job->lids;
    return good;
}

bool cli_saves(const cli_job *job)
{
    return job->request->value[OPTION_SAVE] != NULL;
}

/* Not in short answers, and as CSV only in a table of its own. */
static bool shows_assumed(const cli_job *job)
{
    const fv_report_options *report = &job->report;
    if (report->format == FV_REPORT_CSV)
        return report->table && strcmp(report->table, "matters") == 0;
    return !report->brief && !job->request->value[OPTION_NO_RANKING];
}

bool cli_assumed(const cli_job *job, fv_assumed_answer **found)
{
    *found = NULL;
    if (!shows_assumed(job))
        return true;
    fv_faults *own = fv_faults_new(); /* where a run has no solution, the answer stands without it */
    *found = own ? fv_assumed_run(job->plant, 0, job->progress, own) : NULL;
    const bool good = *found || !fv_faults_blame_system(own);
    fv_faults_free(own);
    if (!good)
        fv_error(job->faults, FV_ERR_SYSTEM, job->plant->loc, "out of memory");
    return good;
}
