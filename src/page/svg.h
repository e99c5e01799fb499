/* SPDX-License-Identifier: MIT */
/* Shapes, text and plots in SVG. Lengths are user units. Every drawing is as wide as a small phone shows at one pixel a
 * unit, and all are enlarged alike where there is more room, so that letters of 11 are one size on the whole page. */
#ifndef PAGE_SVG_H
#define PAGE_SVG_H

#include "page/markup.h"

enum { SVG_CARD = 316, SVG_CHART = 286, SVG_CARD_HEIGHT = 260, SVG_MINI = 150, SVG_MINI_HEIGHT = 132 };

typedef struct {
    double x, y;
} page_svg_point;

/* A figure by itself: title and description are read out instead of it. `css` is written into it where it has to stand
 * alone, else NULL. `css_class` and `description` may be NULL. */
void page_svg_begin(page_markup *m, double width, double height, const char *css_class, const char *css,
                    const char *title, const char *description);
void page_svg_end(page_markup *m);

void page_svg_group(page_markup *m, double x, double y, const char *css_class);
void page_svg_line(page_markup *m, page_svg_point from, page_svg_point to, const char *css_class);
void page_svg_rect(page_markup *m, double x, double y, double width, double height, const char *css_class);
void page_svg_circle(page_markup *m, double x, double y, double radius, const char *css_class);
void page_svg_path(page_markup *m, const char *d, const char *css_class);
/* `css_class` chooses the anchor: "m" (middle), "e" (end); may be NULL. */
void page_svg_text(page_markup *m, double x, double y, const char *css_class, const char *fmt, ...) FV_PRINTF(5, 6);
/* Adds "44 168.6 " to a path or a list of points. */
void page_svg_add_point(fv_text *text, page_svg_point point);

/* About how wide the first `length` bytes of `text` are at a letter height of `size`; rather more than less. */
double page_svg_width(const char *text, size_t length, double size, bool bold);
/* `text`, or its two ends around an ellipsis, in at most `columns` characters. */
enum { SVG_FIT_SIZE = 256 };
typedef struct {
    char text[SVG_FIT_SIZE];
} page_svg_fit_text;
page_svg_fit_text page_svg_fit(const char *text, size_t columns);

/* Verdict, boiler and the like by shape, centred at x, y. */
typedef enum { SVG_MARK_FED, SVG_MARK_LAGGING, SVG_MARK_STARVED, SVG_MARK_SHUT } page_svg_mark_kind;
void page_svg_mark(page_markup *m, page_svg_mark_kind kind, double x, double y, double radius);

#endif
