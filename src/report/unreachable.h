/* SPDX-License-Identifier: MIT */
/* Targets above what vented steam reaches on the site: the first thing that any answer says. */
#ifndef REPORT_UNREACHABLE_H
#define REPORT_UNREACHABLE_H

#include "farvessel/model.h"
#include "farvessel/units.h"

typedef enum { UNREACHABLE_NONE, UNREACHABLE_SOME, UNREACHABLE_ALL } report_unreachable;
/* Which of the vessels that are not shut; adds a sentence about them with the hold that would do instead. */
report_unreachable report_unreachable_say(const fv_plant *plant, double boiling_point, fv_unit_system units,
                                          fv_text *out);

#endif
