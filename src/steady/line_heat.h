/* SPDX-License-Identifier: MIT */
#ifndef STEADY_LINE_HEAT_H
#define STEADY_LINE_HEAT_H

#include "farvessel/steady.h"

/* J to warm a line from the air to its working state: wall between steam and surface, lagging half way. */
double steady_line_heat(const fv_plant *plant, size_t i, const fv_line_result *r, double t_boil);

#endif
