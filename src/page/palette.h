/* SPDX-License-Identifier: MIT */
/* The colours of the page, for light and dark, in one table. */
#ifndef PAGE_PALETTE_H
#define PAGE_PALETTE_H

#include "farvessel/base.h"

typedef enum {
    PALETTE_PAPER,
    PALETTE_CARD,
    PALETTE_INK,
    PALETTE_SOFT, /* secondary text */
    PALETTE_RULE, /* grids and borders; says nothing by itself */
    PALETTE_PIPE,
    PALETTE_STEAM,
    PALETTE_WATER,
    PALETTE_FED,
    PALETTE_LAGGING,
    PALETTE_STARVED,
    PALETTE_SERIES, /* the first of PALETTE_SERIES_COUNT */
    PALETTE_COUNT = PALETTE_SERIES + 6
} page_palette_role;
enum { PALETTE_SERIES_COUNT = PALETTE_COUNT - PALETTE_SERIES };

typedef struct {
    const char *name;         /* of the CSS variable, without the dashes */
    const char *light, *dark; /* "#rrggbb" */
} page_palette_colour;
extern const page_palette_colour page_palette[PALETTE_COUNT];

/* "--paper:#...;--card:#...;" for one scheme. */
void page_palette_css(bool dark, fv_text *out);

#endif
