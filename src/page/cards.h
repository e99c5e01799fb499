/* SPDX-License-Identifier: MIT */
/* Plots of equal size: one figure each on the page, a grid of them where a file holds one drawing. */
#ifndef PAGE_CARDS_H
#define PAGE_CARDS_H

#include "page/view.h"

typedef struct page_card page_card;
struct page_card {
    double width, height;
    double (*height_of)(const page_view *v, size_t which); /* NULL: all are `height`, else that of the tallest; NaN: out
                                                               of memory */
    size_t count;
    const char *fold; /* NULL: all are in sight; else only the first `open`, the others are folded away under this */
    size_t open;
    /* Draws number `which` from 0 0. */
    void (*draw)(const page_view *v, page_markup *m, const page_card *set, size_t which);
    /* Title, which one card alone may `name`, and what the plot shows in words. */
    const char *name;
    void (*title)(const page_view *v, size_t which, fv_text *out);
    void (*about)(const page_view *v, size_t which, fv_text *out);
};

/* Sets below each other. `title` names the whole where it is one file. */
void page_cards_draw(const page_view *v, page_markup *m, const page_card *sets, size_t count, const char *title);
/* One card alone, whatever its `count`, on the page and in a file of its own under the same name. */
void page_card_draw(const page_view *v, page_markup *m, const page_card *card);

/* The title of a card, bold, with a verdict's sign before it where vessel is not -1; returns its height.
 * Only measured where `m` is NULL. */
double page_card_title(const page_view *v, page_markup *m, const page_card *set, int vessel, const char *title);
/* Where a plot stands in a card of this size, below a title of height `head`; `below` is left for keys under the axis'
 * name. */
page_plot page_card_plot(const page_card *set, double head, double below);
/* Numbers of column `column` of a matrix with `stride` columns as shown; NULL: out of memory. */
double *page_card_column(const page_view *v, fv_show show, const double *matrix, size_t rows, size_t stride,
                         size_t column);
/* Points of a vessel's curve, in the units of the axes; x or y is NULL where there was no memory. */
typedef struct {
    const double *x, *y;
    size_t count;
    bool markers;
} page_card_points;
void page_card_curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel, page_card_points points);
/* The curves of all vessels, those that are pointed out on top; closes the plot, with the vessels' keys below it. */
void page_card_curves(const page_view *v, page_markup *m, const page_card *set, const page_plot *p,
                      void (*curve)(const page_view *v, page_markup *m, const page_plot *p, size_t vessel));
/* Times of the series in hours. */
double *page_card_hours(const fv_series *series);
/* Hours until a little after the last vessel's steam was shut, its hold ended and its time was up, or to the end of the
 * run where that is not much later. */
double page_card_steaming(const page_view *v);
page_axis page_card_time_axis(const page_view *v, double from, double to, int ticks, bool named); /* hours */

#endif
