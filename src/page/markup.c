/* SPDX-License-Identifier: MIT */
/* Escaping, cleaning and nesting on xmlTextWriter. */
#include "page/markup.h"

#include <libxml/parser.h>
#include <libxml/xmlwriter.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct page_markup {
    xmlBufferPtr buffer;
    xmlTextWriterPtr writer;
    int ids;
    bool failed;
};

page_markup *page_markup_new(void)
{
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    pthread_once(&once, xmlInitParser); /* the writer is part of the same library */
    page_markup *m = calloc(1, sizeof *m);
    if (!m)
        return NULL;
    m->buffer = xmlBufferCreate();
    m->writer = m->buffer ? xmlNewTextWriterMemory(m->buffer, 0) : NULL;
    if (!m->writer) {
        page_markup_free(m);
        return NULL;
    }
    return m;
}

void page_markup_free(page_markup *m)
{
    if (!m)
        return;
    if (m->writer)
        xmlFreeTextWriter(m->writer);
    if (m->buffer)
        xmlBufferFree(m->buffer);
    free(m);
}

static void note(page_markup *m, int result)
{
    m->failed = m->failed || result < 0;
}

fv_status page_markup_finish(page_markup *m, fv_text *out)
{
    note(m, xmlTextWriterEndDocument(m->writer));
    if (m->failed)
        out->failed = true;
    else
        fv_text_add(out, "%s", (const char *)xmlBufferContent(m->buffer));
    return out->failed ? FV_FAIL : FV_OK;
}

/* ---- characters ---- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Bytes of the UTF-8 character at `text`, 0 if it is not one that XML 1.0 and HTML both take as text. */
static size_t character(const unsigned char *text)
{
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t length = text[0] < 0x80 ? 1 : text[0] >= 0xF0 ? 4 : text[0] >= 0xE0 ? 3 : text[0] >= 0xC2 ? 2 : 0;
    if (length == 0 || text[0] > 0xF4)
        return 0;
    unsigned code = length == 1 ? text[0] : text[0] & (0xFFu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if ((text[i] & 0xC0u) != 0x80u)
            return 0;
        code = code << 6 | (text[i] & 0x3Fu);
    }
    bool control = (code < 0x20 && code != '\t' && code != '\n') || (code >= 0x7F && code < 0xA0);
    bool no_character = (code & 0xFFFEu) == 0xFFFEu || (code >= 0xD800 && code < 0xE000) ||
                        (code >= 0xFDD0 && code <= 0xFDEF) || code > 0x10FFFF;
    return control || no_character || code < least[length] ? 0 : length;
}

/* Signs that turn the reading direction, and would carry a name's order over into our own words. */
static bool turns_direction(const unsigned char *text)
{
    return text[0] == 0xE2 &&
           ((text[1] == 0x80 && ((text[2] >= 0xAA && text[2] <= 0xAE) || text[2] == 0x8E || text[2] == 0x8F)) ||
            (text[1] == 0x81 && text[2] >= 0xA6 && text[2] <= 0xA9));
}

static bool is_degree(const char *start, const char *at)
{
    return at - start >= 2 && at[-1] == ' ' && is_digit(at[-2]) && strncmp(at, "deg", 3) == 0 &&
           (at[3] == 'C' || at[3] == 'F');
}

void page_markup_clean(const char *text, fv_text *out)
{
    const char *at = text;
    while (*at) {
        const char *from = at;
        size_t length = 0;
        while (*at && !is_degree(text, at) && (length = character((const unsigned char *)at)) > 0 &&
               !turns_direction((const unsigned char *)at))
            at += length;
        fv_text_add(out, "%.*s", (int)(at - from), from);
        if (!*at)
            return;
        bool degree = is_degree(text, at);
        fv_text_add(out, degree ? "\xC2\xB0" : "\xEF\xBF\xBD");
        at += degree ? 3 : length > 0 ? length : 1;
    }
}

/* ---- elements ---- */

static void attribute(page_markup *m, const char *name, const char *value)
{
    fv_text clean = {0};
    page_markup_clean(value, &clean);
    m->failed = m->failed || clean.failed;
    if (!m->failed)
        note(m, xmlTextWriterWriteAttribute(m->writer, BAD_CAST name, BAD_CAST(clean.text ? clean.text : "")));
    fv_text_free(&clean);
}

static void attributes(page_markup *m, va_list pairs)
{
    for (const char *name = va_arg(pairs, const char *); name; name = va_arg(pairs, const char *)) {
        const char *value = va_arg(pairs, const char *);
        if (!value)
            return;
        attribute(m, name, value);
    }
}

static void start(page_markup *m, const char *element, va_list pairs)
{
    if (!m->failed)
        note(m, xmlTextWriterStartElement(m->writer, BAD_CAST element));
    attributes(m, pairs);
}

