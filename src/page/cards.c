/* SPDX-License-Identifier: MIT */
#include "page/cards.h"

#include <math.h>
#include <stdlib.h>

static void figure(const view *v, markup *m, const card *set, size_t which)
{
    fv_text title = {0}, about = {0};
    set->title(v, which, &title);
    set->about(v, which, &about);
    markup_open(m, "figure", "class", set->width < SVG_CARD ? "mini" : "card", NULL);
    svg_begin(m, set->width, set->height, NULL, NULL, markup_words(m, &title), markup_words(m, &about));
    set->draw(v, m, set, which);
    svg_end(m);
    markup_close(m);
    markup_newline(m);
    fv_text_free(&title);
    fv_text_free(&about);
}

static size_t columns_of(const card *set)
{
    enum { SHEET = 3 * SVG_CARD };
    size_t fits = (size_t)(SHEET / set->width);
    return set->count < fits ? set->count : fits;
}

static void sheet(const view *v, markup *m, const card *sets, size_t count, const char *title)
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
    svg_begin(m, width, height, NULL, v->css, title, markup_words(m, &about));
    for (size_t s = 0; s < count; s++) {
        size_t columns = columns_of(&sets[s]);
        for (size_t i = 0; i < sets[s].count; i++) {
            svg_group(m, sets[s].width * (double)(i % columns), y + sets[s].height * (double)(i / columns), "card");
            sets[s].draw(v, m, &sets[s], i);
            markup_close(m);
        }
        if (columns > 0)
            y += sets[s].height * (double)((sets[s].count + columns - 1) / columns);
    }
    svg_end(m);
    fv_text_free(&about);
}

void cards_draw(const view *v, markup *m, const card *sets, size_t count, const char *title)
{
    if (v->css) {
        sheet(v, m, sets, count, title);
        return;
    }
    for (size_t s = 0; s < count; s++) {
        markup_open(m, "div", "class", sets[s].width < SVG_CARD ? "minis" : "cards", NULL);
        markup_newline(m);
        for (size_t i = 0; i < sets[s].count; i++)
            figure(v, m, &sets[s], i);
        markup_close(m);
        markup_newline(m);
    }
}

void card_title(const view *v, markup *m, int vessel, const char *title)
{
    if (vessel >= 0)
        svg_mark(m, view_mark(view_verdict(v, (size_t)vessel)), 9, 10, 6);
    svg_text(m, vessel >= 0 ? 20 : 2, 14.5, "t title", "%s", title);
}

plot card_plot(const card *set, double below)
{
    enum { LEFT = 44, RIGHT = 10, TOP = 46, AXIS = 36, MINI_LEFT = 30, MINI_TOP = 22, MINI_AXIS = 20 };
    if (set->width < SVG_CARD)
        return (plot){.left = MINI_LEFT,
                      .top = MINI_TOP,
                      .width = set->width - MINI_LEFT - RIGHT,
                      .height = set->height - MINI_TOP - MINI_AXIS};
    return (plot){
        .left = LEFT, .top = TOP, .width = set->width - LEFT - RIGHT, .height = set->height - TOP - AXIS - below};
}

double *card_column(const view *v, fv_show show, const double *matrix, size_t rows, size_t stride, size_t column)
{
    double *values = malloc((rows + 1) * sizeof *values);
    for (size_t i = 0; values && i < rows; i++)
        values[i] = view_value(v, show, matrix[i * stride + column]);
    return values;
}

double *card_hours(const fv_series *series)
{
    double *hours = malloc((series->count + 1) * sizeof *hours);
    for (size_t i = 0; hours && i < series->count; i++)
        hours[i] = series->time[i] / 3600.0;
    return hours;
}

double card_steaming(const view *v)
{
    static const double after = 1.15, not_much = 1.7;
    double shut = v->heat->steam_end * after, end = v->heat->end;
    return (shut > 0.0 && end > not_much * shut ? shut : end) / 3600.0;
}

axis card_time_axis(const view *v, double hours, int ticks, bool named)
{
    bool on_clock = !isnan(v->options->clock);
    return axis_time(hours, ticks, v->options->clock / 3600.0, v->options->twelve_hours,
                     !named     ? NULL
                     : on_clock ? "time of day"
                                : "hours from the start");
}
