/* SPDX-License-Identifier: MIT */
/* Words that are broken into lines, never cut, in a column of a drawing. */
#ifndef PAGE_SVG_WORDS_H
#define PAGE_SVG_WORDS_H

#include "page/svg.h"

/* A run of words in one style. Runs follow each other with a space; a run is kept whole where a line has room for it.
 */
typedef struct {
    const char *text; /* NULL or "": left out */
    const char *css_class;
    double size; /* height of its letters */
    bool bold;
    bool begins; /* a new line */
} page_svg_run;

/* Height of the lines; they are drawn from `top` down where `m` is not NULL. */
double page_svg_words(page_markup *m, double x, double top, double width, const page_svg_run *runs, size_t count);

#endif
