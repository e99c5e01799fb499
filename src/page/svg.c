/* SPDX-License-Identifier: MIT */
/* Shapes, words and signs. */
#include "page/svg.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void page_svg_begin(page_markup *m, double width, double height, const char *css_class, const char *css,
                    const char *title, const char *description)
{
    int id = page_markup_next_id(m);
    page_markup_open(m, "svg", "xmlns", "http://www.w3.org/2000/svg", "role", "img", NULL);
    page_markup_attr(m, "viewBox", "0 0 %.0f %.0f", ceil(width), ceil(height));
    page_markup_attr_number(m, "width", ceil(width));
    page_markup_attr_number(m, "height", ceil(height));
    if (css_class)
        page_markup_attr(m, "class", "%s", css_class);
    page_markup_attr(m, "aria-labelledby", "title%d", id);
    if (description)
        page_markup_attr(m, "aria-describedby", "desc%d", id);
    page_markup_open(m, "title", NULL);
    page_markup_attr(m, "id", "title%d", id);
    page_markup_text(m, title);
    page_markup_close(m);
    if (description) {
        page_markup_open(m, "desc", NULL);
        page_markup_attr(m, "id", "desc%d", id);
        page_markup_text(m, description);
        page_markup_close(m);
    }
    if (css) {
        page_markup_open(m, "style", NULL);
        page_markup_raw(m, css);
        page_markup_close(m);
        page_svg_rect(m, 0, 0, width, height, "paper");
    }
}

void page_svg_end(page_markup *m)
{
    page_markup_close_line(m);
}

void page_svg_group(page_markup *m, double x, double y, const char *css_class)
{
    page_markup_open(m, "g", "class", css_class, NULL);
    if (x != 0.0 || y != 0.0)
        page_markup_attr(m, "transform", "translate(%.1f %.1f)", x, y);
}

void page_svg_line(page_markup *m, page_svg_point from, page_svg_point to, const char *css_class)
{
    page_markup_open(m, "line", "class", css_class, NULL);
    page_markup_attr_number(m, "x1", from.x);
    page_markup_attr_number(m, "y1", from.y);
    page_markup_attr_number(m, "x2", to.x);
    page_markup_attr_number(m, "y2", to.y);
    page_markup_end(m);
}

void page_svg_rect(page_markup *m, double x, double y, double width, double height, const char *css_class)
{
    page_markup_open(m, "rect", "class", css_class, NULL);
    page_markup_attr_number(m, "x", x);
    page_markup_attr_number(m, "y", y);
    page_markup_attr_number(m, "width", fmax(width, 0.0));
    page_markup_attr_number(m, "height", fmax(height, 0.0));
    page_markup_end(m);
}

void page_svg_circle(page_markup *m, double x, double y, double radius, const char *css_class)
{
    page_markup_open(m, "circle", "class", css_class, NULL);
    page_markup_attr_number(m, "cx", x);
    if (y != 0.0)
        page_markup_attr_number(m, "cy", y);
    page_markup_attr_number(m, "r", radius);
    page_markup_end(m);
}

void page_svg_path(page_markup *m, const char *d, const char *css_class)
{
    page_markup_void(m, "path", "d", d, "class", css_class, NULL);
}

void page_svg_text(page_markup *m, double x, double y, const char *css_class, const char *fmt, ...)
{
    fv_text text = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    page_markup_open(m, "text", "class", css_class, NULL);
    page_markup_attr_number(m, "x", x);
    page_markup_attr_number(m, "y", y);
    page_markup_text(m, page_markup_words(m, &text));
    page_markup_close(m);
    fv_text_free(&text);
}

void page_svg_add_point(fv_text *text, page_svg_point point)
{
    const double values[] = {point.x, point.y};
    for (int i = 0; i < 2; i++) {
        char number[32];
        snprintf(number, sizeof number, "%.1f", values[i]);
        char *dot = strstr(number, ".0");
        fv_text_add(text, "%.*s ", dot ? (int)(dot - number) : (int)strlen(number), number);
    }
}

/* Widths in shares of the letter height as in a wide sans-serif, so that words take no more in others. */
static double letter_width(unsigned char c)
{
    if (strchr("fijlrt.,:;'|!I()[]/- ", c))
        return 0.40;
    if (strchr("mwMW%@", c))
        return 0.96;
    return c >= 'A' && c <= 'Z' ? 0.74 : 0.64;
}

double page_svg_width(const char *text, size_t length, double size, bool bold)
{
    static const double heavier = 1.12, other = 0.84; /* arrows and letters beyond ASCII */
    double sum = 0.0;
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        if (c >= 0xC0u) /* the first byte of a character */
            sum += c < 0xE3u ? other : 1.1;
        else if (c < 0x80u)
            sum += letter_width(c);
    }
    return sum * size * (bold ? heavier : 1.0);
}

page_svg_fit_text page_svg_fit(const char *text, size_t columns)
{
    page_svg_fit_text fit;
    size_t all = print_columns(text, strlen(text));
    if (all <= columns || columns < 3) {
        snprintf(fit.text, sizeof fit.text, "%.*s", (int)print_bytes(text, all < columns ? all : columns), text);
        return fit;
    }
    size_t head = columns / 2, tail = columns - head - 1;
    snprintf(fit.text, sizeof fit.text, "%.*s\xE2\x80\xA6%s", (int)print_bytes(text, head), text,
             text + print_bytes(text, all - tail));
    return fit;
}

/* Each verdict has its own outline and its own sign in it: a disc with a tick, a triangle with a bar, a diamond with a
 * cross, an open square with a stroke. */
static const struct {
    const char *css_class, *outline, *sign; /* drawn around 0 0 with radius 10 */
} marks[] = {
    [SVG_MARK_FED] = {"fed", "M-9.5 0a9.5 9.5 0 1 0 19 0a9.5 9.5 0 1 0 -19 0z", "M-4.5 .5L-1.2 4L4.8 -3.6"},
    [SVG_MARK_LAGGING] = {"lagging", "M0 -10L10.5 8.5L-10.5 8.5z", "M0 -4V2M0 5V6.2"},
    [SVG_MARK_STARVED] = {"starved", "M0 -11L11 0L0 11L-11 0z", "M-3.6 -3.6L3.6 3.6M-3.6 3.6L3.6 -3.6"},
    [SVG_MARK_SHUT] = {"shut", "M-8 -8H8V8H-8z", "M-4.5 0H4.5"},
};

void page_svg_mark(page_markup *m, page_svg_mark_kind kind, double x, double y, double radius)
{
    page_markup_open(m, "g", "class", marks[kind].css_class, NULL);
    if (x != 0.0 || y != 0.0)
        page_markup_attr(m, "transform", "translate(%.1f %.1f) scale(%.3f)", x, y, radius / 10.0);
    else if (radius != 10.0)
        page_markup_attr(m, "transform", "scale(%.3f)", radius / 10.0);
    page_svg_path(m, marks[kind].outline, "mark");
    page_svg_path(m, marks[kind].sign, "sign");
    page_markup_close(m);
}
