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
    fv_text piece;      /* of it: what has one style and is not yet written, and */
    const char *style;
} column;

static double measure(const page_svg_run *run, const char *text, size_t length)
{
    return page_svg_width(text, length, run->size, run->bold);
}

static void write_piece(column *c)
{
    if (c->piece.failed)
        page_markup_fail(c->m);
    else if (c->piece.length > 0 && c->style)
        page_markup_leaf(c->m, "tspan", page_markup_words(c->m, &c->piece), "class", c->style, NULL);
    else if (c->piece.length > 0)
        page_markup_text(c->m, page_markup_words(c->m, &c->piece));
    fv_text_free(&c->piece);
}

static void end_line(column *c, double height)
{
    if (c->open && c->m) {
        write_piece(c);
        page_markup_close(c->m);
    }
    c->open = false;
    c->at = 0.0;
    c->y += height;
}

static void put(column *c, const page_svg_run *run, const char *text, size_t length)
{
    if (c->m && !c->open) {
        page_markup_open(c->m, "text", NULL);
        page_markup_attr_number(c->m, "x", c->x);
        page_markup_attr_number(c->m, "y", c->y);
    }
    if (c->m && c->style != run->css_class)
        write_piece(c);
    if (c->m)
        fv_text_add(&c->piece, "%.*s", (int)length, text);
    c->style = run->css_class;
    c->open = true;
    c->at += measure(run, text, length);
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
