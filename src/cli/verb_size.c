/* SPDX-License-Identifier: MIT */
/* size: which holes, which hose, which header? */
#include "cli/cli.h"

#include <string.h>

enum { WORD_LONGEST = 32 };

/* "drill,hose" */
static cli_exit read_vary(const cli_request *request, unsigned *vary)
{
    const char *text = request->value[OPTION_VARY];
    for (const char *at = text; at && *at;) {
        char word[WORD_LONGEST];
        const size_t length = strcspn(at, ", ");
        snprintf(word, sizeof word, "%.*s", (int)length, at);
        const int part = length < sizeof word ? fv_word_find(FV_SIZE_WORDS, word) : -1;
        if (part < 0)
            return cli_usage("--vary \"%s\": '%s' is none of " FV_SIZE_WORDS "; several are joined by commas", text,
                             word);
        *vary |= 1u << part;
        at += length;
        at += strspn(at, ", ");
    }
    return text && !*vary ? cli_usage("--vary takes some of " FV_SIZE_WORDS ", joined by commas") : CLI_GOOD;
}

static cli_exit read_options(const cli_request *request, fv_size_options *options)
{
    fv_size_limits *l = &options->limits;
    fv_size_defaults(options);
    options->each = request->value[OPTION_EACH] != NULL;
    options->hands = !request->value[OPTION_NO_HANDS];
    if (request->value[OPTION_FOR])
        options->goal = (fv_size_goal)fv_word_find(FV_SIZE_GOAL_WORDS, request->value[OPTION_FOR]);
    const struct {
        cli_option_id id;
        fv_dim dim;
        double *value;
    } numbers[] = {{OPTION_SPREAD, FV_DIM_NUMBER, &l->spread_most},
                   {OPTION_EVENNESS, FV_DIM_NUMBER, &l->evenness_least},
                   {OPTION_HOLE_AREA, FV_DIM_NUMBER, &l->area_most},
                   {OPTION_BOILER_SHARE, FV_DIM_NUMBER, &l->pressure_share_most},
                   {OPTION_VELOCITY, FV_DIM_VELOCITY, &l->velocity_most},
                   {OPTION_AGAINST_CONDENSATE, FV_DIM_VELOCITY, &l->backward_most},
                   {OPTION_COIL_VELOCITY, FV_DIM_VELOCITY, &l->coil_velocity_most},
                   {OPTION_LID_PRESSURE, FV_DIM_GAUGE_PRESSURE, &l->vent_pressure_most},
                   {OPTION_WAGE, FV_DIM_PRICE, &options->wage}};
    cli_exit code = read_vary(request, &options->vary);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers && code == CLI_GOOD; i++)
        code = cli_read_positive(request, numbers[i].id, numbers[i].dim, numbers[i].value);
    if (code == CLI_GOOD && l->spread_most < 1.0)
        code = cli_usage("--spread \"%s\": slowest / fastest vessel is 1 at best", request->value[OPTION_SPREAD]);
    if (code == CLI_GOOD && l->evenness_least > 1.0)
        code = cli_usage("--evenness \"%s\": smallest / largest flow of a hole is 1 at best",
                         request->value[OPTION_EVENNESS]);
    return code == CLI_GOOD ? cli_read_threads(request, &options->threads) : code;
}

/* What --save writes: the plant with the answer's sizes and what hands do. */
static fv_plant *chosen(const fv_size_answer *size, fv_faults *faults)
{
    return fv_change_copy(&size->rows[size->best].change, size->plant, faults);
}

static bool answer(cli_job *job, void *question)
{
    if (fv_steady_remarks(job->plant, NULL, job->faults) == FV_FAIL)
        return false;
    const fv_progress progress = cli_stoppable(job->progress);
    fv_size_answer *found = fv_size_run(job->plant, question, &progress, job->faults);
    cli_signals_end(found != NULL);
    bool good = found != NULL;
    fv_faults_sort(job->faults);
    if (good && cli_saves(job))
        good = (job->saved = chosen(found, job->faults)) != NULL;
    if (good && cli_asks_odds(job))
        good = cli_compare(job, fv_report_size_choices(found, job->report.units, &job->choices));
    if (good)
        fv_report_size(found, job->faults, &job->report, &job->text);
    fv_size_free(found);
    return good;
}

cli_exit cli_size(const cli_request *request)
{
    fv_size_options size;
    cli_exit code = read_options(request, &size);
    return code == CLI_GOOD ? cli_run_sure(request, answer, &size) : code;
}
