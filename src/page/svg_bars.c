/* SPDX-License-Identifier: MIT */
/* One bar with its track, its words and its mark. */
#include "page/svg_bars.h"

#include <math.h>

enum { SIDE = 4, HEIGHT = 10, GAP = 8, SIGN = 16 };

static double within(double share)
{
    return fmin(fmax(share, 0.0), 1.0);
}

double page_bar_draw(page_markup *m, double y, double width, const page_bar *bar)
{
    double room = width - 2.0 * SIDE, left = SIDE + (bar->sign >= 0 ? SIGN : 0.0);
    double words = page_svg_words(m, left, y, width - SIDE - left, bar->runs, bar->run_count), at = y + words;
    if (m) {
        double from = SIDE + room * within(bar->from), to = SIDE + room * within(bar->to);
        if (bar->sign >= 0)
            page_svg_mark(m, (page_svg_mark_kind)bar->sign, SIDE + 6.0, y + 8.0, 6.0);
        page_svg_rect(m, SIDE, at, room, HEIGHT, "track");
        page_svg_rect(m, fmin(from, to), at, fmax(fabs(to - from), 1.0), HEIGHT, bar->css_class);
        if (!isnan(bar->mark)) {
            double x = SIDE + room * within(bar->mark);
            page_svg_line(m, (page_svg_point){x, at}, (page_svg_point){x, at + HEIGHT + 4.0}, "aimline");
        }
    }
    return words + HEIGHT + GAP;
}
