/* SPDX-License-Identifier: MIT */
/* week: what can be treated in a week, and who does what when? */
#include "farvessel/calendar.h"
#include "farvessel/forecast.h"

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

typedef struct {
    fv_week_options week;
    fv_forecast_options forecast; /* of the batch on the steam, where --at is asked */
    fv_datafile_options file;
    char now[32]; /* --at, on the log's clock and date */
    fv_forecast_answer *batch;
} week_question;

/* The log's own date is that day; a log without one cannot say. */
static bool is_that_day(cli_job *job, double time, double at)
{
    char stamp[32];
    struct tm date = {0};
    if (!job->log->dated)
        return true;
    fv_logfile_stamp(job->log, time, stamp, sizeof stamp);
    if (sscanf(stamp, "%d-%d-%d", &date.tm_year, &date.tm_mon, &date.tm_mday) != 3)
        return true;
    date.tm_year -= 1900;
    date.tm_mon -= 1;
    date.tm_hour = 12;
    mktime(&date);
    if ((date.tm_wday + 6) % 7 == (int)(at / DAY))
        return true;
    fv_error(job->faults, FV_ERR_INPUT, (fv_loc){job->log->file, 0},
             "--at \"%s\": by the log's dates that time is on %.10s, which is another day of the week",
             job->request->value[OPTION_AT], stamp);
    return false;
}

/* The batch on the steam, by its log: those vessels that are likely to come to an end. */
static bool find_now(cli_job *job, week_question *q)
{
    fv_week_now *now = &q->week.now;
    const fv_logfile *log = job->log;
    double time = 0;
    if (!log->clock) {
        fv_error(job->faults, FV_ERR_INPUT, (fv_loc){log->file, 0}, "--at needs a log with a clock");
        return false;
    }
    const double middle = 0.5 * (log->time[0] + log->time[log->count - 1]);
    if (fv_logfile_when(log, q->forecast.fit.now, middle, "--at", &time, job->faults) == FV_FAIL ||
        !is_that_day(job, time, now->at))
        return false;
    q->forecast.fit.now = fv_logfile_stamp(log, time, q->now, sizeof q->now);
    fv_forecast_answer *f = fv_forecast_run(job->plant, log, &q->forecast, job->progress, job->faults);
    for (size_t v = 0; f && v < job->plant->vessel_count && v < FV_WEEK_PLACES_MOST; v++)
        if (f->vessels[v].chance > 0.5) {
            now->on |= 1u << v;
            now->steam[0] = fmax(now->steam[0], f->vessels[v].hold.middle);
            now->steam[1] = fmax(now->steam[1], f->vessels[v].hold.high);
        }
    if (f) {
        now->burning = time - f->lit;
        now->ends = f->ends;
        now->end_count = f->end_count;
    }
    if (f && (now->on == 0 || !isfinite(now->steam[1])))
        fv_error(job->faults, FV_ERR_INPUT, (fv_loc){log->file, 0},
                 "the batch on the steam does not come to its end nine times in ten, so nothing is planned after it; "
                 "`farvessel forecast` says which vessel is late");
    q->batch = f;
    return f && now->on > 0 && isfinite(now->steam[1]);
}

static bool answer(cli_job *job, void *question)
{
    week_question *q = question;
    fv_week_answer *found = NULL;
    if (!job->log || find_now(job, q))
        found = fv_week_answer_run(job->plant, &q->week, job->progress, job->faults);
    const bool good = found != NULL;
    fv_faults_sort(job->faults);
    if (good && is_calendar(job->request))
        calendar(job, found);
    else if (good)
        fv_report_week(found, job->faults, &job->report, &job->text);
    fv_week_answer_free(found);
    fv_forecast_free(q->batch);
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
    week_question q = {.file = {0}};
    fv_week_options *week = &q.week;
    const char *monday = request->value[OPTION_MONDAY];
    const bool rest = request->value[OPTION_AT] != NULL;
    fv_week_defaults(week);
    fv_forecast_defaults(&q.forecast);
    if (rest && is_calendar(request))
        return cli_usage("--format ics is of the week that repeats, so it takes no --at");
    if (!rest && (request->value[OPTION_LOG] || request->value[OPTION_LIT] || request->did_count > 0))
        return cli_usage("--log, --lit and --did go with --at, which says from when on the week is planned anew");
    for (int o = OPTION_DATES; !rest && o <= OPTION_INTERVAL; o++)
        if (request->value[o])
            return cli_usage("--dates, --unit, --clock, --times and --interval are of a log, which goes with --at");
    if (monday && !is_calendar(request))
        return cli_usage("--monday goes with --format ics");
    if (monday && !is_monday(monday))
        return cli_usage("--monday \"%.20s\": a Monday such as 2031-03-17 was expected", monday);
    cli_exit code = cli_read_positive(request, OPTION_GRID, FV_DIM_TIME, &week->slot);
    if (code == CLI_GOOD)
        code = cli_read_threads(request, &week->threads);
    if (code == CLI_GOOD)
        code = read_odds(request, week);
    if (code == CLI_GOOD && (week->slot < 300.0 || week->slot > 7200.0 || fmod(DAY, week->slot) != 0.0))
        code = cli_usage("--grid \"%s\": from 5 min to 2 h, so that it divides a day", request->value[OPTION_GRID]);
    if (code == CLI_GOOD && rest)
        code = cli_read_fit(request, &q.forecast.fit, &q.file);
    if (code == CLI_GOOD && rest)
        code = cli_read_day_time(request, &week->now.at, &q.forecast.fit.now);
    if (code != CLI_GOOD)
        return code;
    return rest ? cli_run_log(request, &q.file, answer, &q) : cli_run(request, answer, &q);
}
