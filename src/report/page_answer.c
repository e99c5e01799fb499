/* SPDX-License-Identifier: MIT */
/* The answer: which vessel is starved, by how much, and the change that helps most. */
#include "report/flow_tables.h"
#include "report/page_parts.h"

#include <math.h>

static const fv_vessel_history *history(const view *v, size_t vessel)
{
    return &v->heat->vessels[vessel];
}

static size_t count(const view *v, fv_verdict verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < v->heat->vessel_count; i++)
        n += view_verdict(v, i) == verdict;
    return n;
}

/* ", which never arrives ..." in the words that the reason asks for. */
static void add_fate(const view *v, size_t vessel, fv_text *out)
{
    const fv_vessel_history *h = history(v, vessel);
    report_shown target = view_shown(v, FV_SHOW_TEMPERATURE, fv_or(v->plant->vessels[vessel]->target, NAN));
    if (!isnan(h->core)) {
        fv_text_add(out, "its core reaches %s after %s, where %s are allowed", target.text,
                    report_shown_time(view_took(h)).text, report_shown_time(v->plant->vessels[vessel]->within.v).text);
        return;
    }
    fv_text_add(out, "its core does not reach %s: ", target.text);
    switch (h->arrival) {
    case FV_NOT_BOILING_POINT:
        fv_text_add(out, "water boils at %s here", view_shown(v, FV_SHOW_TEMPERATURE, v->heat->boiling_point).text);
        break;
    case FV_NOT_STEAM:
        fv_text_add(out, "no steam gets to it");
        break;
    case FV_NOT_DRY:
        fv_text_add(out, "a boiler runs out of water first");
        break;
    case FV_NOT_SUPPLY:
    case FV_NOT_AIR:
        fv_text_add(out, "%s, and the chamber settles at %s",
                    h->arrival == FV_NOT_AIR ? "it draws in air" : "losses eat the steam",
                    view_shown(v, FV_SHOW_TEMPERATURE, h->settles).text);
        break;
    default:
        fv_text_add(out, "it is at %s when the calculation ends, after %s",
                    view_shown(v, FV_SHOW_TEMPERATURE, h->core_end).text, report_shown_time(v->heat->end).text);
    }
}

static void add_best(const view *v, fv_text *out)
{
    if (v->best == v->worst || isnan(history(v, v->best)->core))
        return;
    fv_text_add(out, "; %s takes %s", view_vessel(v, v->best), report_shown_time(view_took(history(v, v->best))).text);
}

static void say_fed(const view *v, size_t open, fv_text *out)
{
    const fv_vessel_history *last = history(v, v->worst);
    if (open == 1)
        fv_text_add(out, "%s is fed: its core reaches %s after %s", view_vessel(v, v->worst),
                    view_shown(v, FV_SHOW_TEMPERATURE, fv_or(v->plant->vessels[v->worst]->target, NAN)).text,
                    report_shown_time(view_took(last)).text);
    else
        fv_text_add(out, "All %zu vessels are fed: the core of the last, %s, reaches %s after %s", open,
                    view_vessel(v, v->worst),
                    view_shown(v, FV_SHOW_TEMPERATURE, fv_or(v->plant->vessels[v->worst]->target, NAN)).text,
                    report_shown_time(view_took(last)).text);
    add_best(v, out);
}

static void say_lagging(const view *v, size_t lagging, size_t open, fv_text *out)
{
    const char *worst = view_vessel(v, v->worst);
    if (open == 1)
        fv_text_add(out, "%s lags: it", worst);
    else if (lagging == open)
        fv_text_add(out, "No vessel is starved, but all %zu lag: %s", open, worst);
    else
        fv_text_add(out, "No vessel is starved, but %zu of %zu lag%s: %s", lagging, open, lagging == 1 ? "s" : "",
                    worst);
    fv_text_add(out, " takes %s", report_shown_time(view_took(history(v, v->worst))).text);
}

