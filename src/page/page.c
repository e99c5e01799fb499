/* SPDX-License-Identifier: MIT */
/* The page: one order of sections for HTML and Markdown; single drawings as SVG. */
#include "page/embedded.h"
#include "page/parts.h"
#include "page/pictures.h"

#include <math.h>
#include <string.h>

void fv_page_defaults(fv_page_options *options)
{
    *options = (fv_page_options){.format = FV_PAGE_HTML, .only = FV_PAGE_WHOLE, .units = FV_METRIC, .clock = NAN};
}

static const char *title_of(const page_view *v)
{
    return v->plant->title && v->plant->title[0] ? v->plant->title : "A steam plant";
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

static void key(page_doc *d, const char *css_class, const char *outline, const char *words)
{
    page_markup_open(d->m, "li", NULL);
    page_markup_open(d->m, "svg", "xmlns", "http://www.w3.org/2000/svg", "class", css_class, "viewBox", "-16 -12 32 26",
                     "width", "32", "height", "26", "aria-hidden", "true", NULL);
    page_markup_raw(d->m, outline);
    page_markup_close(d->m);
    page_markup_text(d->m, words);
    page_markup_close(d->m);
    page_markup_newline(d->m);
}

/* What occurs in the drawing. */
static void line_keys(page_doc *d)
{
    const fv_plant *plant = d->v->plant;
    bool still = false, sag = false, valve = false, choked = false;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line_result *r = &d->v->flow->state->lines[i];
        still = still || r->blocked || r->shut || !(fabs(r->flow_from) > 0.0 || fabs(r->flow_to) > 0.0);
        sag = sag || fv_or(plant->lines[i]->sag, 0.0) > 0.0;
        choked = choked || r->choked;
        for (size_t k = 0; k < plant->lines[i]->fitting_count; k++) {
            const fv_fitting_entry *entry = fv_fitting_entry_of(plant->lines[i]->fittings[k]);
            valve = valve || plant->lines[i]->fittings[k]->kind == FV_FITTING_VALVE || (entry && entry->valve);
        }
    }
    key(d, "plain",
        "<path class=\"wire\" stroke-width=\"8\" d=\"M-12 -4H12\"/><path class=\"wire\" stroke-width=\"2\" d=\"M-12 "
        "7H12\"/>",
        "steam: the wider, the more");
    if (still)
        key(d, "plain", "<path class=\"wire still\" d=\"M-13 0H13\"/>", "nothing passes");
    if (sag)
        key(d, "sag",
            "<path class=\"belly\" d=\"M-14 0C-8 0 -9 13 0 13S8 0 14 0\"/><path class=\"pool\" d=\"M-8.5 5C-6.5 10 "
            "-4.5 "
            "13 0 13S6.5 10 8.5 5z\"/>",
            "water in a sag");
    if (valve)
        key(d, "valve", "<path class=\"body\" d=\"M-7 -5.5L7 5.5V-5.5L-7 5.5z\"/>", "valve, filled where shut");
    if (choked)
        key(d, "pinch", "<path class=\"body\" d=\"M-6 -9H6L0 -1.5zM-6 9H6L0 1.5z\"/>", "choked");
    if (plant->drip_count > 0)
        key(d, "drip",
            "<path class=\"drop\" d=\"M0 -8C4 -1 5.5 1 5.5 3.5A5.5 5.5 0 0 1 -5.5 3.5C-5.5 1 -4 -1 0 -8z\"/>",
            "drip leg");
}

static bool occurs(const page_view *v, fv_verdict verdict)
{
    for (size_t i = 0; i < v->plant->vessel_count; i++)
        if (page_view_verdict(v, i) == verdict)
            return true;
    return false;
}

static void drawing_keys(page_doc *d)
{
    static const fv_verdict verdicts[] = {FV_FED, FV_LAGGING, FV_STARVED, FV_SHUT_OFF};
    page_markup_open(d->m, "ul", "class", "keys", NULL);
    page_markup_newline(d->m);
    for (size_t i = 0; i < sizeof verdicts / sizeof *verdicts; i++) {
        if (!occurs(d->v, verdicts[i]))
            continue;
        page_markup_open(d->m, "li", NULL);
        page_doc_sign(d->m, verdicts[i]);
        page_markup_text(d->m, fv_verdict_word(verdicts[i]));
        page_markup_close(d->m);
        page_markup_newline(d->m);
    }
    line_keys(d);
    page_markup_close(d->m);
    page_markup_newline(d->m);
}

