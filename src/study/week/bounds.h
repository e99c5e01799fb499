/* SPDX-License-Identifier: MIT */
#ifndef STUDY_WEEK_BOUNDS_H
#define STUDY_WEEK_BOUNDS_H

#include "farvessel/week.h"

/* kg a week that no timetable can exceed, by what limits it (fv_week_limit). */
void week_bounds(const fv_week_problem *problem, double bound[4]);

#endif
