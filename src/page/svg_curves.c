/* SPDX-License-Identifier: MIT */
/* Temperatures against time: all cores in one plot, then each vessel by itself with its chamber, its target, its hold
 * and the moment it may be opened. Many vessels become small multiples. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdlib.h>

static const fv_vessel_history *history(const page_view *v, size_t vessel)
{
    return &v->heat->vessels[vessel];
}

/* From just below the coldest sample to just above the boiling point, the same in all plots. */
static page_axis temperature_axis(const page_view *v, int ticks, const char *name)
{
    const fv_series *series = &v->heat->series;
    double least = v->heat->boiling_point, most = v->heat->boiling_point;
    for (size_t i = 0; i < series->count * v->heat->vessel_count; i++) {
        least = fmin(least, fmin(series->core[i], series->chamber[i]));
        most = fmax(most, series->chamber[i]);
    }
    return page_axis_number(page_view_value(v, FV_SHOW_TEMPERATURE, least),
                            page_view_value(v, FV_SHOW_TEMPERATURE, most), ticks, name);
}

static void curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel, const double *matrix,
                  const char *what, const char *css_class)
{
    const fv_series *series = &v->heat->series;
    double *hours = page_card_hours(series);
    double *values = page_card_column(v, FV_SHOW_TEMPERATURE, matrix, series->count, v->heat->vessel_count, vessel);
    fv_text name = {0};
    fv_text_add(&name, "%s%s", page_view_vessel(v, vessel), what);
    page_plot_curve c = {.name = page_markup_words(m, &name),
                         .vessel = page_view_vessel(v, vessel),
                         .css_class = css_class,
                         .x = hours,
                         .y = values,
                         .count = series->count};
    if (hours && values)
        page_plot_draw(m, p, &c);
    else
        page_markup_fail(m);
    fv_text_free(&name);
    free(hours);
    free(values);
}

/* ---- all cores together ---- */

/* The one target that all vessels share; NaN where they differ or have none. */
static double common_target(const page_view *v)
{
    double target = fv_or(v->plant->vessels[0]->target, NAN);
    for (size_t i = 1; i < v->plant->vessel_count; i++)
        if (fabs(fv_or(v->plant->vessels[i]->target, NAN) - target) > 1e-6)
            return NAN;
    return target;
}

/* The first plot shows heating and hold, a second one the whole run where cooling takes much longer. */
static bool shows_all(const page_view *v)
{
    return page_card_steaming(v) * 3600.0 >= v->heat->end * (1.0 - 1e-9);
}

static void all_title(const page_view *v, size_t which, fv_text *out)
{
    fv_text_add(out, v->heat->vessel_count > 1 ? "The coldest point of each vessel" : "The coldest point");
    fv_text_add(out, which > 0 ? ", until cool" : "");
}

static void all_about(const page_view *v, size_t which, fv_text *out)
{
    (void)which;
    fv_text_add(out, "Core temperature against time. ");
    for (size_t i = 0; i < v->heat->vessel_count && i < 2 * VIEW_FEW; i++) {
        const fv_vessel_history *h = history(v, i);
        if (isnan(h->core))
            fv_text_add(out, "%s does not arrive: %s at the end. ", page_view_vessel(v, i),
                        page_view_shown(v, FV_SHOW_TEMPERATURE, h->core_end).text);
        else
            fv_text_add(out, "%s at its target: %s. ", page_view_vessel(v, i), page_view_time(v, h->core).text);
    }
}

static void all_draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    page_plot p = page_card_plot(set, page_view_vessel_keys_height(v, set->width - 16.0) + 4.0);
    print_shown name = page_view_axis_name(v, "core", FV_SHOW_TEMPERATURE);
    double target = common_target(v);
    print_shown word = page_view_shown(v, FV_SHOW_TEMPERATURE, target);
    fv_text title = {0}, level = {0};
    all_title(v, which, &title);
    page_card_title(v, m, -1, page_markup_words(m, &title));
    p.x = page_card_time_axis(v, which == 0 ? page_card_steaming(v) : v->heat->end / 3600.0, 7, true);
    p.y = temperature_axis(v, 6, name.text);
    page_plot_begin(m, &p, "plot");
    fv_text_add(&level, "target %s", word.text);
    page_plot_level(m, &p, page_view_value(v, FV_SHOW_TEMPERATURE, target), "target",
                    which == 0 ? page_markup_words(m, &level) : NULL);
    for (size_t i = 0; i < v->heat->vessel_count; i++)
        if (!v->many || (i != v->worst && i != v->best))
            curve(v, m, &p, i, v->heat->series.core, "", page_view_curve_class(v, i));
    if (v->many) { /* on top of the faint ones */
        curve(v, m, &p, v->best, v->heat->series.core, "", "c best");
        curve(v, m, &p, v->worst, v->heat->series.core, "", "c worst");
    }
    page_plot_end(m);
    page_view_vessel_keys(v, m, 8.0, p.top + p.height + 38.0, set->width - 16.0);
    fv_text_free(&title);
    fv_text_free(&level);
}

/* ---- each vessel ---- */

static void vessel_title(const page_view *v, size_t which, fv_text *out)
{
    fv_text_add(out, "%s: %s", page_view_vessel(v, which), page_view_fate(v, which));
}

