/* SPDX-License-Identifier: MIT */
/* Steam that the vessels could take against steam that the boilers give, over the run. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdlib.h>

static double *output(const page_view *v)
{
    const fv_series *series = &v->heat->series;
    double *sum = calloc(series->count + 1, sizeof *sum);
    for (size_t i = 0; sum && i < series->count; i++)
        for (size_t b = 0; b < v->heat->boiler_count; b++)
            sum[i] += page_view_value(v, FV_SHOW_STEAM, series->boiler_steam[i * v->heat->boiler_count + b]);
    return sum;
}

static double largest(const double *values, size_t count)
{
    double most = 0.0;
    for (size_t i = 0; values && i < count; i++)
        most = fmax(most, values[i]);
    return most;
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    const fv_series *series = &v->heat->series;
    double *given = output(v), *asked = page_card_column(v, FV_SHOW_STEAM, series->demand, series->count, 1, 0);
    (void)which;
    fv_text_add(
        out,
        "Demand is the steam that all chambers could condense at the boiling point; it is highest at the start, "
        "%.0f %s at most, and the boilers give at most %.0f %s.",
        largest(asked, series->count), page_view_unit(v, FV_SHOW_STEAM), largest(given, series->count),
        page_view_unit(v, FV_SHOW_STEAM));
    free(given);
    free(asked);
}

/* The boilers' output as an area. */
static void area(page_markup *m, const page_plot *p, const double *hours, const double *values, size_t count)
{
    fv_text path = {0};
    page_svg_point at = page_plot_at(p, hours[0], p->y.from);
    fv_text_add(&path, "M%.1f %.1f", at.x, at.y);
    for (size_t i = 0; i < count && hours[i] <= p->x.to; i++) {
        at = page_plot_at(p, hours[i], values[i]);
        fv_text_add(&path, "L%.1f %.1f", at.x, at.y);
    }
    at.y = p->top + p->height;
    fv_text_add(&path, "L%.1f %.1fz", at.x, at.y);
    page_svg_path(m, page_markup_words(m, &path), "area");
    fv_text_free(&path);
}

static void draw_curves(const page_view *v, page_markup *m, page_plot *p, const double *hours, const double *given,
                        const double *asked)
{
    const fv_series *series = &v->heat->series;
    /* What boilers give must stay readable under a demand that starts many times higher. */
    static const double headroom = 3.0;
    double most_given = largest(given, series->count), most_asked = largest(asked, series->count);
    double top = fmin(most_asked, headroom * most_given);
    print_shown name = page_view_axis_name(v, "steam", FV_SHOW_STEAM);
    p->x = page_card_time_axis(v, 0.0, page_card_steaming(v), 5, true);
    p->y = page_axis_number(0.0, fmax(top, most_given), 6, name.text);
    page_plot_begin(m, p, "plot");
    area(m, p, hours, given, series->count);
    page_plot_curve c = {
        .name = "boilers give", .css_class = "c output", .x = hours, .y = given, .count = series->count};
    page_plot_draw(m, p, &c);
    c = (page_plot_curve){
        .name = "vessels could take", .css_class = "c demand", .x = hours, .y = asked, .count = series->count};
    page_plot_draw(m, p, &c);
    if (most_asked > p->y.to)
        page_svg_text(m, p->left + p->width - 6.0, p->top + 14.0, "e halo", "\xE2\x86\x91 up to %.0f", most_asked);
    page_plot_end(m);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    static const page_plot_key keys[] = {{"c demand", "vessels could take"}, {"c output", "boilers give"}};
    const fv_series *series = &v->heat->series;
    double head = page_card_title(v, m, set, -1, "Steam asked for and given");
    page_plot p = page_card_plot(set, head, 20.0);
    double *hours = page_card_hours(series), *given = output(v);
    double *asked = page_card_column(v, FV_SHOW_STEAM, series->demand, series->count, 1, 0);
    (void)which;
    if (hours && given && asked && series->count > 0)
        draw_curves(v, m, &p, hours, given, asked);
    else if (series->count > 0)
        page_markup_fail(m);
    page_plot_keys(m, 8.0, p.top + p.height + 38.0, set->width - 16.0, keys, 2);
    free(hours);
    free(given);
    free(asked);
}

void page_svg_demand(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = SVG_CHART,
                           .draw = draw,
                           .name = "Steam: what the vessels could take, what the boilers give",
                           .about = about};
    page_card_draw(v, m, &set);
}
