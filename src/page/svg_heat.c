/* SPDX-License-Identifier: MIT */
/* Where the heat went: a bar for each place, the largest first behind what went into the load. */
#include "page/cards.h"
#include "page/pictures.h"
#include "page/svg_bars.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *name;
    double heat; /* J, or W for one moment */
    bool useful;
} share;
enum { SHARES_MOST = HEAT_SHARES, TOP = 52 };
/* Less than this of the whole is left out. */
#define WORTH_SHOWING 0.001

typedef struct {
    share shares[SHARES_MOST];
    size_t count;
    double whole; /* all that is positive */
} shares;

static void put(shares *s, const char *name, double heat, bool useful)
{
    if (s->count < SHARES_MOST && !isnan(heat))
        s->shares[s->count++] = (share){name, heat, useful};
}

static int larger_first(const void *a, const void *b)
{
    const share *x = a, *y = b;
    if (x->useful != y->useful)
        return x->useful ? -1 : 1;
    return x->heat < y->heat ? 1 : x->heat > y->heat ? -1 : strcmp(x->name, y->name);
}

static void over_the_run(const report_heat *heat, shares *s)
{
    for (size_t i = 0; i < HEAT_SHARES; i++)
        put(s, heat->shares[i].what, heat->shares[i].heat, strcmp(heat->shares[i].item, "load") == 0);
}

static void at_the_moment(const fv_steady_result *state, shares *s)
{
    double vessels = 0.0, lines = 0.0, boilers = 0.0;
    for (size_t i = 0; i < state->vessel_count; i++)
        vessels += state->vessels[i].heat;
    for (size_t i = 0; i < state->line_count; i++)
        lines += state->lines[i].heat_loss;
    for (size_t i = 0; i < state->boiler_count; i++)
        boilers += state->boilers[i].fuel - state->boilers[i].heat;
    put(s, "to the vessels", vessels, true);
    put(s, "lost from the lines", lines, false);
    put(s, "flue and boiler losses", boilers, false);
}

static shares collect(const page_view *v)
{
    shares s = {.count = 0};
    if (v->heat)
        over_the_run(&v->words, &s);
    else
        at_the_moment(v->flow->state, &s);
    qsort(s.shares, s.count, sizeof *s.shares, larger_first);
    for (size_t i = 0; i < s.count; i++)
        s.whole += fmax(s.shares[i].heat, 0.0);
    size_t kept = 0;
    for (size_t i = 0; i < s.count; i++)
        if (fabs(s.shares[i].heat) > WORTH_SHOWING * s.whole)
            s.shares[kept++] = s.shares[i];
    s.count = kept;
    return s;
}

static print_shown amount(const page_view *v, double heat)
{
    return page_view_shown(v, v->heat ? FV_SHOW_ENERGY : FV_SHOW_POWER, heat);
}

static void about(const page_view *v, size_t which, fv_text *out)
{
    shares s = collect(v);
    (void)which;
    for (size_t i = 0; i < s.count; i++)
        fv_text_add(out, "%s%s: %s, %s", i ? "; " : "", s.shares[i].name, amount(v, s.shares[i].heat).text,
                    page_view_shown(v, FV_SHOW_SHARE, s.shares[i].heat / s.whole).text);
    fv_text_add(out, ".");
}

/* Bars below each other from `y` on, name and amount over each; only measured where `m` is NULL. */
static double bars(const page_view *v, page_markup *m, double width, double y)
{
    shares s = collect(v);
    double most = 0.0, top = y;
    for (size_t i = 0; i < s.count; i++)
        most = fmax(most, s.shares[i].heat);
    for (size_t i = 0; i < s.count; i++) {
        print_shown much = amount(v, s.shares[i].heat),
                    part = page_view_shown(v, FV_SHOW_SHARE, s.shares[i].heat / s.whole);
        const page_svg_run runs[] = {{s.shares[i].name, NULL, 11.0, false, false},
                                     {much.text, "much", 11.0, true, false},
                                     {part.text, "soft", 11.0, false, false}};
        const page_bar bar = {.runs = runs,
                              .run_count = sizeof runs / sizeof *runs,
                              .to = fmax(s.shares[i].heat, 0.0) / most,
                              .mark = NAN,
                              .css_class = s.shares[i].useful ? "bar useful" : "bar",
                              .sign = -1};
        y += page_bar_draw(m, y, width, &bar);
    }
    return y - top;
}

static void draw(const page_view *v, page_markup *m, const page_card *set, size_t which)
{
    const page_svg_run hint = {v->heat ? "until the last vessel's steam was shut; fuel in is the whole"
                                       : "in the state drawn above",
                               "soft", 11.0, false, false};
    (void)which;
    page_card_title(v, m, set, -1, v->heat ? "Where the heat went" : "Where the heat goes");
    page_svg_words(m, 2.0, 20.0, set->width - 4.0, &hint, 1);
    bars(v, m, set->width, TOP);
}

void page_svg_heat(const page_view *v, page_markup *m)
{
    const page_card set = {.width = SVG_CARD,
                           .height = TOP + bars(v, NULL, SVG_CARD, 0.0),
                           .count = 1,
                           .draw = draw,
                           .name = v->heat ? "Where the heat went, until the last vessel's steam was shut"
                                           : "Where the heat goes",
                           .about = about};
    page_cards_draw(v, m, &set, 1, v->heat ? "Where the heat went" : "Where the heat goes");
}
