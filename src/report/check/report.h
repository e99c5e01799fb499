/* SPDX-License-Identifier: MIT */
/* The check answer in each format. */
#ifndef REPORT_CHECK_REPORT_H
#define REPORT_CHECK_REPORT_H

#include "report/check/tables.h"

fv_status report_check_text(const report_check *check, const fv_faults *remarks, fv_text *out);
fv_status report_check_json(const report_check *check, const fv_faults *remarks, fv_text *out);

#endif