static void heat_sentence(const view *v, fv_text *out)
{
    size_t starved = count(v, FV_STARVED), lagging = count(v, FV_LAGGING);
    size_t open = v->heat->vessel_count - count(v, FV_SHUT_OFF);
    const char *worst = view_vessel(v, v->worst);
    if (open == 0) {
        fv_text_add(out, "No vessel is open to the steam.");
        return;
    }
    if (starved == 0 && lagging == 0) {
        say_fed(v, open, out);
        fv_text_add(out, ".");
        return;
    }
    if (starved == 0) {
        say_lagging(v, lagging, open, out);
        if (!isnan(history(v, v->worst)->core_ample))
            fv_text_add(out, ", where ample steam would take %s",
                        report_shown_time(history(v, v->worst)->core_ample).text);
        add_best(v, out);
        fv_text_add(out, ".");
        return;
    }
    if (starved == 1)
        fv_text_add(out, "%s is starved: ", worst);
    else if (starved == open)
        fv_text_add(out, "All %zu vessels are starved. The worst, %s: ", open, worst);
    else
        fv_text_add(out, "%zu of %zu vessels are starved. The worst, %s: ", starved, open, worst);
    add_fate(v, v->worst, out);
    add_best(v, out);
    fv_text_add(out, ".");
}

/* How the steam is shared at the start, without a verdict: that of the run stands above. */
static void start_sentence(const view *v, fv_text *out)
{
    const fv_steady_result *state = v->flow->state;
    int most = -1, least = -1;
    for (int i = 0; i < (int)state->vessel_count; i++) {
        if (state->vessels[i].verdict == FV_SHUT_OFF)
            continue;
        most = most < 0 || state->vessels[i].heat > state->vessels[most].heat ? i : most;
        least = least < 0 || state->vessels[i].heat < state->vessels[least].heat ? i : least;
    }
    if (most < 0 || most == least)
        return;
    fv_text_add(out, "When all take steam at once, %s gets the most heat, %s, and ", view_vessel(v, (size_t)most),
                view_shown(v, FV_SHOW_POWER, state->vessels[most].heat).text);
    fv_text_add(out, "%s the least, %s", view_vessel(v, (size_t)least),
                view_shown(v, FV_SHOW_POWER, state->vessels[least].heat).text);
    if (state->vessels[least].need > 0.0)
        fv_text_add(out, "; to be in time it needs %s on average",
                    view_shown(v, FV_SHOW_POWER, state->vessels[least].need).text);
    fv_text_add(out, ".");
}

void page_answer(doc *d)
{
    const view *v = d->v;
    fv_text first = {0}, second = {0};
    if (v->heat) {
        heat_sentence(v, &first);
        start_sentence(v, &second);
    } else {
        report_flow_sentence(v->flow, v->units, &first);
    }
    doc_paragraph(d, "lead", "%s", first.text ? first.text : "");
    if (second.text)
        doc_paragraph(d, "more", "%s", second.text);
    if (v->content->because)
        doc_paragraph(d, "more", "%s", v->content->because);
    fv_text_free(&first);
    fv_text_free(&second);
}

static void tile(doc *d, size_t vessel)
{
    fv_verdict verdict = view_verdict(d->v, vessel);
    const fv_vessel_result *r = &d->v->flow->state->vessels[vessel];
    markup_open(d->m, "li", "data-vessel", view_vessel(d->v, vessel), NULL);
    doc_sign(d->m, verdict);
    markup_leaf(d->m, "b", view_vessel(d->v, vessel), NULL);
    markup_say(d->m, " %s", fv_verdict_word(verdict));
    if (d->v->heat && verdict != FV_SHUT_OFF)
        markup_leaf(d->m, "span", view_arrival(history(d->v, vessel)).text, NULL);
    else if (verdict != FV_SHUT_OFF)
        markup_leaf(d->m, "span", view_shown(d->v, FV_SHOW_POWER, r->heat).text, NULL);
    markup_close(d->m);
    markup_newline(d->m);
}

