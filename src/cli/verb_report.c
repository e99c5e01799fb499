/* SPDX-License-Identifier: MIT */
/* report: one page for grower, plumber and engineer, or one drawing of it. */
#include "cli/cli.h"

#include <math.h>
#include <string.h>
#include <time.h>

enum { DATE_SIZE = 11 };

/* Everything that the page is made from. */
typedef struct {
    fv_page_options page;
    double fire;
    bool run, ask_why, ask_plan, ask_week, remedies_only, pdf;
    char date[DATE_SIZE];
    fv_flow_answer *flow;
    fv_heat_result *heat;
    fv_why_answer *why;
    fv_plan_answer *plan;
    fv_week_answer *week;
    cli_payoffs payoffs;
    fv_fit_options fit;
    fv_datafile_options file;
    fv_logfile *log;
    fv_fit_answer *fitted;
} work;

/* "2031-03-14", a day that exists. */
static bool is_date(const char *text)
{
    int year, month, day, used = 0;
    if (sscanf(text, "%4d-%2d-%2d%n", &year, &month, &day, &used) != 3 || text[used] || used != DATE_SIZE - 1)
        return false;
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1] + (leap && month == 2);
}

static cli_exit read_date(const cli_request *request, char date[DATE_SIZE])
{
    const char *given = request->value[OPTION_DATE];
    time_t now = time(NULL);
    struct tm local;
    if (given && !is_date(given))
        return cli_usage("--date \"%s\": a date such as 2031-03-14 was expected", given);
    if (given)
        snprintf(date, DATE_SIZE, "%s", given);
    else if (!localtime_r(&now, &local) || strftime(date, DATE_SIZE, "%Y-%m-%d", &local) == 0)
        date[0] = '\0';
    return CLI_GOOD;
}

static bool is_of_run(int only)
{
    return fv_page_shows(only) == FV_PAGE_OF_RUN || fv_page_shows(only) == FV_PAGE_OF_REMEDY;
}

static cli_exit read_options(const cli_request *request, work *w)
{
    const char *only = request->value[OPTION_ONLY];
    const char *format = request->value[OPTION_FORMAT];
    fv_page_defaults(&w->page);
    w->page.units = cli_units(request, NULL);
    w->run = !request->value[OPTION_NO_RUN];
    w->ask_why = request->value[OPTION_WHY] != NULL;
    w->ask_plan = request->value[OPTION_PLAN] != NULL;
    w->fire = 1.0;
    w->pdf = format && strcmp(format, "pdf") == 0;
    w->page.printed = w->pdf;
    w->page.sheet = request->value[OPTION_SHEET] != NULL;
    if (format && !w->pdf)
        w->page.format = (fv_page_format)fv_word_find(FV_PAGE_FORMATS, format);
    if (only)
        w->page.only = fv_word_find(FV_PAGE_DRAWINGS, only);
    if (only && format)
        return cli_usage("--only gives an SVG file; --format is for the whole page");
    if (w->page.sheet && (only || w->page.format == FV_PAGE_MARKDOWN))
        return cli_usage("--sheet is a page for paper: --format html or pdf, without --only");
    if (request->value[OPTION_LIVE] &&
        (only || format || w->page.sheet || w->ask_why || w->ask_plan || !w->run || request->value[OPTION_WEEK] ||
         request->value[OPTION_ODDS] || request->value[OPTION_LOG] || request->value[OPTION_FIRE] ||
         request->value[OPTION_SAVE] || request->action_count > 0))
        return cli_usage("--live takes --set, --units, --start and --date alone; all else is changed on the page");
    if ((w->ask_why || w->ask_plan) && (only || !w->run))
        return cli_usage("%s is for the whole page, with its run in time", w->ask_why ? "--why" : "--plan");
    if (w->page.only != FV_PAGE_WHOLE && is_of_run(w->page.only) && !w->run)
        return cli_usage("--only %s needs the run in time; leave out --no-run", only);
    if (w->page.only != FV_PAGE_WHOLE && fv_page_shows(w->page.only) == FV_PAGE_OF_MOMENT)
        w->run = false; /* nothing of it would be seen */
    const bool only_week = w->page.only != FV_PAGE_WHOLE && fv_page_shows(w->page.only) == FV_PAGE_OF_WEEK;
    w->run = w->run && !only_week;
    w->ask_week = request->value[OPTION_WEEK] || only_week;
    const bool beside = request->value[OPTION_ODDS] || request->value[OPTION_LOG];
    if (beside && (only || w->page.sheet || !w->run))
        return cli_usage("--odds and --log are for the whole page, with its run in time");
    if (!request->value[OPTION_LOG] &&
        (request->value[OPTION_LIT] || request->value[OPTION_NOW] || request->did_count > 0))
        return cli_usage("--lit, --now and --did are of --log");
    cli_exit code = request->value[OPTION_LOG] ? cli_read_fit(request, &w->fit, &w->file) : CLI_GOOD;
    if (code == CLI_GOOD)
        code = cli_read_start(request, &w->page.clock, &w->page.twelve_hours);
    if (code == CLI_GOOD)
        code = read_date(request, w->date);
    w->page.date = w->date[0] ? w->date : NULL;
    return code == CLI_GOOD ? cli_read_fire(request, &w->fire) : code;
}

/* ---- what would help, where it can be had at once ---- */

