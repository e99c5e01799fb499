/* SPDX-License-Identifier: MIT */
/* The answer: which vessel is starved, by how much, and the change that helps most. */
#include "report/flow/report.h"
#include "report/remedy.h"
#include "report/unreachable.h"
#include "page/parts.h"

/* How the steam is shared at the start, without a verdict: that of the run stands above. */
static void start_sentence(const page_view *v, fv_text *out)
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
    fv_text_add(out, "When all take steam at once, %s gets the most heat, %s, and ", page_view_vessel(v, (size_t)most),
                page_view_shown(v, FV_SHOW_POWER, state->vessels[most].heat).text);
    fv_text_add(out, "%s the least, %s", page_view_vessel(v, (size_t)least),
                page_view_shown(v, FV_SHOW_POWER, state->vessels[least].heat).text);
    if (state->vessels[least].need > 0.0)
        fv_text_add(out, "; to be in time it needs %s on average",
                    page_view_shown(v, FV_SHOW_POWER, state->vessels[least].need).text);
    fv_text_add(out, ".");
}

void page_answer(page_doc *d)
{
    const page_view *v = d->v;
    fv_text first = {0}, second = {0};
    const report_unreachable found = report_unreachable_say(v->plant, v->flow->state->boiling_point, v->units, &first);
    fv_text_add(&first, "%s", found == UNREACHABLE_SOME ? " " : "");
    const report_frame frame = {.answer = v->heat ? (const void *)&v->words : v->flow, .units = v->units};
    if (found != UNREACHABLE_ALL)
        (v->heat ? report_heat_sentence : report_flow_sentence)(&frame, &first);
    if (found != UNREACHABLE_ALL && v->heat)
        start_sentence(v, &second);
    page_doc_paragraph(d, "lead", "%s", page_doc_words(d, &first));
    if (page_doc_words(d, &second)[0])
        page_doc_paragraph(d, "more", "%s", second.text);
    if (v->because)
        page_doc_paragraph(d, "more", "%s", v->because);
    fv_text_free(&first);
    fv_text_free(&second);
}

static void tile(page_doc *d, size_t vessel)
{
    fv_verdict verdict = page_view_verdict(d->v, vessel);
    const fv_vessel_result *r = &d->v->flow->state->vessels[vessel];
    page_markup_open(d->m, "li", "data-vessel", page_view_vessel(d->v, vessel), NULL);
    page_doc_sign(d->m, verdict);
    page_markup_leaf(d->m, "b", page_view_vessel(d->v, vessel), NULL);
    page_markup_say(d->m, " %s", page_view_outcome(d->v, vessel));
    if (d->v->heat && verdict != FV_SHUT_OFF)
        page_markup_leaf(d->m, "span", page_view_arrival(d->v, vessel).text, NULL);
    else if (verdict != FV_SHUT_OFF)
        page_markup_leaf(d->m, "span", page_view_shown(d->v, FV_SHOW_POWER, r->heat).text, NULL);
    page_markup_close_line(d->m);
}

/* Tiles of all vessels with this verdict, `room` at most; returns how many. */
static size_t tiles_of(page_doc *d, fv_verdict verdict, size_t room)
{
    size_t shown = 0;
    for (size_t i = 0; i < d->v->plant->vessel_count && shown < room; i++)
        if (page_view_verdict(d->v, i) == verdict) {
            tile(d, i);
            shown++;
        }
    return shown;
}

static void verdict_counts(page_doc *d)
{
    static const fv_verdict order[] = {FV_STARVED, FV_LAGGING, FV_FED, FV_SHUT_OFF};
    page_markup_open(d->m, "p", "class", "counts", NULL);
    for (size_t k = 0; k < sizeof order / sizeof *order; k++) {
        size_t n = 0;
        for (size_t i = 0; i < d->v->plant->vessel_count; i++)
            n += page_view_verdict(d->v, i) == order[k];
        if (n == 0)
            continue;
        page_markup_open(d->m, "span", "class", "verdict", NULL);
        page_doc_sign(d->m, order[k]);
        page_markup_say(d->m, " %zu %s", n, fv_verdict_word(order[k]));
        page_markup_close(d->m);
        page_markup_text(d->m, " ");
    }
    page_markup_close_line(d->m);
}

