/* SPDX-License-Identifier: MIT */
/* The way in: each question's answer, put into the frame. */
#include "farvessel/report.h"

#include "report/carry/report.h"
#include "report/check/report.h"
#include "report/cost/report.h"
#include "report/fit/report.h"
#include "report/flow/report.h"
#include "report/forecast/report.h"
#include "report/heat/report.h"
#include "report/log/report.h"
#include "report/odds/report.h"
#include "report/plan/report.h"
#include "report/size/report.h"
#include "report/week/report.h"
#include "report/why/report.h"

#include <stdio.h>

static fv_status put(report_frame frame, const fv_faults *remarks, const fv_report_options *options, fv_text *out)
{
    const report_choices odds = {options->odds, {.start = options->clock, .twelve_hours = options->twelve_hours}};
    frame.units = options->units;
    frame.odds = options->odds ? &odds : NULL;
    frame.lids = options->lids;
    frame.remarks = remarks;
    frame.brief = options->brief;
    frame.full_cautions = options->cautions;
    return report_frame_print(&frame, options->format, options->table, out);
}

static fv_status no_memory(fv_text *out)
{
    out->failed = true;
    return FV_FAIL;
}

/* What every question has, each under its own name; `answer` is what its tables and words are given. */
#define QUESTION(name, tables_of, of_plant, given)                                                                     \
    .kind = #name, .plant = (of_plant), .answer = (given), .tables = report_##name##_tables,                           \
    .table_count = (tables_of), .table = report_##name##_table, .json = report_##name##_json

fv_status fv_report_check(const fv_check_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    report_check check;
    const bool made = report_check_make(answer, options, &check);
    const report_frame frame = {QUESTION(check, CHECK_TABLES, answer->plant, &check), .why = report_check_reasons,
                                .details = report_check_details, .no_cautions = true};
    const fv_status status = made ? put(frame, remarks, options, out) : no_memory(out);
    report_check_free(&check);
    return status;
}

fv_status fv_report_flow(const fv_flow_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_frame frame = {QUESTION(flow, FLOW_TABLES, answer->plant, answer),
                                .sentence = report_flow_sentence,
                                .lead = report_flow_lead,
                                .why = report_flow_reasons,
                                .details = report_flow_details,
                                .notes = report_flow_notes,
                                .method = report_flow_method,
                                .audit = report_flow_audit,
                                .notes_for_programs = true};
    return put(frame, remarks, options, out);
}

fv_status fv_report_heat(const fv_heat_result *result, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!result || !options || !out)
        return FV_FAIL;
    report_heat heat;
    const bool made = report_heat_make(result, options, &heat);
    const report_frame frame = {QUESTION(heat, HEAT_TABLES, result->plant, &heat),
                                .sentence = report_heat_sentence,
                                .lead = report_heat_lead,
                                .why = report_heat_reasons,
                                .details = report_heat_details,
                                .notes = report_heat_notes,
                                .method = report_heat_method,
                                .audit = report_heat_audit,
                                .notes_for_programs = true};
    const fv_status status = made ? put(frame, remarks, options, out) : no_memory(out);
    report_heat_free(&heat);
    return status;
}

fv_status fv_report_why(const fv_why_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    report_why why;
    const bool made = report_why_make(answer, options->units, &why);
    const report_frame frame = {QUESTION(why, WHY_TABLES, answer->plant, &why),
                                .sentence = report_why_sentence,
                                .step = report_why_step_said,
                                .lead = report_why_lead,
                                .why = report_why_reasons,
                                .details = report_why_details,
                                .method = report_why_method};
    const fv_status status = made ? put(frame, remarks, options, out) : no_memory(out);
    report_why_free(&why);
    return status;
}

fv_status fv_report_plan(const fv_plan_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    report_plan plan;
    const bool made = report_plan_make(answer, options, &plan);
    const report_frame frame = {QUESTION(plan, PLAN_TABLES, answer->plant, &plan),
                                .sentence = report_plan_sentence,
                                .details = report_plan_details,
                                .notes = report_plan_notes,
                                .method = report_plan_method,
                                .notes_for_programs = true};
    const fv_status status = made ? put(frame, remarks, options, out) : no_memory(out);
    report_plan_free(&plan);
    return status;
}

fv_status fv_report_size(const fv_size_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_frame frame = {QUESTION(size, SIZE_TABLES, answer->plant, answer), .sentence = report_size_sentence,
                                .lead = report_size_lead, .details = report_size_details, .notes = report_size_notes};
    return put(frame, remarks, options, out);
}

fv_status fv_report_carry(const fv_carry_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_frame frame = {QUESTION(carry, CARRY_TABLES, answer->plant, answer), .sentence = report_carry_sentence,
                                .lead = report_carry_lead, .details = report_carry_details,
                                .notes = report_carry_notes};
    return put(frame, remarks, options, out);
}

fv_status fv_report_week(const fv_week_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    report_week week;
    const bool made = report_week_make(answer, options, &week);
    const report_frame frame = {QUESTION(week, WEEK_TABLES, answer->plant, &week),
                                .sentence = report_week_sentence,
                                .lead = report_week_lead,
                                .details = report_week_details,
                                .notes = report_week_notes,
                                .notes_for_programs = true};
    const fv_status status = made ? put(frame, remarks, options, out) : no_memory(out);
    report_week_free(&week);
    return status;
}

fv_status fv_report_cost(const fv_cost_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    char currency[24];
    snprintf(currency, sizeof currency, "%s%.20s", answer->plant->currency ? " " : "",
             answer->plant->currency ? answer->plant->currency : "");
    const report_cost cost = {answer, options->units, currency};
    const report_frame frame = {QUESTION(cost, COST_TABLES, answer->plant, &cost), .sentence = report_cost_sentence,
                                .details = report_cost_details, .notes = report_cost_notes, .notes_for_programs = true};
    return put(frame, remarks, options, out);
}

fv_status fv_report_odds(const fv_odds_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_odds odds = {answer, {options->clock, options->twelve_hours}};
    const report_frame frame = {QUESTION(odds, ODDS_TABLES, answer->plant, &odds), .sentence = report_odds_sentence,
                                .lead = report_odds_lead, .counts = report_odds_counts};
    return put(frame, remarks, options, out);
}

fv_status fv_report_log(const fv_log_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_log log = {answer, options->units};
    const report_frame frame = {QUESTION(log, LOG_TABLES, answer->plant, &log), .sentence = report_log_sentence,
                                .lead = report_log_lead, .counts = report_log_counts};
    return put(frame, remarks, options, out);
}

fv_status fv_report_fit(const fv_fit_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_fit fit = {answer, options->units};
    const report_frame frame = {QUESTION(fit, FIT_TABLES, answer->plant, &fit), .sentence = report_fit_sentence,
                                .lead = report_fit_lead, .counts = report_fit_counts};
    return put(frame, remarks, options, out);
}

fv_status fv_report_forecast(const fv_forecast_answer *answer, const fv_faults *remarks,
                             const fv_report_options *options, fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_forecast forecast = {answer, options->units};
    const report_frame frame = {QUESTION(forecast, FORECAST_TABLES, answer->plant, &forecast),
                                .sentence = report_forecast_sentence, .lead = report_forecast_lead,
                                .counts = report_forecast_counts};
    return put(frame, remarks, options, out);
}
