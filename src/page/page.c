/* SPDX-License-Identifier: MIT */
/* The page: one order of sections for HTML and Markdown; single drawings as SVG. */
#include "page/embedded.h"
#include "page/parts.h"
#include "page/pictures.h"

#include <math.h>
#include <string.h>

void fv_page_defaults(fv_page_options *options)
{
    if (!options)
        return;
    *options = (fv_page_options){.format = FV_PAGE_HTML, .only = FV_PAGE_WHOLE, .units = FV_METRIC, .clock = NAN};
}

static fv_status single(page_view *v, fv_text *out)
{
    fv_status status = FV_FAIL;
    fv_text css = {0};
    page_markup *m = NULL;
    page_drawing_css(&css);
    if (css.text && !css.failed)
        m = page_markup_new();
    if (m) {
        v->css = css.text;
        page_pictures_draw_only(v, m);
        status = page_markup_finish(m, out);
    } else {
        out->failed = true;
    }
    page_markup_free(m);
    fv_text_free(&css);
    return status;
}

/* ---- sections ---- */

static void cards(page_doc *d, page_picture_place place)
{
    page_markup_open(d->m, "div", "class", "cards", NULL);
    page_markup_newline(d->m);
    page_pictures_draw(d->v, d->m, place);
    page_markup_close_line(d->m);
}

static void section_when(page_doc *d)
{
    page_doc_section(d, "when", d->v->heat ? "When" : "Got and needed");
    cards(d, PICTURE_WHEN);
    page_doc_end(d);
}

static void section_drawing(page_doc *d)
{
    page_doc_section(d, "plant", "The plant");
    page_doc_paragraph(
        d, "hint",
        "Steam runs from the boilers to the vessels. At each line: its name, the steam that arrives, the "
        "pressure before and after it. In each vessel: how far its heat covers its need.");
    page_drawing_keys(d);
    page_markup_open(d->m, "div", "class", "sheets", NULL);
    page_markup_newline(d->m);
    page_pictures_draw(d->v, d->m, PICTURE_PLANT);
    page_markup_open(d->m, "div", "class", "beside", NULL);
    page_pictures_draw(d->v, d->m, PICTURE_BESIDE);
    page_markup_close(d->m);
    page_markup_close_line(d->m);
    page_doc_fold_narrow(d, "Show vessels, coils and holes");
    cards(d, PICTURE_BELOW);
    page_doc_end(d);
    page_doc_end(d);
}

static void section_charts(page_doc *d)
{
    page_doc_section(d, "charts", "Charts");
    if (d->v->heat) {
        page_doc_subheading(d, "Temperatures over the run");
        page_pictures_draw(d->v, d->m, PICTURE_TEMPERATURES);
    }
    page_doc_fold_narrow(d, "Show steam, boilers and heat");
    page_doc_subheading(d, "Steam and heat");
    cards(d, PICTURE_CHARTS);
    page_doc_end(d);
    page_doc_end(d);
}

static void section_tables(page_doc *d)
{
    page_doc_section(d, "tables", "Tables");
    page_vessels_over_run(d);
    if (d->v->remedy_count > 0) {
        page_doc_fold_narrow(d, "Show the changes that were tried");
        page_remedies(d);
        page_doc_end(d);
    }
    page_doc_fold_narrow(d, "Show vessels, lines and boilers at one moment");
    page_vessels(d);
    page_coils(d);
    page_lines(d);
    page_boilers(d);
    page_turndown(d);
    page_doc_end(d);
    page_doc_end(d);
    if (d->v->heat && d->v->heat->event_count > 0) {
        page_doc_section(d, "timeline", "Step by step");
        page_doc_fold_narrow(d, "Show every step");
        page_timeline(d);
        page_doc_end(d);
        page_doc_end(d);
    }
}

static void sections(page_doc *d)
{
    page_doc_section(d, "answer", "The answer");
    page_answer(d);
    page_difference(d);
    page_verdicts(d);
    page_next_step(d);
    page_reasons(d);
    page_doc_end(d);
    if (d->m && d->v->content->session) {
        page_session_changes(d);
        page_session_asked(d);
        page_session_fields(d);
    }
    page_plan(d);
    page_week(d);
    page_sure(d);
    page_fit(d);
    if (d->m) {
        section_when(d);
        section_drawing(d);
        section_charts(d);
    }
    section_tables(d);
    page_cost(d);
    page_notes(d);
    page_cautions(d);
    page_entered(d);
    page_sources(d);
    page_limits(d);
    page_imprint(d);
}

/* ---- HTML ---- */

/* Whether the page has it at all. */
static bool has_section(const page_view *v, const char *id)
{
    if (strcmp(id, "write") == 0 || strcmp(id, "ask") == 0)
        return v->content->session != NULL;
    if (strcmp(id, "todo") == 0)
        return v->content->plan != NULL;
    if (strcmp(id, "cost") == 0)
        return v->content->cost != NULL;
    if (strcmp(id, "week") == 0)
        return v->content->week != NULL;
    if (strcmp(id, "sure") == 0)
        return v->content->odds != NULL;
    if (strcmp(id, "log") == 0)
        return v->content->fit != NULL;
    return strcmp(id, "timeline") != 0 || (v->heat && v->heat->event_count > 0);
}