static void section_when(page_doc *d)
{
    page_doc_section(d, "when", d->v->heat ? "When" : "Got and needed");
    page_markup_open(d->m, "div", "class", "cards", NULL);
    page_pictures_draw(d->v, d->m, PICTURE_WHEN);
    page_markup_close(d->m);
    page_doc_section_end(d);
}

static void section_drawing(page_doc *d)
{
    page_doc_section(d, "plant", "The plant");
    page_doc_paragraph(
        d, "hint",
        "Steam runs from the boilers to the vessels. At each line: its name, the steam that arrives, the "
        "pressure before and behind it. In each vessel: how far its heat covers its need.");
    drawing_keys(d);
    page_markup_open(d->m, "div", "class", "sheets", NULL);
    page_markup_newline(d->m);
    page_pictures_draw(d->v, d->m, PICTURE_PLANT);
    page_markup_open(d->m, "div", "class", "beside", NULL);
    page_pictures_draw(d->v, d->m, PICTURE_BESIDE);
    page_markup_close(d->m);
    page_markup_close(d->m);
    page_markup_newline(d->m);
    page_doc_section_end(d);
}

static void section_charts(page_doc *d)
{
    page_doc_section(d, "charts", "Charts");
    if (d->v->heat) {
        page_doc_subheading(d, "Temperatures over the run");
        page_pictures_draw(d->v, d->m, PICTURE_TEMPERATURES);
    }
    page_doc_subheading(d, "Steam and heat");
    page_markup_open(d->m, "div", "class", "cards", NULL);
    page_markup_newline(d->m);
    page_pictures_draw(d->v, d->m, PICTURE_CHARTS);
    page_markup_close(d->m);
    page_markup_newline(d->m);
    page_doc_section_end(d);
}

static void section_tables(page_doc *d)
{
    page_doc_section(d, "tables", "Tables");
    page_remedies(d);
    page_vessels(d);
    page_coils(d);
    page_lines(d);
    page_boilers(d);
    page_turndown(d);
    page_doc_section_end(d);
    if (d->v->heat && d->v->heat->happening_count > 0) {
        page_doc_section(d, "timeline", "Step by step");
        page_timeline(d);
        page_doc_section_end(d);
    }
}

static void sections(page_doc *d)
{
    page_doc_section(d, "answer", "The answer");
    page_answer(d);
    page_verdicts(d);
    page_next_step(d);
    page_reasons(d);
    page_doc_section_end(d);
    if (d->m) {
        section_when(d);
        section_drawing(d);
        section_charts(d);
    }
    section_tables(d);
    page_notes(d);
    page_cautions(d);
    page_entered(d);
    page_sources(d);
    page_limits(d);
    page_imprint(d);
}

/* Air, boiling point and the fire: what holds for the whole page. */
static void facts(const page_view *v, fv_text *out)
{
    const fv_steady_result *state = v->flow->state;
    fv_text_add(out, "%s%sWater boils at %s here; ", v->options->date ? v->options->date : "",
                v->options->date ? ". " : "", page_view_shown(v, FV_SHOW_TEMPERATURE, state->boiling_point).text);
    fv_text_add(out, "air %s, ", page_view_shown(v, FV_SHOW_TEMPERATURE, state->t_air).text);
    fv_text_add(out, "wind %s. ", page_view_shown(v, FV_SHOW_VELOCITY, state->wind).text);
    fv_text_add(out,
                "Fire %s of the boilers' own settings. Pressures are above the air's. A calculation, not an approval.",
                page_view_shown(v, FV_SHOW_SHARE, v->flow->options.fire).text);
}

/* ---- HTML ---- */

/* Title on each printed page. What is ASCII and no letter or digit is written as its number, so that a title stays text
 * in the style, too. */
static void running_title(const char *title, fv_text *css)
{
    fv_text clean = {0};
    page_markup_clean(title, &clean);
    css->failed = css->failed || clean.failed;
    fv_text_add(css, "@media print{@page{@top-left{content:\"");
    for (const char *at = clean.text ? clean.text : ""; *at; at++) {
        unsigned char c = (unsigned char)*at;
        bool plain =
            c >= 0x80 || c == ' ' || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
        fv_text_add(css, plain ? "%c" : "\\%06x", c);
    }
    fv_text_add(css, "\"}}}\n");
    fv_text_free(&clean);
}

