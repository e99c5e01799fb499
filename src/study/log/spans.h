/* SPDX-License-Identifier: MIT */
/* Times at a temperature, and what they are worth, from readings that are straight lines from one to the next. */
#ifndef STUDY_LOG_SPANS_H
#define STUDY_LOG_SPANS_H

#include "farvessel/log.h"

/* As read, with all readings moved by `shift`, K. */
fv_log_span log_span(const fv_log_probe *probe, double shift);
/* At its target when the log ends. */
bool log_goes_on(const fv_log_probe *probe);
/* s at the reference that a straight line from t0 to t1 within dt is worth, 10^((T - reference)/z): exact, dt (L1 -
 * L0)/ln(L1/L0). */
double log_lethality(double t0, double t1, double dt, double reference, double z);
double log_rule_share(const fv_probe_readings *readings, const fv_log_rule *rule, double shift);

#endif
