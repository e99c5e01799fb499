/* SPDX-License-Identifier: MIT */
#ifndef STEADY_PACKING_CHECK_H
#define STEADY_PACKING_CHECK_H

#include "farvessel/steady.h"

/* Cautions where pieces in rows touch worse than the model of rows is made for. */
void steady_check_rows(const fv_plant *plant, fv_faults *faults);

#endif
