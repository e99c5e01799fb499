/* SPDX-License-Identifier: MIT */
/* Figures side by side on the page, or on one sheet in a file of their own. */
#include "page/cards.h"
#include "page/svg_words.h"

#include <math.h>
#include <stdlib.h>

static void figure(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    fv_text title = {0}, about = {0};
    if (set->name)
        fv_text_add(&title, "%s", set->name);
    else
        set->title(v, which, &title);
    set->about(v, which, &about);
    page_markup_open(m, "figure", "class", set->width < SVG_CARD ? "mini" : "card", NULL);
    double height = set->height_of ? set->height_of(v, which) : set->height;
    if (isnan(height))
        page_markup_fail(m);
    page_svg_begin(m, set->width, height, NULL, NULL, page_markup_words(m, &title), page_markup_words(m, &about));
    set->draw(v, m, set, which);
    page_svg_end(m);
    page_markup_close_line(m);
    fv_text_free(&title);
    fv_text_free(&about);
}

static size_t columns_of(const page_card *set)
{
    enum { SHEET = 3 * SVG_CARD };
    size_t fits = (size_t)(SHEET / set->width);
    return set->count < fits ? set->count : fits;
}

static void sheet(const page_view *v, page_markup *m, const page_card *sets, size_t count, const char *title)
{
    double width = 0.0, height = 0.0, y = 0.0;
    fv_text about = {0};
    for (size_t s = 0; s < count; s++) {
        size_t columns = columns_of(&sets[s]);
        if (columns == 0)
            continue;
        width = fmax(width, sets[s].width * (double)columns);
        height += sets[s].height * (double)((sets[s].count + columns - 1) / columns);
    }
    if (count > 0 && sets[0].count > 0)
        sets[0].about(v, 0, &about);
    page_svg_begin(m, width, height, NULL, v->css, title, page_markup_words(m, &about));
    for (size_t s = 0; s < count; s++) {
        size_t columns = columns_of(&sets[s]);
        for (size_t i = 0; i < sets[s].count; i++) {
            page_svg_group(m, sets[s].width * (double)(i % columns), y + sets[s].height * (double)(i / columns),
                           "card");
            sets[s].draw(v, m, &sets[s], i);
            page_markup_close(m);
        }
        if (columns > 0)
            y += sets[s].height * (double)((sets[s].count + columns - 1) / columns);
    }
    page_svg_end(m);
    fv_text_free(&about);
}

static void figures(const page_view *v, page_markup *m, const page_card *set, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++)
        figure(v, m, set, i);
}

static void grid(page_markup *m, const page_card *set)
{
    page_markup_open(m, "div", "class", set->width < SVG_CARD ? "minis" : "cards", NULL);
    page_markup_newline(m);
}

static void folded(const page_view *v, page_markup *m, const page_card *set)
{
    page_markup_open(m, "details", NULL);
    page_markup_leaf(m, "summary", set->fold, NULL);
    grid(m, set);
    figures(v, m, set, set->open, set->count);
    page_markup_close_line(m);
    page_markup_close_line(m);
}

static bool folds(const page_card *set)
{
    return set->fold && set->open < set->count;
}

void page_cards_draw(const page_view *v, page_markup *m, const page_card *sets, size_t count, const char *title)
{
    if (v->css) {
        sheet(v, m, sets, count, title);
        return;
    }
    for (size_t s = 0; s < count; s++) {
        bool goes_on = s > 0 && sets[s - 1].width == sets[s].width && !folds(&sets[s - 1]); /* in the same grid */
        bool is_followed = s + 1 < count && sets[s + 1].width == sets[s].width && !folds(&sets[s]);
        if (!goes_on)
            grid(m, &sets[s]);
        figures(v, m, &sets[s], 0, folds(&sets[s]) ? sets[s].open : sets[s].count);
        if (!is_followed)
            page_markup_close_line(m);
        if (folds(&sets[s]))
            folded(v, m, &sets[s]);
    }
}

