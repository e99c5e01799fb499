/* SPDX-License-Identifier: MIT */
/* What could be done, in a grower's words, and as it is typed. */
#ifndef REPORT_REMEDY_H
#define REPORT_REMEDY_H

#include "farvessel/why.h"
#include "print/show.h"

/* "s6: 25 mm bore instead of 19 mm" */
void report_remedy(fv_unit_system units, const fv_why_remedy *remedy, fv_text *out);
/* `--set "s6.bore=25 mm" --do "bin1 core: v1 25 %"`, with `between` between any two. */
void report_change(const fv_plant *plant, const fv_change *change, const char *between, fv_text *out);
/* "farvessel VERB FILE" with these options, as a shell takes it; without where `change` is NULL or changes nothing. */
void report_command(const fv_plant *plant, const char *verb, const fv_change *change, const char *between,
                    fv_text *out);

#endif
