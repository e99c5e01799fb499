/* SPDX-License-Identifier: MIT */
/* The page before there is a plant: a question beside a picture of what is asked for. */
#include "page/parts.h"
#include "page/svg.h"

#include <stdio.h>

enum { WORDS_MOST = 4 };

/* Strokes on a field of 200 x 80, by the order in which the questions are asked: things, what is measured on them,
 * words around their middle. */
static const struct {
    const char *things, *measures;
    struct {
        int x, y;
        const char *word;
    } words[WORDS_MOST];
} pictures[] = {
    {"M10 20H190V60H10Z",
     "M25 20v10M40 20v6M55 20v10M70 20v6M85 20v10M100 20v6M115 20v10M130 20v6M145 20v10M160 20v6M175 20v10"
     "M42 60v-10M67 60v-6M92 60v-10M117 60v-6M142 60v-10",
     {{178, 54, "in"}, {22, 54, "cm"}}},
    {"M55 16H145V72H55ZM92 16V4H108V16M75 32H125V58H75Z", "M79 36h1M120 36h1M79 54h1M120 54h1", {{100, 50, "24 kW"}}},
    {"M4 32H34V76H4ZM34 40H196M34 54H120M134 54H196M120 54V78M134 54V78",
     "M34 26V34M127 26V34M34 28H127M38 25l-4 3 4 3M123 25l4 3-4 3M166 40V54M163 44l3-4 3 4M163 50l3 4 3-4",
     {{80, 22, "length"}, {166, 34, "bore"}, {70, 68, "boiler"}, {168, 74, "branch"}}},
    {"M4 10H196M34 10V44M100 10V44M166 10V44M14 44H54V76H14ZM80 44H120V76H80ZM146 44H186V76H146Z",
     "M34 32H100M38 29l-4 3 4 3M96 29l4 3-4 3",
     {{67, 26, "distance"}, {34, 64, "1"}, {100, 64, "2"}, {166, 64, "3"}}},
    {"M4 10H196M60 10C60 50 130 30 130 58M72 10C72 42 142 24 142 58M104 76V58H168V76",
     "M18 58a14 14 0 1 0 28 0a14 14 0 1 0-28 0M23 58a9 9 0 1 0 18 0a9 9 0 1 0-18 0M23 58H41",
     {{32, 40, "bore"}, {124, 26, "length"}, {136, 74, "vessel"}}},
    {"M8 4V76H192V4M24 58H176V70H24Z",
     "M36 58v-8M55 58v-8M74 58v-8M93 58v-8M112 58v-8M131 58v-8M150 58v-8M169 58v-8M24 22V54M176 22V54M24 24H176"
     "M28 21l-4 3 4 3M172 21l4 3-4 3",
     {{100, 18, "length"}, {100, 42, "holes"}}},
    {"M4 6V58H60V6M72 6V58H128V6M140 6V58H196V6",
     "M10 44H22V56H10ZM27 44H39V56H27ZM44 44H56V56H44ZM18 26H30V38H18ZM36 26H48V38H36ZM76 20H124V56H76ZM92 20V56M108 "
     "20V56M76 32H124M76 44H124M144 24H192M150 56V32M147 36l3-4 3 4M168 56V32M165 36l3-4 3 4M186 56V32M183 36l3-4 3 4",
     {{32, 75, "loose"}, {100, 75, "packed"}, {168, 75, "bed"}}},
    {"M20 6H120V74H20ZM32 18H108V62H32Z",
     "M88 54H108M104 51l4 3-4 3M134 54H120M124 51l-4 3 4 3M114 22H130",
     {{66, 38, "volume"}, {168, 58, "thickness"}, {146, 26, "wall"}}},
};

static void picture(page_doc *d, size_t i)
{
    page_markup_open(d->m, "svg", "viewBox", "0 0 200 80", "aria-hidden", "true", NULL);
    page_svg_path(d->m, pictures[i].things, NULL);
    page_svg_path(d->m, pictures[i].measures, "measures");
    for (size_t k = 0; k < WORDS_MOST && pictures[i].words[k].word; k++)
        page_svg_text(d->m, pictures[i].words[k].x, pictures[i].words[k].y, NULL, "%s", pictures[i].words[k].word);
    page_markup_close(d->m);
}

static void ask(page_doc *d, const fv_page_question *q, size_t i)
{
    char id[24], about[32];
    snprintf(id, sizeof id, "q%zu", i);
    snprintf(about, sizeof about, "q%zu-about", i);
    page_markup_open(d->m, "div", "class", q->wrong ? "question changed" : "question", NULL);
    if (i < sizeof pictures / sizeof *pictures)
        picture(d, i);
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
