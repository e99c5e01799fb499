/* SPDX-License-Identifier: MIT */
#ifndef STEADY_LOAD_CHECK_H
#define STEADY_LOAD_CHECK_H

#include "farvessel/steady.h"

/* Cautions where a load weighs what its medium hardly can, an error where it cannot. */
void steady_check_loads(const fv_plant *plant, fv_faults *faults);

#endif