/* What finding it takes, by what a run took, steps of its vessels and solves of its lines, and by how many vessels
 * hands have to set: a measure that is the same on every machine. Two seconds of two processors, measured on plants of
 * two to sixteen vessels, of which some 30 to 200 runs are made. */
static bool is_soon_known(const fv_heat_result *heat)
{
    static const double MOST = 11000.0;
    return (double)heat->vessel_count * ((double)heat->audit.steps * (double)heat->vessel_count +
                                         (double)heat->audit.solves * (double)heat->line_count) <=
           MOST;
}

static bool somebody_waits(const fv_heat_result *heat)
{
    for (size_t i = 0; i < heat->vessel_count; i++)
        if (heat->vessels[i].verdict == FV_STARVED || heat->vessels[i].verdict == FV_LAGGING)
            return true;
    return false;
}

/* Only what could be done, and only where that is known soon; else the page names the command. */
static void ask_what_helps(work *w, const cli_job *job)
{
    const bool for_drawing = w->page.only != FV_PAGE_WHOLE;
    fv_faults *unsaid = fv_faults_new();
    fv_why_options why;
    fv_why_defaults(&why);
    why.most = 0;
    if (unsaid && somebody_waits(w->heat) && (for_drawing || is_soon_known(w->heat)))
        w->why = fv_why_run(job->plant, &why, job->progress, unsaid);
    w->remedies_only = w->why != NULL;
    fv_faults_free(unsaid);
}

static bool find_week(work *w, const cli_job *job)
{
    fv_week_options week;
    fv_week_defaults(&week);
    w->week = fv_week_answer_run(job->plant, &week, job->progress, job->faults);
    return w->week != NULL;
}

static bool solve(work *w, const cli_job *job)
{
    fv_flow_options flow;
    fv_heat_options heat;
    fv_flow_defaults(&flow);
    fv_heat_defaults(&heat);
    flow.fire = heat.fire = w->fire;
    flow.turndown = w->page.only == FV_PAGE_WHOLE || fv_page_shows(w->page.only) == FV_PAGE_OF_MOMENT;
    w->flow = fv_flow_answer_new(job->plant, &flow, job->progress, job->faults);
    if (!w->flow || (w->ask_week && !find_week(w, job)))
        return false;
    if (!w->run)
        return true;
    w->heat = fv_heat_run(job->plant, &heat, job->progress, job->faults);
    if (!w->heat || w->heat->stopped)
        return false;
    if (w->ask_plan) {
        fv_plan_options plan;
        fv_plan_defaults(&plan);
        w->plan = fv_plan_run(job->plant, &plan, job->progress, job->faults);
        if (!w->plan)
            return false;
    }
    if (!w->ask_why) {
        if ((w->page.only == FV_PAGE_WHOLE && !w->ask_plan) || fv_page_shows(w->page.only) == FV_PAGE_OF_REMEDY)
            ask_what_helps(w, job);
        return true;
    }
    fv_why_options why;
    fv_why_defaults(&why);
    why.remedies = true;
    w->why = fv_why_run(job->plant, &why, job->progress, job->faults);
    return w->why != NULL;
}

/* How sure that is, and what a log says of the plant. */
static bool look_closer(work *w, cli_job *job)
{
    const char *path = job->request->value[OPTION_LOG];
    if (cli_asks_odds(job) && !cli_compare(job, fv_report_heat_choices(job->plant, &job->choices)))
        return false;
    if (!path)
        return true;
    w->log = fv_logfile_read(path, &w->file, job->faults);
    w->fitted = w->log ? fv_fit_run(job->plant, w->log, &w->fit, job->progress, job->faults) : NULL;
    return w->fitted != NULL;
}

static bool answer(cli_job *job, void *question)
{
    work *w = question;
    const bool whole = w->page.only == FV_PAGE_WHOLE && w->run;
    const bool solved =
        solve(w, job) && (!whole || cli_payoffs_find(job, w->why, w->week, &w->payoffs)) && look_closer(w, job);
    fv_faults_sort(job->faults);
    const fv_page_content content = {.flow = w->flow,
                                     .heat = w->heat,
                                     .why = w->why,
                                     .plan = w->plan,
                                     .week = w->week,
                                     .cost = w->payoffs.cost,
                                     .pays = w->payoffs.answers,
                                     .remedies_only = w->remedies_only,
                                     .odds = job->sure,
                                     .fit = w->fitted,
                                     .remarks = job->faults,
                                     .sha256 = job->digest};
    bool good = solved;
    w->page.units = job->report.units;
    if (solved && fv_report_page(&content, &w->page, &job->text) == FV_OK && w->pdf)
        good = cli_make_pdf(&job->request->helper, &job->text, job->faults);
    cli_payoffs_free(&w->payoffs);
    fv_week_answer_free(w->week);
    fv_plan_free(w->plan);
    fv_fit_free(w->fitted);
    fv_logfile_free(w->log);
    fv_why_free(w->why);
    fv_heat_free(w->heat);
    fv_flow_answer_free(w->flow);
    return good;
}

cli_exit cli_report(const cli_request *request)
{
    work w = {.flow = NULL};
    cli_exit code = read_options(request, &w);
    if (code == CLI_GOOD && request->value[OPTION_LIVE])
        return cli_live(request, &w.page);
    return code == CLI_GOOD ? cli_run_sure(request, answer, &w) : code;
}
