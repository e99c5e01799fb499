/* SPDX-License-Identifier: MIT */
/* What a study's answer is to be compared with: the plant as it is, what was picked, and what comes next. */
#ifndef REPORT_LISTED_H
#define REPORT_LISTED_H

#include "farvessel/report.h"

enum { LISTED_MOST = 6 }; /* beside the plant as it is: each costs a whole sample of runs */

/* False of all three: out of memory; the list is then freed. */
bool report_list_begin(size_t most, fv_choice_list *out);
bool report_list_add(fv_choice_list *to, fv_text *name, fv_choice choice); /* takes over the name */
bool report_list_as_it_is(fv_choice_list *to, const fv_plant *plant);
/* The second is the pick, where there is one. */
void report_list_pick_second(fv_choice_list *list);

#endif
