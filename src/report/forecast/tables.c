/* SPDX-License-Identifier: MIT */
/* What stands in the table of the forecast. */
#include "report/forecast/report.h"
#include "print/fields.h"

#include <math.h>

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
#define TIME(name, member)                                                                                             \
    static double name(const void *answer, size_t row)                                                                 \
    {                                                                                                                  \
        const double value = result(answer)->vessels[row].member;                                                      \
        return isfinite(value) ? value : NAN;                                                                          \
    }
TIME(core_low, core.low)
TIME(core_middle, core.middle)
TIME(core_high, core.high)
TIME(hold_low, hold.low)
TIME(hold_middle, hold.middle)
TIME(hold_high, hold.high)
TIME(then_low, then_hold.low)
TIME(then_middle, then_hold.middle)
TIME(then_high, then_hold.high)
TIME(core_now, core_now)

static const print_field vessel_fields[] = {
    WORD("vessel", IN_DATA, vessel_id),
    CELL("core_10", "_s", IN_DATA, FV_SHOW_NUMBER, core_low),
    CELL("core_50", "_s", IN_DATA, FV_SHOW_NUMBER, core_middle),
    CELL("core_90", "_s", IN_DATA, FV_SHOW_NUMBER, core_high),
    CELL("hold_10", "_s", IN_DATA, FV_SHOW_NUMBER, hold_low),
    CELL("hold_50", "_s", IN_DATA, FV_SHOW_NUMBER, hold_middle),
    CELL("hold_90", "_s", IN_DATA, FV_SHOW_NUMBER, hold_high),
    NUMBER(fv_forecast_vessel, "chance_done", chance, "", IN_DATA, FV_SHOW_NUMBER),
    FLAG(fv_forecast_vessel, "done", done, IN_DATA),
    CELL("core_now", "_k", IN_DATA, FV_SHOW_NUMBER, core_now),
    CELL("then_later_10", "_s", IN_DATA, FV_SHOW_NUMBER, then_low),
    CELL("then_later_50", "_s", IN_DATA, FV_SHOW_NUMBER, then_middle),
    CELL("then_later_90", "_s", IN_DATA, FV_SHOW_NUMBER, then_high),
};

const print_table report_forecast_tables[FORECAST_TABLES] = {
    [FORECAST_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, NULL},
};
