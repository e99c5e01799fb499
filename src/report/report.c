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

fv_status fv_report_check(const fv_check_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    report_check check;
    const bool made = report_check_make(answer, options, &check);
    const report_frame frame = {.kind = "check",
                                .plant = answer->plant,
                                .answer = &check,
                                .tables = report_check_tables,
                                .table_count = CHECK_TABLES,
                                .table = report_check_table,
                                .why = report_check_reasons,
                                .details = report_check_details,
                                .json = report_check_json,
                                .no_cautions = true};
    const fv_status status = made ? put(frame, remarks, options, out) : no_memory(out);
    report_check_free(&check);
    return status;
}

fv_status fv_report_flow(const fv_flow_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_frame frame = {.kind = "flow",
                                .plant = answer->plant,
                                .answer = answer,
                                .tables = report_flow_tables,
                                .table_count = FLOW_TABLES,
                                .sentence = report_flow_sentence,
                                .lead = report_flow_lead,
                                .table = report_flow_table,
                                .why = report_flow_reasons,
                                .details = report_flow_details,
                                .notes = report_flow_notes,
                                .method = report_flow_method,
                                .json = report_flow_json,
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
    const report_frame frame = {.kind = "heat",
                                .plant = result->plant,
                                .answer = &heat,
                                .tables = report_heat_tables,
                                .table_count = HEAT_TABLES,
                                .sentence = report_heat_sentence,
                                .lead = report_heat_lead,
                                .table = report_heat_table,
                                .why = report_heat_reasons,
                                .details = report_heat_details,
                                .notes = report_heat_notes,
                                .method = report_heat_method,
                                .json = report_heat_json,
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
    const report_frame frame = {.kind = "why",
                                .plant = answer->plant,
                                .answer = &why,
                                .tables = report_why_tables,
                                .table_count = WHY_TABLES,
                                .sentence = report_why_sentence,
                                .step = report_why_step_said,
                                .lead = report_why_lead,
                                .table = report_why_table,
                                .why = report_why_reasons,
                                .details = report_why_details,
                                .method = report_why_method,
                                .json = report_why_json};
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
    const report_frame frame = {.kind = "plan",
                                .plant = answer->plant,
                                .answer = &plan,
                                .tables = report_plan_tables,
                                .table_count = PLAN_TABLES,
                                .sentence = report_plan_sentence,
                                .table = report_plan_table,
                                .details = report_plan_details,
                                .notes = report_plan_notes,
                                .method = report_plan_method,
                                .json = report_plan_json,
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
    const report_frame frame = {.kind = "size",
                                .plant = answer->plant,
                                .answer = answer,
                                .tables = report_size_tables,
                                .table_count = SIZE_TABLES,
                                .sentence = report_size_sentence,
                                .lead = report_size_lead,
                                .table = report_size_table,
                                .details = report_size_details,
                                .notes = report_size_notes,
                                .json = report_size_json};
    return put(frame, remarks, options, out);
}

fv_status fv_report_carry(const fv_carry_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_frame frame = {.kind = "carry",
                                .plant = answer->plant,
                                .answer = answer,
                                .tables = report_carry_tables,
                                .table_count = CARRY_TABLES,
                                .sentence = report_carry_sentence,
                                .lead = report_carry_lead,
                                .table = report_carry_table,
                                .details = report_carry_details,
                                .notes = report_carry_notes,
                                .json = report_carry_json};
    return put(frame, remarks, options, out);
}

fv_status fv_report_week(const fv_week_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    report_week week;
    const bool made = report_week_make(answer, options, &week);
    const report_frame frame = {.kind = "week",
                                .plant = answer->plant,
                                .answer = &week,
                                .tables = report_week_tables,
                                .table_count = WEEK_TABLES,
                                .sentence = report_week_sentence,
                                .lead = report_week_lead,
                                .table = report_week_table,
                                .details = report_week_details,
                                .notes = report_week_notes,
                                .json = report_week_json,
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
    const report_frame frame = {.kind = "cost",
                                .plant = answer->plant,
                                .answer = &cost,
                                .tables = report_cost_tables,
                                .table_count = COST_TABLES,
                                .sentence = report_cost_sentence,
                                .table = report_cost_table,
                                .details = report_cost_details,
                                .notes = report_cost_notes,
                                .json = report_cost_json,
                                .notes_for_programs = true};
    return put(frame, remarks, options, out);
}

fv_status fv_report_odds(const fv_odds_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_odds odds = {answer, {options->clock, options->twelve_hours}};
    const report_frame frame = {.kind = "odds",
                                .plant = answer->plant,
                                .answer = &odds,
                                .tables = report_odds_tables,
                                .table_count = ODDS_TABLES,
                                .sentence = report_odds_sentence,
                                .lead = report_odds_lead,
                                .table = report_odds_table,
                                .counts = report_odds_counts,
                                .json = report_odds_json};
    return put(frame, remarks, options, out);
}

fv_status fv_report_log(const fv_log_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_log log = {answer, options->units};
    const report_frame frame = {.kind = "log",
                                .plant = answer->plant,
                                .answer = &log,
                                .tables = report_log_tables,
                                .table_count = LOG_TABLES,
                                .sentence = report_log_sentence,
                                .lead = report_log_lead,
                                .table = report_log_table,
                                .counts = report_log_counts,
                                .json = report_log_json};
    return put(frame, remarks, options, out);
}

fv_status fv_report_fit(const fv_fit_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_fit fit = {answer, options->units};
    const report_frame frame = {.kind = "fit",
                                .plant = answer->plant,
                                .answer = &fit,
                                .tables = report_fit_tables,
                                .table_count = FIT_TABLES,
                                .sentence = report_fit_sentence,
                                .lead = report_fit_lead,
                                .table = report_fit_table,
                                .counts = report_fit_counts,
                                .json = report_fit_json};
    return put(frame, remarks, options, out);
}

fv_status fv_report_forecast(const fv_forecast_answer *answer, const fv_faults *remarks,
                             const fv_report_options *options, fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_forecast forecast = {answer, options->units};
    const report_frame frame = {.kind = "forecast",
                                .plant = answer->plant,
                                .answer = &forecast,
                                .tables = report_forecast_tables,
                                .table_count = FORECAST_TABLES,
                                .sentence = report_forecast_sentence,
                                .lead = report_forecast_lead,
                                .table = report_forecast_table,
                                .counts = report_forecast_counts,
                                .json = report_forecast_json};
    return put(frame, remarks, options, out);
}
