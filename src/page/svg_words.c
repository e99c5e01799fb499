/* SPDX-License-Identifier: MIT */
/* Lines are broken between runs, within a run at spaces, within a word behind '-', '_' or '.', or anywhere if need be.
 */
#include "page/svg_words.h"

#include <string.h>

typedef struct {
    page_markup *m;
    double x, y, width; /* y: of the line's letters */
    double at;          /* how far the line is filled */
    bool open;          /* a <text> has been begun */
} column;

static double measure(const page_svg_run *run, const char *text, size_t length)
{
    return page_svg_width(text, length, run->size, run->bold);
}

static void end_line(column *c, double height)
{
    if (c->open && c->m)
        page_markup_close(c->m);
    c->open = false;
    c->at = 0.0;
    c->y += height;
}

static void put(column *c, const page_svg_run *run, const char *text, size_t length)
{
    fv_text piece = {0};
    if (!c->m) {
        c->at += measure(run, text, length);
        c->open = true;
        return;
    }
    fv_text_add(&piece, "%.*s", (int)length, text);
    if (!c->open) {
        page_markup_open(c->m, "text", "class", "t", NULL);
        page_markup_attr_number(c->m, "x", c->x);
        page_markup_attr_number(c->m, "y", c->y);
    }
    c->open = true;
    if (run->css_class)
        page_markup_leaf(c->m, "tspan", page_markup_words(c->m, &piece), "class", run->css_class, NULL);
    else
        page_markup_text(c->m, page_markup_words(c->m, &piece));
    c->at += measure(run, text, length);
    fv_text_free(&piece);
}

/* How many bytes of a word fit: the whole, else up to a good place to break, else as many as there is room for. */
static size_t fitting(const page_svg_run *run, const char *word, size_t length, double room)
{
    size_t fits = 0, good = 0;
    for (size_t i = 1; i <= length; i++) {
        if (i < length && ((unsigned char)word[i] & 0xC0u) == 0x80u)
            continue; /* within a character */
        if (measure(run, word, i) > room)
            break;
        fits = i;
        if (strchr("-_.", word[i - 1]))
            good = i;
    }
    return fits == length ? length : good > 0 ? good : fits;
}

static void put_word(column *c, const page_svg_run *run, const char *word, size_t length)
{
    double space = c->at > 0.0 ? measure(run, " ", 1) : 0.0;
    if (c->at > 0.0 && c->at + space + measure(run, word, length) > c->width) {
        end_line(c, run->size + 2.0);
        space = 0.0;
    }
    if (space > 0.0)
        put(c, run, " ", 1);
    while (length > 0) {
        size_t fits = fitting(run, word, length, c->width);
        fits = fits > 0 ? fits : length; /* no room at all: better over the edge than lost */
        put(c, run, word, fits);
        word += fits;
        length -= fits;
        if (length > 0)
            end_line(c, run->size + 2.0);
    }
}

static void put_run(column *c, const page_svg_run *run)
{
    double all = measure(run, run->text, strlen(run->text));
    if (all <= c->width) { /* whole */
        put_word(c, run, run->text, strlen(run->text));
        return;
    }
    for (const char *at = run->text; *at;) {
        size_t length = strcspn(at, " ");
        if (length > 0)
            put_word(c, run, at, length);
        at += length + (at[length] == ' ');
    }
}

double page_svg_words(page_markup *m, double x, double top, double width, const page_svg_run *runs, size_t count)
{
    column c = {.m = m, .x = x, .y = top, .width = width};
    double size = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (!runs[i].text || !runs[i].text[0])
            continue;
        if (size <= 0.0)
            c.y += runs[i].size;
        else if (runs[i].begins)
            end_line(&c, runs[i].size + 2.0);
        put_run(&c, &runs[i]);
        size = runs[i].size;
    }
    end_line(&c, 0.0);
    return size > 0.0 ? c.y - top + 4.0 : 0.0; /* with what hangs below the line */
}
