/* SPDX-License-Identifier: MIT */
/* The page before there is a plant: a question beside a picture of what is asked for. */
#include "page/parts.h"

#include <stdio.h>

/* Strokes on a field of 160 x 60, by the order in which the questions are asked. */
static const char *const pictures[] = {
    "M10 20H150V42H10ZM30 20v10M50 20v14M70 20v10M90 20v14M110 20v10M130 20v14",
    "M50 8H110V52H50ZM60 24H100V40H60ZM66 32H94M80 8V2M74 52v6M86 52v6",
    "M8 30h22V54H8ZM30 26H150M30 34H150M60 34V54M66 34V54M100 26V34M96 22l4-6 4 6M30 16H60M34 12l-4 4 4 4M56 12l4 4-4 "
    "4",
    "M8 12H152M24 12V28M80 12V28M136 12V28M10 28H38V54H10ZM66 28H94V54H66ZM122 28H150V54H122ZM26 20H78M30 17l-4 3 4 "
    "3M74 17l4 3-4 3",
    "M20 6H140M40 6v8q0 20 30 20t30 10v10M46 6v8q0 14 26 14t34 12v14M84 54H122",
    "M10 10V56H150V10M24 48H136V40H24ZM36 40v-6M52 40v-6M68 40v-6M84 40v-6M100 40v-6M116 40v-6",
    "M10 56H70V10M10 10V56M16 38h14v14H16ZM36 38h14v14H36ZM24 20h14v14H24ZM90 56H150V10M90 10V56M96 36h16v16H96ZM112 "
    "36h16v16H112ZM128 "
    "36h16v16H128ZM96 20h16v16H96ZM112 20h16v16H112ZM128 20h16v16H128Z",
    "M20 8H60V52H20ZM60 8H80V52H60ZM26 14l28 30M26 28l20 22M40 10l18 20M64 8v44M70 8v44M76 8v44M90 30H140M94 26l-4 4 4 "
    "4",
};

static void ask(page_doc *d, const fv_page_question *q, size_t i)
{
    char id[24], about[32];
    snprintf(id, sizeof id, "q%zu", i);
    snprintf(about, sizeof about, "q%zu-about", i);
    page_markup_open(d->m, "div", "class", q->wrong ? "question changed" : "question", NULL);
    if (i < sizeof pictures / sizeof *pictures) {
        page_markup_open(d->m, "svg", "viewBox", "0 0 160 60", "aria-hidden", "true", NULL);
        page_markup_void(d->m, "path", "d", pictures[i], NULL);
        page_markup_close(d->m);
    }
    page_markup_leaf(d->m, "label", q->question, "for", id, NULL);
    page_markup_open(d->m, "input", "id", id, "name", q->name, "value", q->typed, "placeholder", "I don\u2019t know",
                     "autocomplete", "off", "spellcheck", "false", "aria-describedby", about, NULL);
    if (q->wrong)
        page_markup_attr(d->m, "aria-invalid", "true");
    page_markup_end(d->m);
    page_markup_open(d->m, "p", "class", "hint", "id", about, NULL);
    page_markup_say(d->m, "%s, such as: %s", q->parts, q->example);
    page_markup_close(d->m);
    if (q->wrong)
        page_markup_leaf(d->m, "p", q->wrong, "class", "wrong", NULL);
    page_markup_close_line(d->m);
}

void page_questions(page_doc *d)
{
    const fv_page_session *s = d->v->content->session;
    page_doc_section(d, "new", "A first plant");
    page_doc_paragraph(
        d, "hint",
        "Eight questions. Leave empty what you do not know: a usual value is taken and marked as a guess. "
        "Everything can be changed afterwards.");
    if (s->wrong)
        page_markup_leaf(d->m, "p", s->wrong, "class", "wrong", "role", "alert", NULL);
    page_markup_open(d->m, "form", "class", "questions", "method", "post", "action", "do", NULL);
    page_markup_void(d->m, "input", "type", "hidden", "name", "do", "value", "new", NULL);
    for (size_t i = 0; i < s->question_count; i++)
        ask(d, &s->questions[i], i);
    page_markup_leaf(d->m, "button", "Show me the answer", "type", "submit", NULL);
    page_markup_close(d->m);
    page_doc_end(d);
    page_markup_open(d->m, "section", "id", "bar", "aria-label", "State", NULL);
    page_markup_leaf(d->m, "p", "", NULL);
    page_markup_close(d->m);
}
