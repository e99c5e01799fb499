/* SPDX-License-Identifier: MIT */
/* The drawing of the plant: what its lines, its parts, its words and its panels share. */
#ifndef PAGE_SVG_PLANT_H
#define PAGE_SVG_PLANT_H

#include "page/layout.h"
#include "page/view.h"

typedef struct {
    const page_view *v;
    page_markup *m;
    page_layout l;
    double most;       /* kg/s in any line */
    double top, below; /* what of the layout is being drawn */
} page_drawing;

bool page_drawing_shows(const page_drawing *d, double y);
/* Steam in a line, kg/s, at its fuller end. */
double page_drawing_steam(const fv_line_result *line);
/* Steam through a joint: the most that any of its lines takes or gives. */
double page_drawing_steam_at(const page_drawing *d, int node);
/* How wide that much steam is drawn. */
double page_drawing_stroke(const page_drawing *d, double flow);

/* Words at a line and beside a part; heights, and drawn where `m` is not NULL (svg_plant_words.c). */
double page_drawing_line_words(const page_view *v, page_markup *m, int line, page_svg_point at, double width);
double page_drawing_part_words(const page_view *v, page_markup *m, page_layout_kind kind, int index, page_svg_point at,
                               double width);

void page_drawing_wires(page_drawing *d);  /* svg_plant_lines.c */
void page_drawing_places(page_drawing *d); /* svg_plant_parts.c */

#endif
