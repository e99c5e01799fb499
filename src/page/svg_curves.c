/* SPDX-License-Identifier: MIT */
/* Temperatures against time: all cores in one plot, then each vessel by itself with its chamber, its target, its hold
 * and the time allowed. Heating and hold fill a plot; where cooling takes much longer it follows in a second, coarser
 * one. Curves end when its load is cool. Many vessels become small multiples. */
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

/* Of a run, and of a vessel by its number in that run. */
static void curve_of(const page_view *v, page_markup *m, const page_plot *p, const fv_heat_result *heat, size_t vessel,
                     const double *matrix, const char *what, const char *css_class)
{
    const fv_series *series = &heat->series;
    double *hours = page_card_hours(series);
    double *values = page_card_column(v, FV_SHOW_TEMPERATURE, matrix, series->count, heat->vessel_count, vessel);
    fv_text name = {0};
    fv_text_add(&name, "%s%s", heat->plant->vessels[vessel]->part.id, what);
    page_plot_curve c = {.name = page_markup_words(m, &name),
                         .vessel = heat->plant->vessels[vessel]->part.id,
                         .css_class = css_class,
                         .x = hours,
                         .y = values,
                         .count = series->count};
    for (size_t i = 0; hours && values && i < series->count; i++)
        if (series->time[i] > heat->vessels[vessel].cool || values[i] < p->y.from || values[i] > p->y.to)
            values[i] = NAN; /* opened; never so where it does not cool. Or off the scale, which is that of now */
    if (hours && values)
        page_plot_draw(m, p, &c);
    else
        page_markup_fail(m);
    fv_text_free(&name);
    free(hours);
    free(values);
}

static void curve(const page_view *v, page_markup *m, const page_plot *p, size_t vessel, const double *matrix,
                  const char *what, const char *css_class)
{
    curve_of(v, m, p, v->heat, vessel, matrix, what, css_class);
}

/* The core before the last change. */
static void ghost(const page_view *v, page_markup *m, const page_plot *p, size_t vessel)
{
    const int was = page_ghost_vessel(v, vessel);
    if (was >= 0)
        curve_of(v, m, p, page_ghost(v), (size_t)was, page_ghost(v)->series.core, " before", "ghost");
}

/* ---- two plots side by side ---- */

/* Cooling has a plot of its own. */
static bool cools_apart(const page_view *v)
{
    return page_card_steaming(v) * 3600.0 < v->heat->end * (1.0 - 1e-9);
}

/* The plot of heating and hold, with all the width but what the other takes. */
static page_plot heating_plot(const page_view *v, const page_card *set, double head, double below)
{
    static const double share = 0.72;
    page_plot p = page_card_plot(set, head, below);
    bool mini = set->width < SVG_CARD, two = cools_apart(v) && !mini;
    if (two)
        p.width *= share;
    p.x = page_card_time_axis(v, 0.0, page_card_steaming(v), mini ? 2 : two ? 4 : 5, !mini);
    return p;
}

static page_plot cooling_plot(const page_view *v, const page_card *set, const page_plot *heating)
{
    enum { GAP = 10, RIGHT = 8 };
    page_plot p = *heating;
    p.left += p.width + GAP;
    p.width = set->width - RIGHT - p.left;
    p.x = page_card_time_axis(v, page_card_steaming(v), v->heat->end / 3600.0, 2, false);
    p.y.name = NULL;
    p.y.bare = true;
    return p;
}

/* ---- all cores together ---- */

/* The one figure that all vessels share; NaN where they differ or have none. */
static double common(const page_view *v, double (*of)(const page_view *v, size_t vessel))
{
    double value = of(v, 0);
    for (size_t i = 1; i < v->plant->vessel_count; i++)
        if (!(fabs(of(v, i) - value) <= 1e-6))
            return NAN;
    return value;
}

static double target(const page_view *v, size_t vessel)
{
    return fv_or(v->plant->vessels[vessel]->target, NAN);
}

static void all_title(const page_view *v, size_t which, fv_text *out)
{
    (void)which;
    fv_text_add(out, v->heat->vessel_count > 1 ? "The coldest point of each vessel" : "The coldest point");
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

static void all_curves(const page_view *v, page_markup *m, const page_plot *p)
{
    page_plot_begin(m, p, "plot");
    page_plot_level(m, p, page_view_value(v, FV_SHOW_TEMPERATURE, common(v, target)), "target", NULL);
    page_plot_moment(m, p, common(v, page_view_deadline) / 3600.0, "due");
    for (size_t i = 0; i < v->heat->vessel_count; i++)
        if (!v->many || i == v->worst || i == v->best)
            ghost(v, m, p, i);
    for (size_t i = 0; i < v->heat->vessel_count; i++)
        if (!v->many || (i != v->worst && i != v->best))
            curve(v, m, p, i, v->heat->series.core, "", page_view_curve_class(v, i));
    if (v->many) { /* on top of the faint ones */
        curve(v, m, p, v->best, v->heat->series.core, "", "c best");
        curve(v, m, p, v->worst, v->heat->series.core, "", "c worst");
    }
    page_plot_end(m);
}

static void all_draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    static const page_plot_key lines[] = {{"aim", "target"}, {"last", "time allowed"}};
    bool due = !isnan(common(v, page_view_deadline)), aim = !isnan(common(v, target));
    fv_text title = {0};
    all_title(v, which, &title);
    double head = page_card_title(v, m, set, -1, page_markup_words(m, &title)), keys_width = set->width - 16.0;
    double keys = page_view_vessel_keys_height(v, keys_width) + (aim || due ? 17.0 : 0.0);
    page_plot p = heating_plot(v, set, head, keys + 4.0);
    print_shown name = page_view_axis_name(v, "core", FV_SHOW_TEMPERATURE);
    p.y = temperature_axis(v, 6, name.text);
    all_curves(v, m, &p);
    if (cools_apart(v)) {
        page_plot cooling = cooling_plot(v, set, &p);
        all_curves(v, m, &cooling);
    }
    double y = p.top + p.height + 38.0;
    y += page_view_vessel_keys(v, m, 8.0, y, keys_width);
    page_plot_keys(m, 8.0, y, keys_width, lines + (aim ? 0 : 1), (size_t)aim + (size_t)due);
    fv_text_free(&title);
}

