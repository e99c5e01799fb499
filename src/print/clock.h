/* SPDX-License-Identifier: MIT */
/* Times as people read them: on the grower's clock where it is known, else since the start. */
#ifndef PRINT_CLOCK_H
#define PRINT_CLOCK_H

#include "print/show.h"

typedef struct {
    double start; /* s after midnight at which times begin; NaN: they count from the start */
    bool twelve_hours;
} print_clock;

print_shown print_when(const print_clock *clock, double time); /* "day 2 06:20", "24:20" without a clock; "-" for NaN */
print_shown print_at(const print_clock *clock, double time);   /* "at 06:20 the next day", "after 24 h 20 min" */
print_shown print_by(const print_clock *clock, double time);   /* "by 06:20 the next day", "after 24 h 20 min" */
print_shown print_hours(double seconds);                       /* "24:20"; "-" for NaN */
print_shown print_after(const print_clock *clock, double took, double time); /* "6 h 20 min (12:38)" */

#endif
