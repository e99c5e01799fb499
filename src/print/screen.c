/* SPDX-License-Identifier: MIT */
/* Headings and wrapped paragraphs. */
#include "print/screen.h"
#include "print/safe.h"

#include "farvessel/print.h"

#include <ctype.h>
#include <string.h>

static bool continues_character(char byte)
{
    return ((unsigned char)byte & 0xC0u) == 0x80u;
}

size_t print_columns(const char *text, size_t bytes)
{
    size_t columns = 0;
    for (size_t i = 0; i < bytes; i++)
        columns += !continues_character(text[i]);
    return columns;
}

size_t print_bytes(const char *text, size_t columns)
{
    size_t bytes = 0;
    while (text[bytes] && columns > 0) {
        do
            bytes++;
        while (continues_character(text[bytes]));
        columns--;
    }
    return bytes;
}

void print_section(fv_text *out, const char *title)
{
    fv_text_add(out, "\n");
    print_safe(title, out);
    fv_text_add(out, "\n");
}

/* A word that a shell takes as one although there are blanks in its quotes; 0: it is none. */
static size_t quoted_bytes(const char *text)
{
    bool inside = false;
    size_t i = 0;
    if (text[0] != '\'')
        return 0;
    for (; text[i] && (inside || (text[i] != ' ' && text[i] != '\n')); i++) {
        if (text[i] == '\'')
            inside = !inside;
        else if (text[i] == '\\' && !inside && text[i + 1])
            i++;
    }
    return inside ? 0 : i;
}

/* A word and what must not be parted from it: a number keeps its unit. */
static size_t word_bytes(const char *text)
{
    const size_t quoted = quoted_bytes(text);
    if (quoted > 0)
        return quoted;
    size_t bytes = strcspn(text, " \n");
    while (bytes > 0 && isdigit((unsigned char)text[bytes - 1]) && text[bytes] == ' ' &&
           (isalpha((unsigned char)text[bytes + 1]) || text[bytes + 1] == '%'))
        bytes += 1 + strcspn(text + bytes + 1, " \n");
    return bytes;
}

static void wrap(fv_text *out, const char *lead, const char *text)
{
    size_t indent = print_columns(lead, strlen(lead)), column = indent;
    bool fresh = true; /* no word on this line yet */
    fv_text_add(out, "%s", lead);
    while (*(text += strspn(text, " \n"))) {
        size_t bytes = word_bytes(text), columns = print_columns(text, bytes);
        if (!fresh && column + 1 + columns > FV_REPORT_WIDTH) {
            fv_text_add(out, "\n%*s", (int)indent, "");
            column = indent;
            fresh = true;
        }
        if (indent + columns > FV_REPORT_WIDTH) { /* a path, say: cut hard, the rest is the next word */
            columns = FV_REPORT_WIDTH - indent;
            bytes = print_bytes(text, columns);
        }
        fv_text_add(out, "%s%.*s", fresh ? "" : " ", (int)bytes, text);
        column += columns + (fresh ? 0 : 1);
        fresh = false;
        text += bytes;
    }
    fv_text_add(out, "\n");
}

void print_paragraph(fv_text *out, const char *lead, const char *text)
{
    fv_text safe = {0};
    print_safe(text, &safe);
    out->failed = out->failed || safe.failed;
    wrap(out, lead, safe.text ? safe.text : "");
    fv_text_free(&safe);
}

void print_say(fv_text *out, const char *lead, fv_text *line)
{
    out->failed = out->failed || line->failed;
    if (!line->failed)
        print_paragraph(out, lead, line->text ? line->text : "");
    fv_text_free(line);
}

void print_sayf(fv_text *out, const char *lead, const char *fmt, ...)
{
    fv_text line = {0};
    va_list args;
    va_start(args, fmt);
    fv_text_addv(&line, fmt, args);
    va_end(args);
    print_say(out, lead, &line);
}
