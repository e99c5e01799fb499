/* SPDX-License-Identifier: MIT */
/* Heat that each vessel gets beside what it needs, and the time it takes beside what is allowed. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_bars.h"

#include <math.h>
#include <stdio.h>

enum { MOST_ROWS = 12, HINT = 15, FOOT = 6 };

typedef struct {
    double is, should; /* the same unit; NaN: not known */
    print_shown shown_is, shown_should;
} pair;

static pair heat_of(const page_view *v, size_t vessel)
{
    const fv_vessel_result *r = &v->flow->state->vessels[vessel];
    double need = r->need > 0.0 ? r->need : (double)NAN;
    return (pair){r->heat, need, page_view_shown(v, FV_SHOW_POWER, r->heat), page_view_shown(v, FV_SHOW_POWER, need)};
}

static pair time_of(const page_view *v, size_t vessel)
{
    double took = report_heat_took(&v->words, vessel), allowed = fv_or(v->plant->vessels[vessel]->within, NAN);
    return (pair){took, allowed, page_view_arrival(v, vessel), page_view_duration(allowed)};
}

/* Which of the two cards is which. */
typedef struct {
    const char *title, *hint, *but;
    pair (*of)(const page_view *v, size_t vessel);
} question;
static const question questions[] = {
    {"Heat got and needed", "Mark: its need.", "needs", heat_of},
    {"Time taken and allowed", "Mark: the time allowed.", "allowed", time_of},
};

/* The worst first where not all have room. */
static size_t row_count(const page_view *v)
{
    return v->plant->vessel_count < MOST_ROWS ? v->plant->vessel_count : MOST_ROWS;
}

static double largest(const page_view *v, const question *q)
{
    double most = 0.0;
    for (size_t i = 0; i < v->plant->vessel_count; i++) {
        pair p = q->of(v, i);
        most = fmax(most, fmax(p.is, p.should));
    }
    return most > 0.0 ? most : 1.0;
}

static double rows(const page_view *v, page_markup *m, double width, double y, const question *q)
{
    double most = largest(v, q), top = y;
    for (size_t i = 0; i < row_count(v); i++) {
        size_t vessel = page_view_ranked(v, i);
        pair p = q->of(v, vessel);
        print_shown should;
        bool shut = page_view_verdict(v, vessel) == FV_SHUT_OFF;
        snprintf(should.text, sizeof should.text, "%s %.60s", q->but, p.shown_should.text);
        const page_svg_run runs[] = {
            {page_view_vessel(v, vessel), "id", 11.0, true, false},
            {shut ? "shut" : p.shown_is.text, NULL, 11.0, false, false},
            {isnan(p.should) ? NULL : should.text, "soft", 11.0, false, false},
        };
        const page_bar bar = {.runs = runs,
                              .run_count = 3,
                              .to = isnan(p.is) ? 1.0 : p.is / most,
                              .mark = p.should / most,
                              .css_class = isnan(p.is) ? "bar never" : "bar useful",
                              .sign = (int)page_view_mark(page_view_verdict(v, vessel))};
        y += page_bar_draw(m, y, width, &bar);
    }
    return y - top;
}

static void title(const page_view *v, size_t which, fv_text *out)
{
    (void)v;
    fv_text_add(out, "%s", questions[which].title);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    for (size_t i = 0; i < row_count(v); i++) {
        size_t vessel = page_view_ranked(v, i);
        pair p = questions[which].of(v, vessel);
        fv_text_add(out, "%s: %s, %s %s. ", page_view_vessel(v, vessel), p.shown_is.text, questions[which].but,
                    p.shown_should.text);
    }
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    const question *q = &questions[which];
    double y = page_card_title(v, m, set, -1, q->title);
    page_svg_text(m, 2, y + 10.0, "soft", "%s%s", q->hint,
                  row_count(v) < v->plant->vessel_count ? " The worst twelve." : "");
    rows(v, m, set->width, y + HINT + 4.0, q);
}

void page_svg_needs(const page_view *v, page_markup *m)
{
    size_t count = v->heat ? 2 : 1;
    double height = 0.0;
    for (size_t i = 0; i < count; i++)
        height = fmax(height, rows(v, NULL, SVG_CARD, 0.0, &questions[i]));
    const page_card set = {.width = SVG_CARD,
                           .height = 22.0 + HINT + height + FOOT,
                           .count = count,
                           .draw = draw,
                           .title = title,
                           .about = about};
    page_cards_draw(v, m, &set, 1, "Got and needed, taken and allowed");
}
