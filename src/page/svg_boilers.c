/* SPDX-License-Identifier: MIT */
/* Each boiler over the run: its pressure, and the water that it has taken. */
#include "page/cards.h"
#include "page/pictures.h"

#include <math.h>
#include <stdlib.h>

#define WATER_DENSITY 1000.0 /* kg/m3: what a boiler holds is known no better */

static const fv_boiler *boiler_of(const page_view *v, size_t which)
{
    return v->plant->boilers[which / 2];
}

static bool is_water(size_t which)
{
    return which % 2 == 1;
}

/* Water taken up to each sample, kg: the steam's integral by trapezoids, in proportion to what the run took in all. */
static double *water_taken(const page_view *v, size_t boiler)
{
    const fv_series *s = &v->heat->series;
    double *sum = calloc(s->count + 1, sizeof *sum);
    for (size_t i = 1; sum && i < s->count; i++)
        sum[i] = sum[i - 1] + 0.5 * (s->time[i] - s->time[i - 1]) *
                                  (s->boiler_steam[i * v->heat->boiler_count + boiler] +
                                   s->boiler_steam[(i - 1) * v->heat->boiler_count + boiler]);
    double all = sum && s->count > 0 ? sum[s->count - 1] : 0.0;
    for (size_t i = 0; all > 0.0 && i < s->count; i++)
        sum[i] = page_view_value(v, FV_SHOW_WATER, sum[i] * v->heat->boilers[boiler].water / all);
    return sum;
}

static double *values_of(const page_view *v, size_t which)
{
    const fv_series *s = &v->heat->series;
    return is_water(which)
               ? water_taken(v, which / 2)
               : page_card_column(v, FV_SHOW_PRESSURE, s->boiler_pressure, s->count, v->heat->boiler_count, which / 2);
}

/* What is there to take without feeding; NaN: it feeds itself. */
static double usable(const page_view *v, size_t which)
{
    const fv_boiler *b = boiler_of(v, which);
    bool by_hand = fv_word(b->feeding) == FV_FEED_BY_HAND;
    return by_hand ? WATER_DENSITY * fv_or(b->usable, NAN) : (double)NAN;
}

static void title(const page_view *v, size_t which, fv_text *out)
{
    fv_text_add(out, is_water(which) ? "%s: water taken" : "%s: pressure", boiler_of(v, which)->part.id);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    const fv_boiler_history *h = &v->heat->boilers[which / 2];
    if (is_water(which))
        fv_text_add(out, "Water that boiler %s has taken, against time; %s in all. ", boiler_of(v, which)->part.id,
                    page_view_shown(v, FV_SHOW_WATER, h->water).text);
    else
        fv_text_add(out, "Pressure in boiler %s above the air's, against time; %s at most. ",
                    boiler_of(v, which)->part.id, page_view_shown(v, FV_SHOW_PRESSURE, h->pressure_most).text);
    if (!isnan(h->dry))
        fv_text_add(out, "Out of water: %s.", page_view_time(v, h->dry).text);
}

static void draw_in(const page_view *v, page_markup *m, page_plot *p, size_t which, const double *hours,
                    const double *values)
{
    const fv_series *s = &v->heat->series;
    print_shown name = is_water(which) ? page_view_axis_name(v, "water taken", FV_SHOW_WATER)
                                       : page_view_axis_name(v, "above the air's", FV_SHOW_PRESSURE);
    double level = is_water(which) ? page_view_value(v, FV_SHOW_WATER, usable(v, which))
                                   : page_view_value(v, FV_SHOW_PRESSURE, fv_or(boiler_of(v, which)->holds, NAN));
    double most = 0.0;
    for (size_t i = 0; i < s->count; i++)
        most = fmax(most, values[i]);
    if (level < 2.0 * most)
        most = fmax(most, level);
    p->x = page_card_time_axis(v, 0.0, page_card_steaming(v), 5, true);
    p->y = page_axis_number(0.0, most, 5, name.text);
    page_plot_begin(m, p, "plot");
    page_plot_level(m, p, level, "target", NULL);
    page_plot_moment(m, p, v->heat->boilers[which / 2].dry / 3600.0, "due");
    const page_plot_curve c = {.name = boiler_of(v, which)->part.id,
                               .css_class = is_water(which) ? "c chamber" : "c output",
                               .x = hours,
                               .y = values,
                               .count = s->count};
    page_plot_draw(m, p, &c);
    page_plot_end(m);
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    fv_text words = {0};
    page_plot_key keys[3];
    size_t count = 0;
    title(v, which, &words);
    double head = page_card_title(v, m, set, -1, page_markup_words(m, &words));
    double level = is_water(which) ? usable(v, which) : fv_or(boiler_of(v, which)->holds, NAN);
    keys[count++] = (page_plot_key){is_water(which) ? "c chamber" : "c output", is_water(which) ? "water" : "pressure"};
    if (!isnan(level))
        keys[count++] = (page_plot_key){"aim", is_water(which) ? "usable without feeding" : "its control holds"};
    if (!isnan(v->heat->boilers[which / 2].dry))
        keys[count++] = (page_plot_key){"last", "out of water"};
    page_plot p = page_card_plot(set, head, page_plot_keys(NULL, 0, 0, set->width - 16.0, keys, count) + 4.0);
    double *hours = page_card_hours(&v->heat->series), *values = values_of(v, which);
    if (hours && values)
        draw_in(v, m, &p, which, hours, values);
    else
        page_markup_fail(m);
    page_plot_keys(m, 8.0, p.top + p.height + 38.0, set->width - 16.0, keys, count);
    free(hours);
    free(values);
    fv_text_free(&words);
}

void page_svg_boilers(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = 240,
                           .count = 2 * v->heat->boiler_count,
                           .draw = draw,
                           .title = title,
                           .about = about};
    page_cards_draw(v, m, &set, 1, "The boilers over the run");
}
