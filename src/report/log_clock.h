/* SPDX-License-Identifier: MIT */
#ifndef REPORT_LOG_CLOCK_H
#define REPORT_LOG_CLOCK_H

#include "farvessel/datafile.h"
#include "print/show.h"

/* By the log's clock, to the minute: "09:44"; `time` as in the log. "never" for infinity, "-" for NaN. */
print_shown report_log_clock(const fv_logfile *log, double time);

#endif
