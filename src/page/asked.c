/* SPDX-License-Identifier: MIT */
/* Questions about the plant as it stands in a session, and what their answers propose, each to be tried. */
#include "page/parts.h"

#include <stdio.h>
#include <string.h>

static void button(page_doc *d, const char *command, const char *name, const char *value, const char *words,
                   const char *label)
{
    page_markup_open(d->m, "form", "class", "command", "method", "post", "action", "do", NULL);
    page_markup_void(d->m, "input", "type", "hidden", "name", "do", "value", command, NULL);
    page_markup_void(d->m, "input", "type", "hidden", "name", name, "value", value, NULL);
    page_markup_leaf(d->m, "button", words, "type", "submit", "aria-label", label, NULL);
    page_markup_close(d->m);
}

static void proposal(page_doc *d, const fv_page_remedy *row, size_t i)
{
    char number[24], label[200];
    snprintf(number, sizeof number, "%zu", i);
    snprintf(label, sizeof label, "Try this: %s", fv_shorten(row->what, 120).text);
    page_markup_open(d->m, "li", NULL);
    page_markup_leaf(d->m, "b", row->what, NULL);
    page_markup_say(d->m, ": %s%s%s", row->effect, row->cost ? "; " : "", row->cost ? row->cost : "");
    if (row->settings) {
        page_markup_text(d->m, " ");
        page_doc_code(d->m, row->settings);
        page_markup_text(d->m, " ");
        button(d, "try", "proposal", number, "Try this", label);
    }
    page_markup_close_line(d->m);
}

void page_session_asked(page_doc *d)
{
    static const char *const questions[][3] = {
        {"why", "Why", "Why does the last vessel take so long, and what would help?"},
        {"plan", "Plan", "What do hands best do, and when?"},
        {"size", "Size", "Which holes, hose and header?"},
        {"carry", "Carry", "How many vessels does the boiler carry?"},
        {"odds", "Odds", "How sure is this, and what should be measured first?"},
        {"week", "Week", "What can be treated in a week?"},
    };
    const size_t all = sizeof questions / sizeof *questions;
    const size_t count = d->v->plant->work.crew_count > 0 ? all : all - 1; /* a week is planned for people */
    const fv_page_asked *asked = d->v->content->session->asked;
    page_doc_section(d, "ask", "Ask on");
    page_markup_open(d->m, "div", "class", "asks", NULL);
    for (size_t i = 0; i < count; i++)
        button(d, "ask", "what", questions[i][0], questions[i][1], questions[i][2]);
    page_markup_close(d->m);
    page_doc_paragraph(d, "hint",
                       "Why takes seconds; the others follow some hundred runs, which takes a minute or, with many "
                       "vessels, more.");
    for (size_t i = 0; asked && i < all; i++)
        if (strcmp(questions[i][0], asked->what) == 0)
            page_doc_subheading(d, questions[i][2]);
    if (asked) {
        if (asked->stale)
            page_doc_paragraph(d, "hint", "Of the plant as it was when that was asked; it has been changed since.");
        page_doc_paragraph(d, "what", "%s", asked->sentence);
        page_markup_open(d->m, "ul", "class", "commands", NULL);
        for (size_t i = 0; i < asked->proposal_count; i++)
            proposal(d, &asked->proposals[i], i);
        page_markup_close(d->m);
    }
    page_doc_end(d);
}
