/* SPDX-License-Identifier: MIT */
/* The flow answer in each format. */
#ifndef REPORT_FLOW_REPORT_H
#define REPORT_FLOW_REPORT_H

#include "farvessel/steady.h"
#include "farvessel/units.h"

fv_status report_flow_text(const fv_flow_answer *answer, const fv_faults *remarks, fv_unit_system units, fv_text *out);
fv_status report_flow_json(const fv_flow_answer *answer, const fv_faults *remarks, fv_unit_system units, fv_text *out);

#endif
