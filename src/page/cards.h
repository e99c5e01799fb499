/* SPDX-License-Identifier: MIT */
/* Plots of equal size: one figure each on the page, a grid of them where a file holds one drawing. */
#ifndef REPORT_CARDS_H
#define REPORT_CARDS_H

#include "page/view.h"

typedef struct card card;
struct card {
    double width, height;
    size_t count;
    /* Draws number `which` from 0 0. */
    void (*draw)(const view *v, markup *m, const card *set, size_t which);
    /* Title, and what the plot shows in words. */
    void (*title)(const view *v, size_t which, fv_text *out);
    void (*about)(const view *v, size_t which, fv_text *out);
};

/* Sets below each other. `title` names the whole where it is one file. */
void page_cards_draw(const view *v, markup *m, const card *sets, size_t count, const char *title);

/* The title of a card, bold, with a verdict's sign before it where vessel is not -1. */
void page_card_title(const view *v, markup *m, int vessel, const char *title);
/* Where a plot stands in a card of this size, `below` left for keys under the axis' name. */
plot page_card_plot(const card *set, double below);
/* Numbers of column `column` of a matrix with `stride` columns as shown; NULL: out of memory. */
double *page_card_column(const view *v, fv_show show, const double *matrix, size_t rows, size_t stride, size_t column);
/* Times of the series in hours. */
double *page_card_hours(const fv_series *series);
/* Hours until a little after the last vessel's steam was shut, or to the end of the run where that is not much later.
 */
double page_card_steaming(const view *v);
/* The axis of times up to `hours`. */
axis page_card_time_axis(const view *v, double hours, int ticks, bool named);

#endif
