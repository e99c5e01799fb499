/* SPDX-License-Identifier: MIT */
/* Where the pressure goes on the way to a vessel: step by step from the boiler to its chamber, the largest loss on the
 * way pointed out. One card for each vessel, the worst first; of many vessels only the worst and the best. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_bars.h"
#include "page/way.h"

#include <math.h>
#include <stdio.h>

enum { HINT = 15, FOOT = 6 };

static size_t vessel_of(const page_view *v, size_t which)
{
    return v->many && which == 1 ? v->best : page_view_ranked(v, which);
}

/* The largest fall before the holes, which are meant to take some; -1: nothing falls. */
static int largest(const page_way *w)
{
    int worst = -1;
    double most = 0.0;
    for (size_t i = 1; i < w->count; i++)
        if (w->steps[i].before - w->steps[i].after > most) {
            most = w->steps[i].before - w->steps[i].after;
            worst = (int)i;
        }
    return worst;
}

static void name_step(const page_view *v, const page_way_step *step, char *out, size_t size)
{
    const fv_line *line = step->line >= 0 ? v->plant->lines[step->line] : NULL;
    if (!line)
        snprintf(out, size, "coil and holes");
    else if (step->kind == WAY_SAG)
        snprintf(out, size, "water in the sag of %s", line->part.id);
    else
        snprintf(out, size, "%s", line->part.id);
}

static double row(const page_view *v, page_markup *m, double width, double y, const page_way *w, size_t i, bool worst)
{
    const page_way_step *step = &w->steps[i];
    double top = fmax(w->steps[w->count - 1].before, fmax(step->before, step->after));
    const bool gains = step->after > step->before; /* a tee or a widening gives back some of the speed */
    char who[160];
    print_shown measured = {""}, fall = page_view_shown(v, FV_SHOW_DROP, step->before - step->after);
    name_step(v, step, who, sizeof who);
    if (step->kind == WAY_LINE)
        snprintf(measured.text, sizeof measured.text, "(%.40s, %.40s)",
                 print_shown_said(v->units, FV_SHOW_BORE, v->plant->lines[step->line]->bore.v).text,
                 print_shown_said(v->units, FV_SHOW_LENGTH, v->plant->lines[step->line]->length.v).text);
    const page_svg_run runs[] = {
        {who, "id", 11.0, true, false},
        {measured.text, NULL, 11.0, false, false},
        {fall.text, "much", 11.0, true, false},
        {worst   ? "most of what lines lose"
         : gains ? "given back"
                 : NULL,
         worst ? "bad" : NULL, 11.0, true, false},
    };
    const page_bar bar = {.runs = runs,
                          .run_count = 4,
                          .from = top > 0.0 ? fmin(step->before, step->after) / top : 0.0,
                          .to = top > 0.0 ? fmax(step->before, step->after) / top : 0.0,
                          .mark = NAN,
                          .css_class = worst            ? "bar largest"
                                       : gains          ? "bar gain"
                                       : step->line < 0 ? "bar useful"
                                                        : "bar",
                          .sign = -1};
    return page_bar_draw(m, y, width, &bar);
}

static double rows(const page_view *v, page_markup *m, double width, double y, size_t vessel)
{
    page_way w;
    double top = y;
    bool good = page_way_make(v, vessel, &w);
    int worst = good ? largest(&w) : -1;
    for (size_t i = w.count; good && i-- > 0;)
        y += row(v, m, width, y, &w, i, (int)i == worst);
    if (!good && m)
        page_markup_fail(m);
    page_way_free(&w);
    return good ? y - top : (double)NAN;
}

static void title(const page_view *v, size_t which, fv_text *out)
{
    fv_text_add(out, "Pressure lost on the way to %s", page_view_vessel(v, vessel_of(v, which)));
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    page_way w;
    if (page_way_make(v, vessel_of(v, which), &w))
        for (size_t i = w.count; i-- > 0;) {
            char who[160];
            name_step(v, &w.steps[i], who, sizeof who);
            fv_text_add(out, "%s: %s. ", who,
                        page_view_shown(v, FV_SHOW_DROP, w.steps[i].before - w.steps[i].after).text);
        }
    else
        out->failed = true;
    page_way_free(&w);
}

static double heading(const page_view *v, page_markup *m, double width, size_t which)
{
    const page_card set = {.width = width};
    fv_text words = {0};
    title(v, which, &words);
    double height = page_card_title(v, m, &set, (int)vessel_of(v, which), words.text ? words.text : "");
    if (words.failed)
        height = (double)NAN;
    if (m && words.failed)
        page_markup_fail(m);
    fv_text_free(&words);
    return height;
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    double y = heading(v, m, set->width, which);
    page_svg_text(m, 2, y + 10.0, "soft", "From the boiler's pressure at the top to none.");
    rows(v, m, set->width, y + HINT + 4.0, vessel_of(v, which));
}

static double height_of(const page_view *v, size_t which)
{
    return heading(v, NULL, SVG_CARD, which) + 4.0 + HINT + rows(v, NULL, SVG_CARD, 0.0, vessel_of(v, which)) + FOOT;
}

void page_svg_drops(const page_view *v, page_markup *m)
{
    size_t all = v->plant->vessel_count, count = v->many ? 2 : all;
    double height = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double own = height_of(v, i);
        height = fmax(height, own);
        if (isnan(own))
            page_markup_fail(m);
    }
    const page_card set = {.width = SVG_CARD,
                           .height = height,
                           .height_of = height_of,
                           .count = count,
                           .fold = "Show it for the other vessels",
                           .open = 1,
                           .draw = draw,
                           .title = title,
                           .about = about};
    page_cards_draw(v, m, &set, 1, "Pressure lost on the way to each vessel");
}