void page_card_draw(const page_view *v, page_markup *m, const page_card *card)
{
    page_card one = *card;
    one.count = 1;
    page_cards_draw(v, m, &one, 1, card->name);
}

double page_card_title(const page_view *v, page_markup *m, const page_card *set, int vessel, const char *title)
{
    const page_svg_run run = {title, "title", 13.0, true, false};
    double left = vessel >= 0 ? 20.0 : 2.0;
    if (m && vessel >= 0)
        page_svg_mark(m, page_view_mark(page_view_verdict(v, (size_t)vessel)), 9, 10, 6);
    return page_svg_words(m, left, 2.0, set->width - left - 2.0, &run, 1);
}

page_plot page_card_plot(const page_card *set, double head, double below)
{
    enum { LEFT = 44, RIGHT = 8, NAME = 24, AXIS = 36, MINI_AXIS = 20, MINI_NAME = 8 };
    bool mini = set->width < SVG_CARD;
    double top = head + (mini ? MINI_NAME : NAME), foot = (mini ? MINI_AXIS : AXIS) + below;
    return (page_plot){.left = mini ? LEFT - 6.0 : LEFT,
                       .top = top,
                       .width = set->width - LEFT - RIGHT,
                       .height = set->height - top - foot};
}

double *page_card_column(const page_view *v, fv_show show, const double *matrix, size_t rows, size_t stride,
                         size_t column)
{
    double *values = malloc((rows + 1) * sizeof *values);
    for (size_t i = 0; values && i < rows; i++)
        values[i] = page_view_value(v, show, matrix[i * stride + column]);
    return values;
}

double *page_card_hours(const fv_series *series)
{
    double *hours = malloc((series->count + 1) * sizeof *hours);
    for (size_t i = 0; hours && i < series->count; i++)
        hours[i] = series->time[i] / 3600.0;
    return hours;
}

void page_card_curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel, page_card_points points)
{
    const page_plot_curve curve = {.name = page_view_vessel(v, vessel),
                                   .vessel = page_view_vessel(v, vessel),
                                   .css_class = page_view_curve_class(v, vessel),
                                   .x = points.x,
                                   .y = points.y,
                                   .count = points.count,
                                   .markers = points.markers};
    if (points.x && points.y)
        page_plot_draw(m, p, &curve);
    else
        page_markup_fail(m);
}

void page_card_curves(const page_view *v, page_markup *m, const page_card *set, const page_plot *p,
                      void (*curve)(const page_view *v, page_markup *m, const page_plot *p, size_t vessel))
{
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        if (!v->many || (i != v->worst && i != v->best))
            curve(v, m, p, i);
    if (v->many) {
        curve(v, m, p, v->best);
        curve(v, m, p, v->worst);
    }
    page_plot_end(m);
    page_view_vessel_keys(v, m, 8.0, p->top + p->height + 38.0, set->width - 16.0);
}

double page_card_steaming(const page_view *v)
{
    static const double a_little = 1.03, not_much = 1.3, far = 2.0;
    const double waits = report_heat_waits_until(v->heat);
    double last = fmin(v->heat->steam_end, waits), due = 0.0;
    for (size_t i = 0; i < v->heat->vessel_count; i++) {
        last = fmax(last, fmax(v->heat->vessels[i].core, v->heat->vessels[i].hold)); /* NaN counts for nothing */
        due = fmax(due, page_view_deadline(v, i));
    }
    last *= a_little;
    if (due * a_little < far * last || waits < v->heat->end)
        last = fmax(last, due * a_little);
    return (last > 0.0 && v->heat->end > not_much * last ? last : v->heat->end) / 3600.0;
}

page_axis page_card_time_axis(const page_view *v, double from, double to, int ticks, bool named)
{
    bool on_clock = !isnan(v->options->clock);
    return page_axis_time(from, to, ticks, v->options->clock / 3600.0, v->options->twelve_hours,
                          !named     ? NULL
                          : on_clock ? "time of day"
                                     : "hours from the start");
}
