/* SPDX-License-Identifier: MIT */
/* week: what can be treated in a week, and who does what when? */
#include "farvessel/calendar.h"

#include "cli/cli.h"

#include <math.h>
#include <string.h>
#include <time.h>

#define DAY 86400.0

static bool is_calendar(const cli_request *request)
{
    const char *format = request->value[OPTION_FORMAT];
    return format && strcmp(format, "ics") == 0;
}

/* The Monday after today. */
static void next_monday(char *buffer, size_t size)
{
    time_t now = time(NULL);
    struct tm date;
    localtime_r(&now, &date);
    date.tm_mday += (8 - date.tm_wday) % 7 == 0 ? 7 : (8 - date.tm_wday) % 7;
    date.tm_hour = 12;
    mktime(&date);
    strftime(buffer, size, "%Y-%m-%d", &date);
}

static void calendar(cli_job *job, const fv_week_answer *found)
{
    char next[16];
    next_monday(next, sizeof next);
    const char *monday = job->request->value[OPTION_MONDAY];
    fv_report_week_calendar(found, monday ? monday : next, &job->report, &job->text);
}

static bool answer(cli_job *job, void *question)
{
    fv_week_answer *found = fv_week_answer_run(job->plant, question, job->progress, job->faults);
    const bool good = found != NULL;
    fv_faults_sort(job->faults);
    if (good && is_calendar(job->request))
        calendar(job, found);
    else if (good)
        fv_report_week(found, job->faults, &job->report, &job->text);
    fv_week_answer_free(found);
    return good;
}

/* An empty calendar that begins there can be written; asked before the week is planned, which takes seconds. */
static bool is_monday(const char *date)
{
    fv_text empty = {0};
    const bool good = fv_calendar_write(NULL, date, NULL, 0, &empty) == FV_OK || empty.failed;
    fv_text_free(&empty);
    return good;
}

/* The same sample each time, unless another is asked for. */
static cli_exit read_odds(const cli_request *request, fv_week_options *week)
{
    double runs = FV_WEEK_ODDS;
    if (!request->value[OPTION_ODDS] && (request->value[OPTION_RUNS] || request->value[OPTION_SEED]))
        return cli_usage("--runs and --seed go with --odds");
    cli_exit code = cli_read_whole(request, OPTION_RUNS, FV_WEEK_ODDS_STEP, 4096, &runs);
    if (code == CLI_GOOD)
        code = cli_read_seed(request, &week->seed);
    if (request->value[OPTION_ODDS])
        week->odds = (size_t)ceil(runs / FV_WEEK_ODDS_STEP) * FV_WEEK_ODDS_STEP;
    return code;
}

cli_exit cli_week(const cli_request *request)
{
    fv_week_options week;
    const char *monday = request->value[OPTION_MONDAY];
    fv_week_defaults(&week);
    if (monday && !is_calendar(request))
        return cli_usage("--monday goes with --format ics");
    if (monday && !is_monday(monday))
        return cli_usage("--monday \"%.20s\": a Monday such as 2031-03-17 was expected", monday);
    cli_exit code = cli_read_positive(request, OPTION_GRID, FV_DIM_TIME, &week.slot);
    if (code == CLI_GOOD)
        code = cli_read_threads(request, &week.threads);
    if (code == CLI_GOOD)
        code = read_odds(request, &week);
    if (code == CLI_GOOD && (week.slot < 300.0 || week.slot > 7200.0 || fmod(DAY, week.slot) != 0.0))
        code = cli_usage("--grid \"%s\": from 5 min to 2 h, so that it divides a day", request->value[OPTION_GRID]);
    return code == CLI_GOOD ? cli_run(request, answer, &week) : code;
}
