/* SPDX-License-Identifier: MIT */
/* Plots: an area with two scales, ticks at round numbers, lines that are no longer than they show. */
#ifndef PAGE_SVG_PLOT_H
#define PAGE_SVG_PLOT_H

#include "page/svg.h"

#include "farvessel/units.h"

/* How numbers on an axis are written. */
typedef enum { AXIS_NUMBER, AXIS_TIME } page_axis_kind;
typedef struct {
    page_axis_kind kind;
    double from, to;   /* in the unit shown; hours for AXIS_TIME */
    double step;       /* between ticks */
    const char *name;  /* written at the axis, with its unit; NULL: nothing */
    double clock;      /* AXIS_TIME: hours after midnight at 0; NaN: hours since the start */
    bool twelve_hours; /* "6:30 am" */
    bool bare;         /* y: without numbers, which stand at the plot beside it */
} page_axis;

/* An axis from 0 or `from` to at least `to`, with at most `most` ticks. */
page_axis page_axis_number(double from, double to, int most, const char *name);
/* Exactly from..to, in hours; ticks at round times. */
page_axis page_axis_time(double from, double to, int most, double clock, bool twelve_hours, const char *name);

typedef struct {
    double left, top, width, height;
    page_axis x, y;
} page_plot;

page_svg_point page_plot_at(const page_plot *p, double x, double y);
/* Frame, grid, ticks and names. `css_class`: "plot" or "plot mini". The script reads the scales from the group, which
 * is left open for the curves; page_plot_end closes it. */
void page_plot_begin(page_markup *m, const page_plot *p, const char *css_class);
void page_plot_end(page_markup *m);

typedef struct {
    const char *name;      /* read out by the script, and title */
    const char *vessel;    /* follows this vessel; may be NULL */
    const char *css_class; /* "k0".."k5" one of six, "faint", "best", "worst", ... */
    const double *x, *y;   /* in the units of the axes; NaN in y breaks the line */
    size_t count;
    bool markers; /* a small sign at each point */
} page_plot_curve;
void page_plot_draw(page_markup *m, const page_plot *p, const page_plot_curve *curve);
/* A line across at y, with a word at its left end above it; NaN draws nothing. */
void page_plot_level(page_markup *m, const page_plot *p, double y, const char *css_class, const char *word);
/* A line from top to bottom at x. */
void page_plot_moment(page_markup *m, const page_plot *p, double x, const char *css_class);

/* Sample of a line and its name below the plot; several stand in rows, in the order given. */
typedef struct {
    const char *css_class, *name;
} page_plot_key;
/* Height that the rows take; nothing is drawn where `m` is NULL. */
double page_plot_keys(page_markup *m, double left, double top, double width, const page_plot_key *keys, size_t count);

#endif
