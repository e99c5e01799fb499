/* SPDX-License-Identifier: MIT */
/* Horizontal bars with their words above them, the whole width of a card. */
#ifndef PAGE_SVG_BARS_H
#define PAGE_SVG_BARS_H

#include "page/svg_words.h"

typedef struct {
    const page_svg_run *runs; /* words above the bar */
    size_t run_count;
    double from, to;       /* shares of the width */
    double mark;           /* a mark across the bar, as a share; NaN: none */
    const char *css_class; /* of the bar */
    int sign;              /* page_svg_mark_kind before the words; -1: none */
} page_bar;

/* Draws one at `y`, or measures only where `m` is NULL; returns its height. */
double page_bar_draw(page_markup *m, double y, double width, const page_bar *bar);

#endif
