/* SPDX-License-Identifier: MIT */
/* plan: all done by noon, what do I do and when do I light? */
#include "cli/cli.h"

#include <math.h>

enum { PLANS_MOST = 100000 };
static const double DAY = 86400;

typedef struct {
    fv_plan_options plan;
    double by; /* s after midnight; NaN: whenever */
    bool twelve_hours;
} question;

static double of_day(double time)
{
    return time - DAY * floor(time / DAY);
}

static fv_plan_answer *find(const cli_job *job, const fv_plan_options *options)
{
    const fv_progress progress = cli_stoppable(job->progress);
    fv_plan_answer *found = fv_plan_run(job->plant, options, &progress, job->faults);
    cli_signals_end(found != NULL);
    return found;
}

/* The lighting follows from when all is to be done, where it is not said itself. */
static void set_clock(const question *q, const fv_plan_answer *found, fv_report_options *report)
{
    if (!isnan(report->clock) || isnan(q->by) || isnan(found->rows[0].done))
        return;
    report->clock = of_day(q->by - found->rows[0].done);
    report->twelve_hours = q->twelve_hours;
}

static bool answer(cli_job *job, void *asked)
{
    question *q = asked;
    if (fv_steady_remarks(job->plant, NULL, job->faults) == FV_FAIL || !cli_lid_remarks(job))
        return false;
    if (!isnan(q->by) && !isnan(job->report.clock))
        q->plan.span = of_day(q->by - job->report.clock);
    fv_plan_answer *found = find(job, &q->plan);
    bool good = found != NULL;
    fv_faults_sort(job->faults);
    if (good && cli_saves(job))
        good = (job->saved = fv_change_copy(&found->rows[0].change, job->plant, job->faults)) != NULL;
    if (good)
        set_clock(q, found, &job->report);
    if (good && cli_asks_odds(job))
        good = cli_compare(job, fv_report_plan_choices(found, &job->report, &job->choices));
    if (good)
        fv_report_plan(found, job->faults, &job->report, &job->text);
    fv_plan_free(found);
    return good;
}

cli_exit cli_plan(const cli_request *request)
{
    question q = {.by = NAN};
    fv_plan_defaults(&q.plan);
    q.plan.buy = !request->value[OPTION_NO_BUY];
    if (request->value[OPTION_FOR])
        q.plan.goal = (fv_plan_goal)fv_word_find(FV_PLAN_GOAL_WORDS, request->value[OPTION_FOR]);
    cli_exit code = cli_read_by(request, &q.by, &q.twelve_hours);
    if (code == CLI_GOOD)
        code = cli_read_positive(request, OPTION_TURNAROUND, FV_DIM_TIME, &q.plan.turnaround);
    if (code == CLI_GOOD)
        code = cli_read_positive(request, OPTION_WAGE, FV_DIM_PRICE, &q.plan.wage);
    if (code == CLI_GOOD)
        code = cli_read_count(request, OPTION_PLANS, PLANS_MOST, &q.plan.most);
    if (code == CLI_GOOD)
        code = cli_read_threads(request, &q.plan.threads);
    return code == CLI_GOOD ? cli_run_sure(request, answer, &q) : code;
}
