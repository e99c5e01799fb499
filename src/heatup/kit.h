/* SPDX-License-Identifier: MIT */
/* What runs share (fv_heat_kit, heatup.h): one of each sort of piece to copy from. */
#ifndef FARVESSEL_HEATUP_KIT_H
#define FARVESSEL_HEATUP_KIT_H

#include "farvessel/heatup.h"
#include "heatup/body.h"

/* A piece, even at its start. NULL: out of memory, or the spec makes no sense. */
heatup_body *heatup_kit_body(fv_heat_kit *kit, const heatup_body_spec *spec);

#endif