static void vessel_about(const page_view *v, size_t which, fv_text *out)
{
    const fv_vessel_history *h = history(v, which);
    fv_text_add(out, "Core and chamber temperature of %s against time. ", page_view_vessel(v, which));
    if (!isnan(h->steam_on))
        fv_text_add(out, "Steam enters: %s. ", page_view_time(v, h->steam_on).text);
    if (!isnan(h->full))
        fv_text_add(out, "Chamber at boiling point: %s. ", page_view_time(v, h->full).text);
    if (!isnan(h->core))
        fv_text_add(out, "Core at target: %s. ", page_view_time(v, h->core).text);
    else
        fv_text_add(out, "The core does not reach its target; at the end it is at %s. ",
                    page_view_shown(v, FV_SHOW_TEMPERATURE, h->core_end).text);
    if (!isnan(h->hold))
        fv_text_add(out, "Hold over: %s. ", page_view_time(v, h->hold).text);
    if (!isnan(h->cool))
        fv_text_add(out, "Cool: %s. ", page_view_time(v, h->cool).text);
}

/* The time between core and end of the hold, and from there to cool, as bands with a word in them. */
static void band(page_markup *m, const page_plot *p, double from, double to, const char *css_class, const char *word)
{
    if (isnan(from) || isnan(to) || to <= from)
        return;
    page_svg_point a = page_plot_at(p, from / 3600.0, p->y.from), b = page_plot_at(p, to / 3600.0, p->y.to);
    page_svg_rect(m, a.x, b.y, b.x - a.x, a.y - b.y, css_class);
    if (word && b.x - a.x > page_svg_text_width(word, 11.0) + 2.0)
        page_svg_text(m, 0.5 * (a.x + b.x), a.y - 5.0, "t m soft", "%s", word);
}

static void vessel_heading(const page_view *v, page_markup *m, size_t which, bool mini)
{
    const char *id = page_view_vessel(v, which);
    fv_text title = {0};
    if (mini)
        fv_text_add(&title, "%s", page_svg_fit(id, 13).text);
    else
        fv_text_add(&title, "%s: %s, core %s", page_svg_fit(id, 20).text, page_view_fate(v, which),
                    page_view_arrival(v, which).text);
    page_card_title(v, m, (int)which, page_markup_words(m, &title));
    if (mini)
        page_svg_text(m, SVG_MINI - 4.0, 14.5, "t e", "%s", page_view_arrival(v, which).text);
    fv_text_free(&title);
}

static void vessel_draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    static const page_plot_key keys[] = {
        {"c core", "core"}, {"c chamber", "chamber"}, {"aim", "target"}, {"cooled", "cool enough to open"}};
    const fv_vessel_history *h = history(v, which);
    bool mini = set->width < SVG_CARD;
    page_plot p = page_card_plot(set, mini ? 0.0 : 20.0);
    print_shown name = page_view_axis_name(v, "temperature", FV_SHOW_TEMPERATURE);
    double end = isnan(h->hold) ? h->core : h->hold;
    vessel_heading(v, m, which, mini);
    p.x = page_card_time_axis(v, page_card_steaming(v), mini ? 3 : 7, !mini);
    p.y = temperature_axis(v, mini ? 3 : 6, mini ? NULL : name.text);
    page_plot_begin(m, &p, mini ? "plot small" : "plot");
    band(m, &p, h->core, isnan(h->hold) && !isnan(h->core) ? v->heat->end : h->hold, "hold", mini ? NULL : "hold");
    band(m, &p, end, h->cool, "cooling", mini ? NULL : "cooling");
    page_plot_level(m, &p, page_view_value(v, FV_SHOW_TEMPERATURE, fv_or(v->plant->vessels[which]->target, NAN)),
                    "target", NULL);
    page_plot_moment(m, &p, h->cool / 3600.0, "cool");
    curve(v, m, &p, which, v->heat->series.chamber, " chamber", "c chamber");
    curve(v, m, &p, which, v->heat->series.core, " core", "c core");
    if (!mini && h->cool / 3600.0 > p.x.to)
        page_svg_text(m, p.left + p.width - 4.0, p.top + p.height - 18.0, "t e halo", "cool enough: %s \xE2\x86\x92",
                      page_view_time(v, h->cool).text);
    page_plot_end(m);
    if (!mini)
        page_plot_keys(m, 8.0, p.top + p.height + 36.0, set->width, keys, h->cool / 3600.0 <= p.x.to ? 4 : 3);
}

void page_svg_curves(const page_view *v, page_markup *m)
{
    const page_card sets[] = {
        {.width = SVG_CARD,
         .height = 300,
         .count = shows_all(v) ? 1 : 2,
         .draw = all_draw,
         .title = all_title,
         .about = all_about},
        {.width = v->many ? SVG_MINI : SVG_CARD,
         .height = v->many ? SVG_MINI_HEIGHT : SVG_CARD_HEIGHT,
         .count = v->heat->vessel_count,
         .draw = vessel_draw,
         .title = vessel_title,
         .about = vessel_about},
    };
    page_cards_draw(v, m, sets, 2, "Temperatures");
}