static void links(const page_view *v, page_markup *m)
{
    /* On a phone only the first few have room; they stay in sight. */
    enum { FEW = 6 };
    static const char *const all[][2] = {
        {"answer", "Answer"},       {"ask", "Ask on"},    {"write", "Write over"},  {"todo", "To do"},
        {"sure", "How sure"},       {"log", "Log"},       {"week", "Week"},         {"when", "When"},
        {"plant", "Plant"},         {"charts", "Charts"}, {"tables", "Tables"},     {"cautions", "Cautions"},
        {"timeline", "Steps"},      {"cost", "Money"},    {"notes", "Second look"}, {"entered", "As entered"},
        {"assumptions", "Assumed"}, {"limits", "Limits"}, {"imprint", "Source"},
    };
    size_t shown = 0;
    page_markup_open(m, "nav", "aria-label", "Sections", NULL);
    page_markup_open(m, "ul", NULL);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        if (!has_section(v, all[i][0]))
            continue;
        page_markup_open(m, "li", "class", shown++ < FEW ? NULL : "rest", NULL);
        page_markup_open(m, "a", NULL);
        page_markup_attr(m, "href", "#%s", all[i][0]);
        page_markup_text(m, all[i][1]);
        page_markup_close(m);
        page_markup_close(m);
    }
    page_markup_close(m);
    page_markup_close_line(m);
}

static void raw_script(page_markup *m, const char *type, const char *id, const char *first, const char *then)
{
    page_markup_open(m, "script", "type", type, "id", id, NULL);
    page_markup_raw(m, "\n");
    page_markup_raw(m, first);
    page_markup_raw(m, then);
    page_markup_close(m);
}

static void script(const page_view *v, page_markup *m)
{
    const fv_page_session *s = v->content->session;
    if (s && !s->engine) {
        page_markup_open(m, "script", "src", "try.js", NULL);
        page_markup_close(m);
        return;
    }
    if (s) { /* the first two are data until the third makes something of them */
        raw_script(m, "text/plain", "engine", s->engine, "");
        raw_script(m, "application/json", "begins", s->begins, "");
    }
    raw_script(m, NULL, NULL, page_script, s ? page_session_script : "");
}

void fv_page_session_script(fv_text *out)
{
    fv_text_add(out, "%s%s", page_script, page_session_script);
}

static void html(const page_view *v, page_markup *m)
{
    page_doc d = {.v = v, .m = m};
    fv_text about = {0};
    const bool asks = !v->flow;
    if (asks)
        fv_text_add(&about, "A calculation, not an approval.");
    else
        page_facts(v, &about);
    page_begin(v, m);
    page_markup_leaf(m, "a", "To the answer", "class", "skip", "href", asks ? "#new" : "#answer", NULL);
    page_markup_open(m, "header", NULL);
    page_markup_leaf(m, "p", "farvessel", "class", "brand", NULL);
    page_markup_leaf(m, "h1", page_title(v), NULL);
    page_markup_leaf(m, "p", page_markup_words(m, &about), "class", "facts", NULL);
    page_markup_close_line(m);
    if (!asks)
        links(v, m);
    page_markup_open(m, "main", NULL);
    page_markup_newline(m);
    (asks ? page_questions : sections)(&d);
    if (!asks && v->content->session)
        page_session_bar(&d);
    page_markup_close(m);
    script(v, m);
    page_end(m);
    fv_text_free(&about);
}

static fv_status whole(const page_view *v, fv_text *out)
{
    page_markup *m = page_markup_new();
    fv_status status = FV_FAIL;
    if (m) {
        (v->options->sheet ? page_sheet : html)(v, m);
        status = page_markup_finish(m, out);
    } else {
        out->failed = true;
    }
    page_markup_free(m);
    return status;
}

static fv_status markdown(const page_view *v, fv_text *out)
{
    page_doc d = {.v = v, .text = out};
    fv_text about = {0};
    page_facts(v, &about);
    fv_text_add(out, "# ");
    page_doc_escape_markdown(page_title(v), out);
    fv_text_add(out, "\n\n");
    page_doc_escape_markdown(page_doc_words(&d, &about), out);
    fv_text_add(out, "\n");
    sections(&d);
    fv_text_free(&about);
    return out->failed ? FV_FAIL : FV_OK;
}

fv_status fv_report_page(const fv_page_content *content, const fv_page_options *options, fv_text *out)
{
    if (!content || !options || !out)
        return FV_FAIL;
    page_view v = {.content = content, .options = options};
    fv_status status = FV_FAIL;
    if (content->session && content->session->questions)
        status = whole(&v, out);
    else if (!page_view_make(content, options, &v))
        out->failed = true;
    else if (options->only != FV_PAGE_WHOLE)
        status = single(&v, out);
    else if (options->format == FV_PAGE_MARKDOWN)
        status = markdown(&v, out);
    else
        status = whole(&v, out);
    page_view_free(&v);
    return status;
}
