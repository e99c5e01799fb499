/* SPDX-License-Identifier: MIT */
/* What stands in the table of the forecast. */
#include "report/forecast/report.h"
#include "print/fields.h"

static const fv_forecast_answer *result(const void *answer)
{
    return ((const report_forecast *)answer)->answer;
}
static size_t vessel_count(const void *answer)
{
    return result(answer)->plant->vessel_count;
}
static const void *vessel_row(const void *answer, size_t row)
{
    return &result(answer)->vessels[row];
}
static const char *vessel_id(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->plant->vessels[row]->part.id;
}

static const print_field vessel_fields[] = {
    WORD("vessel", IN_DATA, vessel_id),
    NUMBER(fv_forecast_vessel, "core_10", core.low, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "core_50", core.middle, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "core_90", core.high, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "hold_10", hold.low, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "hold_50", hold.middle, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "hold_90", hold.high, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "chance_done", chance, "", IN_DATA, FV_SHOW_NUMBER),
    FLAG(fv_forecast_vessel, "done", done, IN_DATA),
    NUMBER(fv_forecast_vessel, "core_now", core_now, "_k", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "then_later_10", then_hold.low, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "then_later_50", then_hold.middle, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_forecast_vessel, "then_later_90", then_hold.high, "_s", IN_DATA, FV_SHOW_NUMBER),
};

const print_table report_forecast_tables[FORECAST_TABLES] = {
    [FORECAST_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, NULL},
};
