/* SPDX-License-Identifier: MIT */
/* The one place for cautions about life and limb, each with when it applies. */
#ifndef REPORT_CAUTIONS_H
#define REPORT_CAUTIONS_H

#include "farvessel/model.h"

#include <jansson.h>

void report_cautions_text(const fv_plant *plant, fv_text *out);
json_t *report_cautions_json(const fv_plant *plant);

#endif