/* Tiles of all vessels with this verdict, `room` at most; returns how many. */
static size_t tiles_of(doc *d, fv_verdict verdict, size_t room)
{
    size_t shown = 0;
    for (size_t i = 0; i < d->v->plant->vessel_count && shown < room; i++)
        if (view_verdict(d->v, i) == verdict) {
            tile(d, i);
            shown++;
        }
    return shown;
}

static void verdict_counts(doc *d)
{
    static const fv_verdict order[] = {FV_STARVED, FV_LAGGING, FV_FED, FV_SHUT_OFF};
    markup_open(d->m, "p", "class", "counts", NULL);
    for (size_t k = 0; k < sizeof order / sizeof *order; k++) {
        size_t n = 0;
        for (size_t i = 0; i < d->v->plant->vessel_count; i++)
            n += view_verdict(d->v, i) == order[k];
        if (n == 0)
            continue;
        markup_open(d->m, "span", "class", "verdict", NULL);
        doc_sign(d->m, order[k]);
        markup_say(d->m, " %zu %s", n, fv_verdict_word(order[k]));
        markup_close(d->m);
        markup_text(d->m, " ");
    }
    markup_close(d->m);
    markup_newline(d->m);
}

/* Of many vessels the starved ones, and as many others as fit a screen. */
void page_verdicts(doc *d)
{
    enum { MOST_TILES = 12 };
    size_t all = d->v->plant->vessel_count, shown = 0;
    if (!d->m)
        return; /* the table of vessels follows at once */
    if (d->v->many)
        verdict_counts(d);
    markup_open(d->m, "ul", "class", "tiles", NULL);
    markup_newline(d->m);
    if (d->v->many) {
        shown = tiles_of(d, FV_STARVED, MOST_TILES);
        shown += tiles_of(d, FV_LAGGING, MOST_TILES - shown);
        shown += tiles_of(d, FV_FED, MOST_TILES - shown);
    } else {
        for (; shown < all; shown++)
            tile(d, shown);
    }
    if (shown < all) {
        markup_open(d->m, "li", NULL);
        markup_say(d->m, "and %zu more, in the drawing and the tables", all - shown);
        markup_close(d->m);
        markup_newline(d->m);
    }
    markup_close(d->m);
    markup_newline(d->m);
    doc_paragraph(d, "hint",
                  d->v->heat ? "The time is how long the coldest point takes to its target, from the moment "
                               "the vessel's steam is opened and a boiler gives some."
                             : "The figure is the heat that each vessel gets.");
}

static void first_remedy(doc *d, const fv_page_remedy *remedy)
{
    if (d->m)
        markup_open(d->m, "div", "class", "remedy", NULL);
    doc_subheading(d, "The one change that helps most");
    doc_paragraph(d, "what", "%s", remedy->what);
    if (remedy->effect)
        doc_paragraph(d, NULL, "%s", remedy->effect);
    if (remedy->cost)
        doc_paragraph(d, NULL, "Cost: %s", remedy->cost);
    if (remedy->settings)
        doc_paragraph(d, "hint", "To try it: %s", remedy->settings);
    if (d->m)
        markup_close(d->m);
}

void page_remedies(doc *d)
{
    static const doc_column columns[] = {{"change", "", DOC_PROSE}, {"effect", "", DOC_PROSE}, {"cost", "", DOC_WORD}};
    const fv_page_content *content = d->v->content;
    if (content->remedy_count == 0)
        return;
    first_remedy(d, &content->remedies[0]);
    if (content->remedy_count < 2)
        return;
    doc_table(d, "What else would help, the best first", columns, 3);
    for (size_t i = 0; i < content->remedy_count; i++) {
        const fv_page_remedy *remedy = &content->remedies[i];
        doc_cell(d, "%s", remedy->what);
        doc_cell(d, "%s", remedy->effect ? remedy->effect : "-");
        doc_cell(d, "%s", remedy->cost ? remedy->cost : "-");
    }
    doc_table_end(d);
}
