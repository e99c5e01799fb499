/* SPDX-License-Identifier: MIT */
/* What hands do, in a grower's words. */
#ifndef REPORT_STEP_H
#define REPORT_STEP_H

#include "farvessel/plan.h"
#include "print/clock.h"

/* "v1", or "the valve of s2" where "s2.fitting1" has no id of its own. */
print_shown report_valve(const fv_plant *plant, const char *path);
/* "v1 to 30 %", "a washer at the end of s1, its hole 10 mm", "open the steam of bench1" */
void report_step(const fv_plant *plant, fv_unit_system units, const fv_plan_step *step, fv_text *out);
/* "before lighting", "0:45", "bench1 full, about 2:43" */
print_shown report_step_when(const fv_plant *plant, const print_clock *clock, const fv_plan_step *step);
/* All of them, lines that begin with when; only what is done before lighting, or only the rest. */
void report_steps(const fv_plant *plant, fv_unit_system units, const print_clock *clock, const fv_plan_step *steps,
                  size_t count, bool before, fv_text *out);
/* One group of what is done at the same time, from number `from` on: when, and what. Returns the number behind it. */
size_t report_step_group(const fv_plant *plant, fv_unit_system units, const print_clock *clock,
                         const fv_plan_step *steps, size_t count, size_t from, print_shown *when, fv_text *what);
/* One line of such a list. */
void report_step_line(const char *when, fv_text *what, fv_text *out);

#endif
