/* SPDX-License-Identifier: MIT */
/* The one place for cautions about life and limb, each with when it applies. */
#ifndef PRINT_CAUTIONS_H
#define PRINT_CAUTIONS_H

#include "farvessel/model.h"
#include "farvessel/units.h"

#include <jansson.h>

/* A boiler whose fuel is not said may well burn something. */
bool print_burns_fuel(const fv_plant *plant);
/* Those that apply to the plant: all of their words, or a line each. */
void print_cautions_text(const fv_plant *plant, bool in_full, fv_text *out);
/* Calls `say` for each that applies to the plant: when it applies, and what it says. */
void print_cautions_each(const fv_plant *plant, void (*say)(void *context, const char *when, const char *text),
                         void *context);
/* "its steam shut, no pressure, the gas at its lid below 60 degC, and you behind a face shield": no time is a
 * clearance. */
void print_safe_to_open(fv_unit_system units, fv_text *out);
json_t *print_cautions_json(const fv_plant *plant);

#endif
