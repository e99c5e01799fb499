/* SPDX-License-Identifier: MIT */
/* One sheet of paper to hang at the boiler: answer, line of time, drawing, what to do and when, cautions. */
#include "page/parts.h"
#include "page/pictures.h"

enum { MOST_DRAWN = 12, MOST_STEPS = 18 };

/* What somebody does or has to know of: not that a chamber is full. */
static bool is_step(fv_heat_event_kind kind)
{
    return kind != FV_HEAT_EVENT_SWITCHED_OFF && kind != FV_HEAT_EVENT_FULL && kind != FV_HEAT_EVENT_SETTLED &&
           kind != FV_HEAT_EVENT_STEAM_ON;
}

static void steps(page_doc *d)
{
    const page_view *v = d->v;
    size_t shown = 0, left = 0;
    page_markup_leaf(d->m, "h2", "What to do and when", NULL);
    page_doc_list(d);
    for (size_t i = 0; i < v->heat->event_count; i++) {
        const fv_heat_event *h = &v->heat->events[i];
        fv_text words = {0};
        if (!is_step(h->kind) || report_event_is_said(v->heat, i))
            continue;
        if (shown == MOST_STEPS) {
            left++;
            continue;
        }
        shown++;
        report_event_text(&v->words, h, report_event_part(&v->words, h), &words);
        page_doc_item(d, page_view_time(v, h->time).text, "%s", page_doc_words(d, &words));
        fv_text_free(&words);
    }
    if (left > 0)
        page_doc_item(d, NULL, "and %zu more, in the whole report", left);
    page_doc_end(d);
}

static void pictures(page_doc *d)
{
    page_markup_open(d->m, "div", "class", "pictures", NULL);
    if (d->v->heat) {
        page_markup_open(d->m, "div", "class", "times", NULL);
        page_svg_timeline(d->v, d->m);
        steps(d);
        page_markup_close(d->m);
    }
    if (d->v->plant->vessel_count <= MOST_DRAWN) {
        page_markup_open(d->m, "div", NULL);
        page_svg_drawing(d->v, d->m);
        page_markup_close(d->m);
    }
    page_markup_close_line(d->m);
}

static void cautions(page_doc *d)
{
    page_markup_open(d->m, "div", "class", "warn", NULL);
    page_markup_leaf(d->m, "h2", "Cautions", NULL);
    page_cautions_list(d);
    page_markup_close(d->m);
}

void page_sheet(const page_view *v, page_markup *m)
{
    page_doc d = {.v = v, .m = m};
    fv_text about = {0};
    page_facts(v, &about);
    page_begin(v, m);
    page_markup_open(m, "main", "class", "sheet", NULL);
    page_markup_open(m, "div", NULL);
    page_markup_leaf(m, "h1", page_title(v), NULL);
    page_markup_leaf(m, "p", page_markup_words(m, &about), "class", "facts", NULL);
    page_answer(&d);
    if (v->remedy_count > 0)
        page_doc_paragraph(&d, "what", "%s: %s.", page_next_step_words(v), v->remedies->what);
    page_markup_close(m);
    pictures(&d);
    cautions(&d);
    page_markup_close(m);
    page_end(m);
    fv_text_free(&about);
}
