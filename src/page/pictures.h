/* SPDX-License-Identifier: MIT */
/* All drawings and charts of the page, one row each: name as in FV_PAGE_DRAWINGS, where it stands, what it shows. */
#ifndef PAGE_PICTURES_H
#define PAGE_PICTURES_H

#include "page/view.h"

typedef enum {
    PICTURE_WHEN,
    PICTURE_WEEK,
    PICTURE_PLANT,
    PICTURE_BESIDE,
    PICTURE_BELOW,
    PICTURE_TEMPERATURES,
    PICTURE_CHARTS
} page_picture_place;

/* page_svg_NAME(view, markup) draws it: as <svg>, or several of them. */
/* clang-format off */
#define PAGE_PICTURES(row) \
    row(timeline, PICTURE_WHEN, FV_PAGE_OF_RUN) \
    row(drawing, PICTURE_PLANT, FV_PAGE_OF_EITHER) \
    row(remedy, PICTURE_WHEN, FV_PAGE_OF_REMEDY) \
    row(needs, PICTURE_WHEN, FV_PAGE_OF_EITHER) \
    row(pressure, PICTURE_BESIDE, FV_PAGE_OF_MOMENT) \
    row(holes, PICTURE_BELOW, FV_PAGE_OF_MOMENT) \
    row(vessels, PICTURE_BELOW, FV_PAGE_OF_MOMENT) \
    row(coils, PICTURE_BELOW, FV_PAGE_OF_MOMENT) \
    row(drops, PICTURE_BESIDE, FV_PAGE_OF_MOMENT) \
    row(curves, PICTURE_TEMPERATURES, FV_PAGE_OF_RUN) \
    row(demand, PICTURE_CHARTS, FV_PAGE_OF_RUN) \
    row(boilers, PICTURE_CHARTS, FV_PAGE_OF_RUN) \
    row(turndown, PICTURE_CHARTS, FV_PAGE_OF_MOMENT) \
    row(heat, PICTURE_CHARTS, FV_PAGE_OF_EITHER) \
    row(week, PICTURE_WEEK, FV_PAGE_OF_WEEK)
/* clang-format on */

#define PAGE_PICTURE_PROTOTYPE(name, place, shows) void page_svg_##name(const page_view *v, page_markup *m);
PAGE_PICTURES(PAGE_PICTURE_PROTOTYPE)
#undef PAGE_PICTURE_PROTOTYPE

/* All that stand in one place, in order; those of a run only where there is one. */
void page_pictures_draw(const page_view *v, page_markup *m, page_picture_place place);
/* The one that v->options->only names. */
void page_pictures_draw_only(const page_view *v, page_markup *m);

#endif