void page_markup_open(page_markup *m, const char *element, ...)
{
    va_list pairs;
    va_start(pairs, element);
    start(m, element, pairs);
    va_end(pairs);
}

void page_markup_close(page_markup *m)
{
    if (!m->failed)
        note(m, xmlTextWriterFullEndElement(m->writer));
}

void page_markup_end(page_markup *m)
{
    if (!m->failed)
        note(m, xmlTextWriterEndElement(m->writer));
}

void page_markup_void(page_markup *m, const char *element, ...)
{
    va_list pairs;
    va_start(pairs, element);
    start(m, element, pairs);
    va_end(pairs);
    page_markup_end(m);
}

void page_markup_leaf(page_markup *m, const char *element, const char *text, ...)
{
    va_list pairs;
    va_start(pairs, text);
    start(m, element, pairs);
    va_end(pairs);
    page_markup_text(m, text);
    page_markup_close(m);
}

void page_markup_attr(page_markup *m, const char *name, const char *fmt, ...)
{
    fv_text value = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&value, fmt, args);
    va_end(args);
    m->failed = m->failed || value.failed;
    if (!m->failed)
        attribute(m, name, value.text ? value.text : "");
    fv_text_free(&value);
}

void page_markup_attr_number(page_markup *m, const char *name, double value)
{
    char text[32];
    snprintf(text, sizeof text, "%.2f", fabs(value) < 0.005 ? 0.0 : value);
    size_t length = strlen(text);
    while (text[length - 1] == '0')
        length--;
    text[text[length - 1] == '.' ? length - 1 : length] = '\0';
    attribute(m, name, text);
}

/* A blank between a number and its unit, or between hours and minutes: the line must not break there. */
static bool is_before_unit(const char *text, const char *at)
{
    static const char *const units[] = {
        "%",
        "h",
        "min",
        "s",
        "d",
        "am",
        "pm",
        "mm",
        "m",
        "in",
        "ft",
        "kg",
        "lb",
        "kW",
        "kWh",
        "W",
        "mbar",
        "bar",
        "psi",
        "Pa",
        "K",
        "L",
        "gal",
        "m/s",
        "ft/s",
        "kg/h",
        "lb/h",
        "kBtu",
        "kBtu/h",
        "\xC2\xB0"
        "C",
        "\xC2\xB0"
        "F",
    };
    size_t length = strcspn(at + 1, " ,.;:)(");
    if (at - text >= 3 && strncmp(at - 2, " h", 2) == 0 && is_digit(at[-3]) && is_digit(at[1]))
        return true;
    if (at == text || !is_digit(at[-1]))
        return false;
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (strlen(units[i]) == length && strncmp(units[i], at + 1, length) == 0)
            return true;
    return false;
}

static void bind_units(const char *text, fv_text *out)
{
    for (const char *at = text, *next; *at; at = next) {
        next = at;
        while (*next && !(*next == ' ' && is_before_unit(text, next)))
            next++;
        fv_text_add(out, "%.*s%s", (int)(next - at), at, *next ? "\xC2\xA0" : "");
        next += *next != '\0';
    }
}

void page_markup_text(page_markup *m, const char *text)
{
    fv_text clean = {0}, bound = {0};
    page_markup_clean(text, &clean);
    if (clean.text)
        bind_units(clean.text, &bound);
    m->failed = m->failed || clean.failed || bound.failed;
    if (!m->failed && bound.text)
        note(m, xmlTextWriterWriteString(m->writer, BAD_CAST bound.text));
    fv_text_free(&clean);
    fv_text_free(&bound);
}

void page_markup_say(page_markup *m, const char *fmt, ...)
{
    fv_text text = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&text, fmt, args);
    va_end(args);
    m->failed = m->failed || text.failed;
    if (!m->failed && text.text)
        page_markup_text(m, text.text);
    fv_text_free(&text);
}

void page_markup_raw(page_markup *m, const char *text)
{
    if (!m->failed)
        note(m, xmlTextWriterWriteRaw(m->writer, BAD_CAST text));
}

void page_markup_newline(page_markup *m)
{
    page_markup_raw(m, "\n");
}

void page_markup_close_line(page_markup *m)
{
    page_markup_close(m);
    page_markup_newline(m);
}

void page_markup_doctype(page_markup *m)
{
    if (!m->failed)
        note(m, xmlTextWriterWriteDTD(m->writer, BAD_CAST "html", NULL, NULL, NULL));
    page_markup_newline(m);
}

void page_markup_fail(page_markup *m)
{
    m->failed = true;
}

const char *page_markup_words(page_markup *m, const fv_text *text)
{
    m->failed = m->failed || text->failed;
    return text->text && !text->failed ? text->text : "";
}

int page_markup_number_from(page_markup *m, int last)
{
    const int before = m->ids;
    m->ids = last;
    return before;
}

int page_markup_next_id(page_markup *m)
{
    return ++m->ids;
}
