/* SPDX-License-Identifier: MIT */
#include "cli/sheet.h"

#include "farvessel/print.h"
#include "print/screen.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { MAN_WIDTH = 64, LINE_SIZE = 1024 };

/* ---- roff ---- */

/* One character of a text; backquotes turn bold on and off. */
static void add_character(fv_text *out, char c, bool *bold)
{
    switch (c) {
    case '\\':
        fv_text_add(out, "\\e");
        break;
    case '-':
        fv_text_add(out, "\\-");
        break;
    case '^':
        fv_text_add(out, "\\(ha");
        break;
    case '~':
        fv_text_add(out, "\\(ti");
        break;
    case '\'':
        fv_text_add(out, "\\(aq");
        break;
    case '`':
        *bold = !*bold;
        fv_text_add(out, *bold ? "\\fB" : "\\fR");
        break;
    default:
        fv_text_add(out, "%c", c);
    }
}

/* Words, in lines that are not too long; a dot where a line begins would be a macro. */
static void add_roff(fv_text *out, const char *text)
{
    bool bold = false;
    size_t column = 0;
    for (const char *word = text + strspn(text, " "); *word; word += strspn(word, " ")) {
        const size_t length = strcspn(word, " ");
        if (column > 0)
            fv_text_add(out, column + length > MAN_WIDTH ? "\n" : " ");
        column = column + length > MAN_WIDTH ? 0 : column;
        if (column == 0 && *word == '.')
            fv_text_add(out, "\\&");
        const size_t before = out->length;
        for (size_t i = 0; i < length; i++)
            add_character(out, word[i], &bold);
        column += out->length - before + 1;
        word += length;
    }
    fv_text_add(out, "%s\n", bold ? "\\fR" : "");
}

static void add_capitals(fv_text *out, const char *text)
{
    for (; *text; text++)
        fv_text_add(out, "%c", toupper((unsigned char)*text));
}

/* ---- what help says ---- */

void cli_sheet_begin(const cli_sheet *s, const char *page, int section, const char *synopsis, const char *what)
{
    if (!s->man) {
        fv_text_add(s->out, "%s\n", synopsis);
        print_paragraph(s->out, "", what);
        return;
    }
    fv_text_add(s->out, ".\\\" SPDX-License-Identifier: MIT\n.TH ");
    add_capitals(s->out, page);
    fv_text_add(s->out, " %d %s \"farvessel %s\"\n.SH NAME\n", section, FV_DATE, FV_VERSION);
    fv_text name = {0};
    fv_text_add(&name, "%s - %s", page, what);
    add_roff(s->out, name.failed ? "" : name.text);
    fv_text_free(&name);
    if (section == 1) {
        fv_text_add(s->out, ".SH SYNOPSIS\n.B ");
        add_roff(s->out, synopsis);
    }
}

void cli_sheet_section(const cli_sheet *s, const char *title)
{
    if (!s->man) {
        fv_text_add(s->out, "\n%s\n", title);
        return;
    }
    fv_text_add(s->out, ".SH \"");
    if (*title == '<')
        fv_text_add(s->out, "%s", title); /* an element's name has no capitals */
    else
        add_capitals(s->out, title);
    fv_text_add(s->out, "\"\n");
}

/* Not right below a heading, which makes room by itself. */
static void begin_paragraph(fv_text *out)
{
    size_t at = out->length > 0 ? out->length - 1 : 0;
    while (at > 0 && out->text[at - 1] != '\n')
        at--;
    if (!out->text || strncmp(out->text + at, ".SH", 3) != 0)
        fv_text_add(out, ".PP\n");
}

void cli_sheet_say(const cli_sheet *s, const char *text)
{
    if (!s->man) {
        print_paragraph(s->out, "", text);
        return;
    }
    begin_paragraph(s->out);
    add_roff(s->out, text);
}

void cli_sheet_item(const cli_sheet *s, const char *term, const char *text)
{
    if (!s->man) {
        fv_text_add(s->out, "  %s\n", term);
        print_paragraph(s->out, "      ", text);
        return;
    }
    bool bold = false;
    fv_text_add(s->out, ".TP\n\\fB");
    for (const char *c = term; *c; c++)
        add_character(s->out, *c, &bold);
    fv_text_add(s->out, "\\fR\n");
    add_roff(s->out, text);
}

void cli_sheet_example(const cli_sheet *s, const char *line)
{
    bool bold = false;
    if (!s->man) {
        fv_text_add(s->out, "  %s\n", line);
        return;
    }
    begin_paragraph(s->out);
    fv_text_add(s->out, ".nf\n.RS 4\n");
    for (const char *c = line; *c; c++)
        if (*c == '`')
            fv_text_add(s->out, "\\(ga");
        else
            add_character(s->out, *c, &bold);
    fv_text_add(s->out, "\n.RE\n.fi\n");
}

/* ---- a text ---- */

static const char *take_line(const char *text, char line[LINE_SIZE])
{
    const size_t length = strcspn(text, "\n");
    snprintf(line, LINE_SIZE, "%.*s", (int)length, text);
    return text + length + (text[length] == '\n');
}

static void end_paragraph(const cli_sheet *s, fv_text *paragraph)
{
    if (paragraph->length > 0)
        cli_sheet_say(s, paragraph->text);
    s->out->failed = s->out->failed || paragraph->failed;
    fv_text_free(paragraph);
}

void cli_sheet_text(const cli_sheet *s, const char *text)
{
    fv_text paragraph = {0};
    char line[LINE_SIZE];
    bool gap = false; /* a blank line is due before what follows */
    while (*text) {
        text = take_line(text, line);
        const bool heading = strncmp(line, "# ", 2) == 0, example = strncmp(line, "    ", 4) == 0;
        if (heading || example || !*line) {
            gap = gap || paragraph.length > 0;
            end_paragraph(s, &paragraph);
        }
        if (gap && !heading && *line && paragraph.length == 0 && !s->man)
            fv_text_add(s->out, "\n");
        if (*line)
            gap = false;
        if (heading)
            cli_sheet_section(s, line + 2);
        else if (example)
            cli_sheet_example(s, line + 4);
        else
            fv_text_add(&paragraph, "%s%s", paragraph.length && *line ? " " : "", line);
        gap = gap || example;
        if (example && strncmp(text, "    ", 4) == 0)
            gap = false;
    }
    end_paragraph(s, &paragraph);
}