static void head(const page_view *v, page_markup *m)
{
    fv_text css = {0};
    page_css(&css);
    running_title(title_of(v), &css);
    page_markup_open(m, "head", NULL);
    page_markup_newline(m);
    page_markup_void(m, "meta", "charset", "utf-8", NULL);
    page_markup_void(m, "meta", "name", "viewport", "content", "width=device-width, initial-scale=1", NULL);
    page_markup_void(m, "meta", "http-equiv", "Content-Security-Policy", "content",
                     "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:", NULL);
    page_markup_void(m, "link", "rel", "icon", "href", "data:,", NULL);
    page_markup_open(m, "title", NULL);
    page_markup_say(m, "%s: steam report", title_of(v));
    page_markup_close(m);
    page_markup_newline(m);
    page_markup_open(m, "style", NULL);
    page_markup_raw(m, page_markup_words(m, &css));
    page_markup_close(m);
    page_markup_close(m);
    page_markup_newline(m);
    fv_text_free(&css);
}

static void links(const page_view *v, page_markup *m)
{
    /* On a phone only the first few have room; they stay in sight. */
    enum { FEW = 6 };
    static const char *const all[][2] = {
        {"answer", "Answer"},      {"when", "When"},           {"plant", "Plant"},    {"charts", "Charts"},
        {"tables", "Tables"},      {"cautions", "Cautions"},   {"timeline", "Steps"}, {"notes", "Second look"},
        {"entered", "As entered"}, {"assumptions", "Assumed"}, {"limits", "Limits"},  {"imprint", "Source"},
    };
    page_markup_open(m, "nav", "aria-label", "Sections", NULL);
    page_markup_open(m, "ul", NULL);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        if (strcmp(all[i][0], "timeline") == 0 && (!v->heat || v->heat->happening_count == 0))
            continue;
        page_markup_open(m, "li", "class", i < FEW ? NULL : "rest", NULL);
        page_markup_open(m, "a", NULL);
        page_markup_attr(m, "href", "#%s", all[i][0]);
        page_markup_text(m, all[i][1]);
        page_markup_close(m);
        page_markup_close(m);
    }
    page_markup_close(m);
    page_markup_close(m);
    page_markup_newline(m);
}

static void html(const page_view *v, page_markup *m)
{
    page_doc d = {.v = v, .m = m};
    fv_text about = {0};
    facts(v, &about);
    page_markup_doctype(m);
    page_markup_open(m, "html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en", NULL);
    head(v, m);
    page_markup_open(m, "body", NULL);
    page_markup_newline(m);
    page_markup_leaf(m, "a", "To the answer", "class", "skip", "href", "#answer", NULL);
    page_markup_open(m, "header", NULL);
    page_markup_leaf(m, "p", "farvessel", "class", "brand", NULL);
    page_markup_leaf(m, "h1", title_of(v), NULL);
    page_markup_leaf(m, "p", page_markup_words(m, &about), "class", "facts", NULL);
    page_markup_close(m);
    page_markup_newline(m);
    links(v, m);
    page_markup_open(m, "main", NULL);
    page_markup_newline(m);
    sections(&d);
    page_markup_close(m);
    page_markup_open(m, "script", NULL);
    page_markup_raw(m, "\n");
    page_markup_raw(m, page_script);
    page_markup_close(m);
    page_markup_close(m);
    page_markup_close(m);
    page_markup_newline(m);
    fv_text_free(&about);
}

static fv_status whole(const page_view *v, fv_text *out)
{
    page_markup *m = page_markup_new();
    fv_status status = FV_FAIL;
    if (m) {
        html(v, m);
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
    facts(v, &about);
    fv_text_add(out, "# ");
    page_doc_escape_markdown(title_of(v), out);
    fv_text_add(out, "\n\n");
    page_doc_escape_markdown(page_doc_words(&d, &about), out);
    fv_text_add(out, "\n");
    sections(&d);
    fv_text_free(&about);
    return out->failed ? FV_FAIL : FV_OK;
}

fv_status fv_report_page(const fv_page_content *content, const fv_page_options *options, fv_text *out)
{
    page_view v;
    fv_status status = FV_FAIL;
    if (!page_view_make(content, options, &v))
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
