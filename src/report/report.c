/* SPDX-License-Identifier: MIT */
/* The way in: which answer in which format. */
#include "farvessel/report.h"

#include "report/check/report.h"
#include "report/flow/report.h"
#include "report/flow/tables.h"
#include "report/heat/report.h"

#include <string.h>

/* The table named, the first where none is; FV_FAIL where there is none of that name. */
static fv_status csv(const print_table *tables, size_t count, const char *name, const void *answer, fv_text *out)
{
    for (size_t i = 0; i < count; i++) {
        if (name && strcmp(tables[i].name, name) != 0)
            continue;
        print_table_csv(&tables[i], answer, out);
        return out->failed ? FV_FAIL : FV_OK;
    }
    return FV_FAIL;
}

fv_status fv_report_check(const fv_check_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out)
{
    report_check check;
    fv_status status = FV_FAIL;
    if (!report_check_make(answer, options->units, &check))
        out->failed = true;
    else if (options->format == FV_REPORT_JSON)
        status = report_check_json(&check, remarks, out);
    else if (options->format == FV_REPORT_CSV)
        status = csv(report_check_tables, CHECK_TABLES, options->table, &check, out);
    else
        status = report_check_text(&check, remarks, out);
    report_check_free(&check);
    return status;
}

fv_status fv_report_flow(const fv_flow_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (options->format == FV_REPORT_JSON)
        return report_flow_json(answer, remarks, options->units, out);
    if (options->format == FV_REPORT_CSV)
        return csv(report_flow_tables, FLOW_TABLES, options->table, answer, out);
    return report_flow_text(answer, remarks, options->units, out);
}

fv_status fv_report_heat(const fv_heat_result *result, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    report_heat heat;
    fv_status status = FV_FAIL;
    if (!report_heat_make(result, options, &heat))
        out->failed = true;
    else if (options->format == FV_REPORT_JSON)
        status = report_heat_json(&heat, remarks, out);
    else if (options->format == FV_REPORT_CSV)
        status = csv(report_heat_tables, HEAT_TABLES, options->table, &heat, out);
    else
        status = report_heat_text(&heat, remarks, out);
    report_heat_free(&heat);
    return status;
}
