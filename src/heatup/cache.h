/* SPDX-License-Identifier: MIT */
/* What runs share (fv_heat_cache, heatup.h): one of each sort of piece to copy from. */
#ifndef FARVESSEL_HEATUP_CACHE_H
#define FARVESSEL_HEATUP_CACHE_H

#include "farvessel/heatup.h"
#include "heatup/body.h"

/* A piece, even at its start. NULL: out of memory, or the spec makes no sense. */
heatup_body *heatup_cache_body(fv_heat_cache *cache, const heatup_body_spec *spec);

#endif
