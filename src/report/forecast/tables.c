/* SPDX-License-Identifier: MIT */
/* What stands in the table of the forecast. */
#include "report/forecast/report.h"
#include "print/fields.h"

static const fv_forecast_answer *result(const void *answer)
{
    return ((const report_forecast *)answer)->answer;
}
ROWS(vessel_count, result(answer)->plant->vessel_count)
ROW(vessel_row, &result(answer)->vessels[i])
ROW(vessel, result(answer)->plant->vessels[i])

static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    BAND(fv_forecast_vessel, "core", core, "_s"),
    BAND(fv_forecast_vessel, "hold", hold, "_s"),
    NUMBER(fv_forecast_vessel, "chance_done", chance, "", IN_DATA, FV_SHOW_NUMBER),
    FLAG(fv_forecast_vessel, "done", done, IN_DATA),
    NUMBER(fv_forecast_vessel, "core_now", core_now, "_k", IN_DATA, FV_SHOW_NUMBER),
    BAND(fv_forecast_vessel, "then_later", then_hold, "_s"),
};

const print_table report_forecast_tables[FORECAST_TABLES] = {
    [FORECAST_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, vessel},
};