/* ---- each vessel, the worst first ---- */

static void vessel_title(const page_view *v, size_t place, fv_text *out)
{
    size_t which = page_view_ranked(v, place);
    fv_text_add(out, "%s: %s", page_view_vessel(v, which), page_view_outcome(v, which));
}

static void vessel_about(const page_view *v, size_t place, fv_text *out)
{
    size_t which = page_view_ranked(v, place);
    const fv_vessel_history *h = history(v, which);
    double due = page_view_deadline(v, which);
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
    if (!isnan(due))
        fv_text_add(out, "Allowed until: %s. ", page_view_time(v, due).text);
    if (!isnan(h->hold))
        fv_text_add(out, "Hold over: %s. ", page_view_time(v, h->hold).text);
    if (!isnan(h->cool))
        fv_text_add(out, "Cool: %s. ", page_view_time(v, h->cool).text);
}

/* The time between core and end of the hold as a band. */
static void band(page_markup *m, const page_plot *p, double from, double to, const char *css_class)
{
    double left = fmax(from / 3600.0, p->x.from), right = fmin(to / 3600.0, p->x.to);
    if (isnan(from) || isnan(to) || right <= left)
        return;
    page_svg_point a = page_plot_at(p, left, p->y.from), b = page_plot_at(p, right, p->y.to);
    page_svg_rect(m, a.x, b.y, b.x - a.x, a.y - b.y, css_class);
}

static double vessel_heading(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    fv_text title = {0};
    if (set->width < SVG_CARD)
        fv_text_add(&title, "%s %s", page_view_vessel(v, which), page_view_arrival(v, which).text);
    else
        fv_text_add(&title, "%s: %s, core %s", page_view_vessel(v, which), page_view_outcome(v, which),
                    page_view_arrival(v, which).text);
    double head = page_card_title(v, m, set, (int)which, page_markup_words(m, &title));
    fv_text_free(&title);
    return head;
}

static void vessel_curves(const page_view *v, page_markup *m, const page_plot *p, size_t which, const char *css_class)
{
    const fv_vessel_history *h = history(v, which);
    page_plot_begin(m, p, css_class);
    band(m, p, h->core, isnan(h->hold) && !isnan(h->core) ? v->heat->end : h->hold, "hold");
    page_plot_level(m, p, page_view_value(v, FV_SHOW_TEMPERATURE, target(v, which)), "target", NULL);
    page_plot_moment(m, p, page_view_deadline(v, which) / 3600.0, "due");
    ghost(v, m, p, which);
    curve(v, m, p, which, v->heat->series.chamber, " chamber", "c chamber");
    curve(v, m, p, which, v->heat->series.core, " core", "c core");
    page_plot_end(m);
}

static void vessel_draw(const page_view *v, page_markup *m, const page_card *set, size_t place)
{
    size_t which = page_view_ranked(v, place);
    static const page_plot_key keys[] = {
        {"c core", "core"}, {"c chamber", "chamber"}, {"aim", "target"}, {"last", "time allowed"}};
    bool mini = set->width < SVG_CARD;
    double head = vessel_heading(v, m, set, which), keys_width = set->width - 16.0;
    size_t key_count = isnan(page_view_deadline(v, which)) ? 3 : 4;
    page_plot p =
        heating_plot(v, set, head, mini ? 0.0 : page_plot_keys(NULL, 0, 0, keys_width, keys, key_count) + 4.0);
    print_shown name = page_view_axis_name(v, "temperature", FV_SHOW_TEMPERATURE);
    p.y = temperature_axis(v, mini ? 3 : 6, mini ? NULL : name.text);
    vessel_curves(v, m, &p, which, "plot");
    if (cools_apart(v) && !mini) {
        page_plot cooling = cooling_plot(v, set, &p);
        vessel_curves(v, m, &cooling, which, "plot");
    }
    if (!mini)
        page_plot_keys(m, 8.0, p.top + p.height + 38.0, keys_width, keys, key_count);
}

void page_svg_curves(const page_view *v, page_markup *m)
{
    const page_card sets[] = {
        {.width = SVG_CARD, .height = SVG_CHART, .count = 1, .draw = all_draw, .title = all_title, .about = all_about},
        {.width = v->many ? SVG_MINI : SVG_CARD,
         .height = v->many ? SVG_MINI_HEIGHT : SVG_CARD_HEIGHT,
         .count = v->heat->vessel_count,
         .fold = "Show the other vessels",
         .open = v->many ? 12 : 1,
         .draw = vessel_draw,
         .title = vessel_title,
         .about = vessel_about},
    };
    page_cards_draw(v, m, sets, 2, "Temperatures");
}
