/* SPDX-License-Identifier: MIT */
/* What every part of the page looks at: the results, the user's choices, and which vessels to point out. */
#ifndef PAGE_VIEW_H
#define PAGE_VIEW_H

#include "farvessel/report.h"
#include "report/heat/report.h"
#include "page/markup.h"
#include "page/why.h"
#include "report/cost/report.h"
#include "report/plan/report.h"
#include "report/week/report.h"
#include "print/show.h"
#include "page/svg_plot.h"

enum { VIEW_FEW = 6 }; /* as many curves as have colours of their own */

typedef struct {
    const fv_page_content *content;
    const fv_page_options *options;
    const fv_flow_answer *flow;
    const fv_heat_result *heat; /* may be NULL */
    report_heat words;          /* how each vessel fares, where there is a heat result */
    const fv_plant *plant;
    fv_unit_system units;
    page_why why;     /* of a why study, where there is one */
    report_plan plan; /* of a plan, where there is one */
    report_week week; /* of a week, where there is one */
    report_cost cost; /* of what a batch costs, where there is an answer */
    char currency[24];
    const fv_page_remedy *remedies; /* its, or the content's */
    size_t remedy_count;
    const char *because;
    bool many;          /* more than VIEW_FEW vessels: best and worst are pointed out instead of six colours */
    size_t worst, best; /* vessels */
    size_t *ranked;     /* all of them, the worst first */
    const char *css;    /* written into each drawing that stands alone; NULL within the page */
} page_view;

/* False: out of memory. Free it in any case. */
bool page_view_make(const fv_page_content *content, const fv_page_options *options, page_view *v);
void page_view_free(page_view *v);

/* As drawn: of the run in time, a hold that breaks among the starved, one not yet through among the lagging; without a
 * run that of the steady state. */
fv_verdict page_view_verdict(const page_view *v, size_t vessel);
/* The word for it: "starved", "hold broken", "not yet", ... */
const char *page_view_outcome(const page_view *v, size_t vessel);
page_svg_mark_kind page_view_mark(fv_verdict verdict);
const char *page_view_vessel(const page_view *v, size_t vessel);
/* As print_shown_as, with the signs for degrees and squares. */
print_shown page_view_shown(const page_view *v, fv_show show, double si);
const char *page_view_unit(const page_view *v, fv_show show);
double page_view_value(const page_view *v, fv_show show, double si);
/* "6 h 20 min"; "-" where it did not happen. */
print_shown page_view_duration(double seconds);
/* How long the core took, or in a word why it did not arrive. */
print_shown page_view_arrival(const page_view *v, size_t vessel);
/* The vessel that fares worst for place 0, and so on; those that are shut last. */
size_t page_view_ranked(const page_view *v, size_t place);
/* When its core must be at the target, s after the start; NaN where no time is allowed or its steam was never opened.
 */
double page_view_deadline(const page_view *v, size_t vessel);
/* "day 2 06:20" on the user's clock, else how long after the start: "24 h 20 min". */
print_shown page_view_time(const page_view *v, double seconds);
/* What was before the last change in a session, pale beside what is. NULL, -1: nothing, or the part is new. */
const fv_heat_result *page_ghost(const page_view *v);
int page_vessel_of(const fv_heat_result *heat, const char *id);
int page_ghost_vessel(const page_view *v, size_t vessel); /* in it */
const fv_vessel_result *page_ghost_level(const page_view *v, size_t vessel);
const fv_line_result *page_ghost_line(const page_view *v, int line);
/* "core, °C" */
print_shown page_view_axis_name(const page_view *v, const char *what, fv_show show);

/* CSS class of a vessel's curve: one of six colours, or faint, best, worst. */
const char *page_view_curve_class(const page_view *v, size_t vessel);
/* Draws the vessels' keys below a plot; returns the height taken. */
double page_view_vessel_keys(const page_view *v, page_markup *m, double left, double top, double width);
/* Keys take as much height as this before they are drawn. */
double page_view_vessel_keys_height(const page_view *v, double width);

#endif
