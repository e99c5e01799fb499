/* SPDX-License-Identifier: MIT */
/* Times that somebody says, on the log's own clock. */
#include "datafile/parts.h"

static const double DAY = 86400;

static fv_status refuse(const char *text, const char *what, const char *expected, fv_faults *faults)
{
    return fv_error(faults, FV_ERR_INPUT, (fv_loc){what, 0}, "\"%.60s\" is no time of this log; %s was expected", text,
                    expected);
}

fv_status fv_logfile_when(const fv_logfile *log, const char *text, double near, const char *what, double *time,
                          fv_faults *faults)
{
    if (!log || !text || !what || !time)
        return fv_error_null(faults, __func__);
    datafile_stamp s;
    const bool stamp = datafile_stamp_read(text, &s) && s.time;
    if (!log->clock) {
        const double since = datafile_duration(text);
        if (isnan(since) || (stamp && s.date))
            return refuse(text, what, "the log has no clock: a time since its first row, such as \"3 min\" or 1:30,",
                          faults);
        *time = (log->count ? log->time[0] : 0) + since;
        return FV_OK;
    }
    if (!stamp)
        return refuse(text, what, "a time such as 06:48, \"6:48 am\" or \"2027-06-16 06:48\"", faults);
    if (!s.date) {
        *time = s.seconds + DAY * round((near - s.seconds) / DAY);
        return FV_OK;
    }
    if (!s.named)
        return refuse(text, what, "a date with the year first, such as \"2027-06-16 06:48\",", faults);
    *time = datafile_days(s.year, s.second, s.first) * DAY + s.seconds;
    return isnan(*time) ? refuse(text, what, "a day that there is", faults) : FV_OK;
}
