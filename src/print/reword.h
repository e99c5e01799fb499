/* SPDX-License-Identifier: MIT */
/* Sentences that lower floors made in metric units, in the user's. */
#ifndef PRINT_REWORD_H
#define PRINT_REWORD_H

#include "farvessel/base.h"
#include "farvessel/units.h"

/* Adds the text; quantities in it ("50 mm", "0.5 bar") in the system's units. What is quoted from the plant file
 * (bore="50 mm") stays as it is there. */
void print_reword(fv_unit_system units, const char *text, fv_text *out);

#endif
