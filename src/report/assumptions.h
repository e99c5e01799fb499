/* SPDX-License-Identifier: MIT */
/* Words about what was assumed and matters. */
#ifndef REPORT_ASSUMPTIONS_H
#define REPORT_ASSUMPTIONS_H

#include "farvessel/assumed.h"
#include "print/show.h"

/* "loose", "12 W/m2/K": the assumption, and what was tried in its place. */
print_shown report_assumed_value(fv_unit_system units, const fv_assumed_row *row, double si);
/* "2 h 10 min later"; how much later it may be at all is FV_ASSUMED_LONGEST. */
print_shown report_assumed_shift(const fv_assumed_row *row);
/* The few that move the last core most, in a sentence. */
void report_assumed_say(const fv_assumed_answer *answer, fv_unit_system units, fv_text *out);

#endif
