/* SPDX-License-Identifier: MIT */
/* What a document begins with: title, style, and the facts that hold for all of it. */
#include "page/embedded.h"
#include "page/parts.h"

const char *page_title(const page_view *v)
{
    const char *title = v->plant ? v->plant->title : NULL;
    return title && title[0] ? title : "A steam plant";
}

/* Air, boiling point and the fire: what holds for the whole page. */
void page_facts(const page_view *v, fv_text *out)
{
    const fv_steady_result *state = v->flow->state;
    fv_text_add(out, "%s%sWater boils at %s here; ", v->options->date ? v->options->date : "",
                v->options->date ? ". " : "", page_view_shown(v, FV_SHOW_TEMPERATURE, state->boiling_point).text);
    fv_text_add(out, "air %s, ", page_view_shown(v, FV_SHOW_TEMPERATURE, state->t_air).text);
    fv_text_add(out, "wind %s. ", page_view_shown(v, FV_SHOW_WIND, state->wind).text);
    fv_text_add(out,
                "Fire %s of the boilers' own settings. Pressures are above the air's. A calculation, not an approval.",
                page_view_shown(v, FV_SHOW_SHARE, v->flow->options.fire).text);
}

/* Title on each printed page. What is ASCII and no letter or digit is written as its number, so that a title stays text
 * in the style, too. */
static void running_title(const page_view *v, fv_text *css)
{
    fv_text clean = {0};
    page_markup_clean(page_title(v), &clean);
    css->failed = css->failed || clean.failed;
    fv_text_add(css, "@media print{@page{%s@top-left{content:\"",
                !v->options->printed ? ""
                : v->units == FV_US  ? "size:letter;"
                                     : "size:A4;");
    for (const char *at = clean.text ? clean.text : ""; *at; at++) {
        unsigned char c = (unsigned char)*at;
        bool plain =
            c >= 0x80 || c == ' ' || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
        fv_text_add(css, plain ? "%c" : "\\%06x ", c);
    }
    fv_text_add(css, "\"}}}\n");
    fv_text_free(&clean);
}

static void head(const page_view *v, page_markup *m)
{
    fv_text css = {0};
    page_css(&css);
    if (v->content->session)
        fv_text_add(&css, "%s", page_session_rules);
    running_title(v, &css);
    page_markup_open(m, "head", NULL);
    page_markup_newline(m);
    page_markup_void(m, "meta", "charset", "utf-8", NULL);
    page_markup_void(m, "meta", "name", "viewport", "content", "width=device-width, initial-scale=1", NULL);
    /* Whoever serves a session says its rules, which are stricter. */
    const fv_page_session *session = v->content->session;
    if (!session || session->engine)
        page_markup_void(
            m, "meta", "http-equiv", "Content-Security-Policy", "content",
            session ? "default-src 'none'; style-src 'unsafe-inline'; img-src data:; worker-src blob:; "
                      "script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:"
                    : "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:",
            NULL);
    page_markup_void(m, "link", "rel", "icon", "href", "data:,", NULL);
    page_markup_open(m, "title", NULL);
    page_markup_say(m, "%s: steam report", page_title(v));
    page_markup_close_line(m);
    page_markup_open(m, "style", NULL);
    page_markup_raw(m, page_markup_words(m, &css));
    page_markup_close(m);
    page_markup_close_line(m);
    fv_text_free(&css);
}

void page_begin(const page_view *v, page_markup *m)
{
    page_markup_doctype(m);
    page_markup_open(m, "html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en", NULL);
    if (v->content->session) {
        page_markup_attr(m, "data-version", "%lu", v->content->session->version);
        page_markup_attr(m, "data-unsaved", "%s", v->content->session->unsaved ? "yes" : "no");
    }
    head(v, m);
    page_markup_open(m, "body", NULL);
    page_markup_newline(m);
}

void page_end(page_markup *m)
{
    page_markup_close(m);
    page_markup_close_line(m);
}
