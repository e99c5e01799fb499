/* SPDX-License-Identifier: MIT */
/* What stands in the table of the forecast. */
#include "report/forecast/report.h"

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

#define FOUND(key, si, function)                                                                                       \
    {                                                                                                                  \
        .name = key, .unit = si, .where = IN_DATA, .kind = FIELD_CELL, .show = FV_SHOW_NUMBER, .number = function      \
    }
static const print_field vessel_fields[] = {
    {.name = "vessel", .unit = "", .where = IN_DATA, .kind = FIELD_WORD, .word = vessel_id},
    FOUND("core_10", "_s", core_low),
    FOUND("core_50", "_s", core_middle),
    FOUND("core_90", "_s", core_high),
    FOUND("hold_10", "_s", hold_low),
    FOUND("hold_50", "_s", hold_middle),
    FOUND("hold_90", "_s", hold_high),
    {.name = "chance_done",
     .unit = "",
     .where = IN_DATA,
     .kind = FIELD_NUMBER,
     .offset = offsetof(fv_forecast_vessel, chance)},
    {.name = "done", .unit = "", .where = IN_DATA, .kind = FIELD_FLAG, .offset = offsetof(fv_forecast_vessel, done)},
    FOUND("core_now", "_k", core_now),
    FOUND("then_later_10", "_s", then_low),
    FOUND("then_later_50", "_s", then_middle),
    FOUND("then_later_90", "_s", then_high),
};

const print_table report_forecast_tables[FORECAST_TABLES] = {
    [FORECAST_VESSELS] = {"vessels", vessel_fields, sizeof vessel_fields / sizeof *vessel_fields, vessel_count,
                          vessel_row, NULL},
};