void page_reasons(page_doc *d)
{
    print_notes notes = {0};
    size_t left;
    if (!d->v->heat)
        return;
    left = report_heat_reason_notes(&d->v->words, &notes);
    if (notes.count > 0) {
        page_doc_subheading(d, "Why");
        page_doc_notes(d, &notes);
    }
    if (left > 0)
        page_doc_paragraph(d, "hint", "%zu more: `farvessel heat` with --format csv --table vessels.", left);
    print_notes_free(&notes);
}

/* Of many vessels the starved ones, and as many others as fit a screen. */
void page_verdicts(page_doc *d)
{
    enum { MOST_TILES = 12 };
    size_t all = d->v->plant->vessel_count, shown = 0;
    if (!d->m)
        return; /* the table of vessels follows at once */
    if (d->v->many)
        verdict_counts(d);
    page_markup_open(d->m, "ul", "class", "tiles", NULL);
    page_markup_newline(d->m);
    if (d->v->many) {
        shown = tiles_of(d, FV_STARVED, MOST_TILES);
        shown += tiles_of(d, FV_LAGGING, MOST_TILES - shown);
        shown += tiles_of(d, FV_FED, MOST_TILES - shown);
    } else {
        for (; shown < all; shown++)
            tile(d, shown);
    }
    if (shown < all) {
        page_markup_open(d->m, "li", NULL);
        page_markup_say(d->m, "and %zu more, in the drawing and the tables", all - shown);
        page_markup_close_line(d->m);
    }
    page_markup_close_line(d->m);
    page_doc_paragraph(d, "hint",
                       d->v->heat ? "The time is how long the coldest point takes to its target, from the moment "
                                    "the vessel's steam is opened and a boiler gives some."
                                  : "The figure is the heat that each vessel gets.");
}

static bool somebody_waits(const page_view *v)
{
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        if (page_view_verdict(v, i) == FV_STARVED || page_view_verdict(v, i) == FV_LAGGING)
            return true;
    return false;
}

const char *page_next_step_words(const page_view *v)
{
    bool in_time = v->heat != NULL, held = true;
    for (size_t i = 0; i < v->plant->vessel_count && in_time; i++) {
        in_time = v->words.outcomes[i] != OUTCOME_LATE && v->words.outcomes[i] != OUTCOME_NEVER;
        held = held && v->words.outcomes[i] != OUTCOME_UNHELD;
    }
    return !in_time ? "What to do next" : held ? "In time as it is; to be earlier" : "To be earlier";
}

void page_next_step(page_doc *d)
{
    const fv_page_remedy *remedy = d->v->remedies;
    if (d->v->remedy_count == 0 && d->v->heat && !d->v->content->why && !d->v->content->plan && somebody_waits(d->v)) {
        fv_text command = {0};
        report_command(d->v->plant, "why", NULL, " ", &command);
        page_doc_paragraph(d, "hint", "What would help: `%s`", page_doc_words(d, &command));
        fv_text_free(&command);
    }
    if (d->v->remedy_count == 0)
        return;
    if (d->m)
        page_markup_open(d->m, "div", "class", "remedy", NULL);
    page_doc_subheading(d, page_next_step_words(d->v));
    page_doc_paragraph(d, "what", "%s", remedy->what);
    if (remedy->effect)
        page_doc_paragraph(d, NULL, "Effect: %s", remedy->effect);
    if (remedy->cost)
        page_doc_paragraph(d, NULL, "Cost: %s", remedy->cost);
    if (remedy->settings)
        page_doc_paragraph(d, "hint", "To try it: `%s`", remedy->settings);
    if (d->m)
        page_markup_close(d->m);
}

void page_remedies(page_doc *d)
{
    static const page_doc_column columns[] = {
        {"change", "", DOC_PROSE}, {"effect", "", DOC_PROSE}, {"cost", "", DOC_WORD}};
    const page_view *v = d->v;
    if (v->remedy_count == 0)
        return;
    page_doc_table(d, "Remedies, one change at a time", columns, 3);
    for (size_t i = 0; i < v->remedy_count; i++) {
        const fv_page_remedy *remedy = &v->remedies[i];
        page_doc_cell(d, "%s", remedy->what);
        page_doc_cell(d, "%s", remedy->effect ? remedy->effect : "-");
        page_doc_cell(d, "%s", remedy->cost ? remedy->cost : "-");
    }
    page_doc_table_end(d);
}
