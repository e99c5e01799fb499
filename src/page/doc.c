/* SPDX-License-Identifier: MIT */
/* Headings, paragraphs, lists and tables for HTML and Markdown. */
#include "page/doc.h"

#include <stdio.h>
#include <string.h>

/* ---- Markdown ---- */

void page_doc_escape_markdown(const char *text, fv_text *out)
{
    fv_text clean = {0};
    page_markup_clean(text, &clean);
    out->failed = out->failed || clean.failed;
    for (const char *at = clean.text ? clean.text : ""; *at; at++) {
        if (*at == '\n' || *at == '\t')
            fv_text_add(out, " ");
        else
            fv_text_add(out, strchr("\\`*_{}[]<>#|!~&$", *at) ? "\\%c" : "%c", *at);
    }
    fv_text_free(&clean);
}

/* ---- both ---- */

const char *page_doc_words(page_doc *d, const fv_text *text)
{
    if (d->m)
        return page_markup_words(d->m, text);
    d->text->failed = d->text->failed || text->failed;
    return text->text && !text->failed ? text->text : "";
}

void page_doc_fail(page_doc *d)
{
    if (d->m)
        page_markup_fail(d->m);
    else
        d->text->failed = true;
}

/* A line never ends within an option: "--set" in two pieces is another word. */
void page_doc_code(page_markup *m, const char *command)
{
    page_markup_open(m, "code", NULL);
    for (const char *next; *command; command = next) {
        char piece[400];
        next = strstr(command, " --");
        next = next ? next + 1 : command + strlen(command);
        const size_t length = (size_t)(next - command) - (*next != '\0');
        if (strncmp(command, "--", 2) != 0 || length >= sizeof piece) {
            page_markup_say(m, "%.*s", (int)length, command);
        } else {
            snprintf(piece, sizeof piece, "%.*s", (int)length, command);
            page_markup_leaf(m, "span", piece, NULL);
        }
        page_markup_text(m, *next ? " " : "");
    }
    page_markup_close(m);
}

/* What stands between two backticks is a command or a name to be typed. */
static void html_words(page_markup *m, fv_text *text)
{
    char *at = text->text, *open, *end;
    while ((open = strchr(at, '`')) != NULL && (end = strchr(open + 1, '`')) != NULL) {
        *open = *end = '\0';
        page_markup_text(m, at);
        page_doc_code(m, open + 1);
        at = end + 1;
    }
    page_markup_text(m, at);
}

static void markdown_words(const char *words, fv_text *out)
{
    const char *open, *end;
    while ((open = strchr(words, '`')) != NULL && (end = strchr(open + 1, '`')) != NULL) {
        fv_text before = {0}, code = {0}, clean = {0};
        fv_text_add(&before, "%.*s", (int)(open - words), words);
        fv_text_add(&code, "%.*s", (int)(end - open - 1), open + 1);
        page_doc_escape_markdown(before.text ? before.text : "", out);
        page_markup_clean(code.text ? code.text : "", &clean);
        fv_text_add(out, "`%s`", clean.text ? clean.text : "");
        out->failed = out->failed || before.failed || code.failed || clean.failed;
        fv_text_free(&before);
        fv_text_free(&code);
        fv_text_free(&clean);
        words = end + 1;
    }
    page_doc_escape_markdown(words, out);
}

/* Text made from a format, for one of the two writers. */
static void write(page_doc *d, const char *fmt, va_list args)
{
    fv_text text = {0};
    fv_text_addv(&text, fmt, args);
    const char *words = page_doc_words(d, &text);
    if (d->m && words[0])
        html_words(d->m, &text);
    else if (words[0])
        markdown_words(words, d->text);
    fv_text_free(&text);
}

void page_doc_section(page_doc *d, const char *id, const char *title)
{
    if (d->m) {
        fv_text heading = {0};
        fv_text_add(&heading, "h-%s", id);
        page_markup_open(d->m, "section", "id", id, "aria-labelledby", page_doc_words(d, &heading), NULL);
        page_markup_newline(d->m);
        page_markup_leaf(d->m, "h2", title, "id", page_doc_words(d, &heading), NULL);
        page_markup_newline(d->m);
        fv_text_free(&heading);
        return;
    }
    fv_text_add(d->text, "\n## ");
    page_doc_escape_markdown(title, d->text);
    fv_text_add(d->text, "\n");
}

void page_doc_end(page_doc *d)
{
    if (d->m)
        page_markup_close_line(d->m);
}

static void fold(page_doc *d, const char *css_class, const char *open, const char *summary)
{
    if (!d->m)
        return;
    page_markup_open(d->m, "details", "class", css_class, "open", open, NULL);
    page_markup_leaf(d->m, "summary", summary, NULL);
    page_markup_newline(d->m);
}

void page_doc_fold(page_doc *d, const char *summary)
{
    fold(d, NULL, NULL, summary);
}

void page_doc_fold_narrow(page_doc *d, const char *summary)
{
    fold(d, "long", "open", summary);
}

void page_doc_subheading(page_doc *d, const char *title)
{
    if (d->m) {
        page_markup_leaf(d->m, "h3", title, NULL);
        page_markup_newline(d->m);
        return;
    }
    fv_text_add(d->text, "\n### ");
    page_doc_escape_markdown(title, d->text);
    fv_text_add(d->text, "\n");
}

void page_doc_paragraph(page_doc *d, const char *css_class, const char *fmt, ...)
{
    va_list args;
    va_start(args, fmt);
    if (d->m)
        page_markup_open(d->m, "p", "class", css_class, NULL);
    else
        fv_text_add(d->text, "\n");
    write(d, fmt, args);
    va_end(args);
    if (d->m)
        page_markup_close_line(d->m);
    else
        fv_text_add(d->text, "\n");
}

void page_doc_list(page_doc *d)
{
    if (d->m)
        page_markup_open(d->m, "ul", NULL);
    else
        fv_text_add(d->text, "\n");
}

void page_doc_item(page_doc *d, const char *lead, const char *fmt, ...)
{
    va_list args;
    va_start(args, fmt);
    if (d->m) {
        page_markup_open(d->m, "li", NULL);
        if (lead) {
            page_markup_leaf(d->m, "strong", lead, NULL);
            page_markup_text(d->m, " ");
        }
    } else {
        fv_text_add(d->text, lead ? "- **" : "- ");
        if (lead) {
            page_doc_escape_markdown(lead, d->text);
            fv_text_add(d->text, "** ");
        }
    }
    write(d, fmt, args);
    va_end(args);
    if (d->m)
        page_markup_close(d->m);
    else
        fv_text_add(d->text, "\n");
}

void page_doc_notes(page_doc *d, const print_notes *notes)
{
    enum { NAMES_SHOWN = 8 };
    page_doc_list(d);
    for (size_t i = 0; i < notes->count; i++) {
        const print_note *note = &notes->notes[i];
        fv_text names = {0};
        print_names_say(&note->parts, NAMES_SHOWN, &names);
        if (note->parts.count > 0)
            fv_text_add(&names, ":");
        page_doc_item(d, note->parts.count > 0 ? page_doc_words(d, &names) : NULL, "%s", note->text);
        fv_text_free(&names);
    }
    page_doc_end(d);
    if (notes->failed)
        page_doc_fail(d);
}

/* ---- tables ---- */

static void column_name(const page_doc_column *column, fv_text *out)
{
    for (const char *at = column->name; *at; at++)
        fv_text_add(out, "%c", *at == '_' ? ' ' : *at);
}

/* "n3 w4": the third column holds numbers, the fourth prose. Said once for a table, not in each of its cells. */
static void add_kinds(page_doc *d, fv_text *out)
{
    for (size_t i = 0; i < d->column_count; i++)
        if (d->columns[i].kind != DOC_WORD)
            fv_text_add(out, "%s%c%zu", out->length > 0 ? " " : "", d->columns[i].kind == DOC_NUMBER ? 'n' : 'w',
                        i + 1);
}

static void html_head(page_doc *d, const char *caption)
{
    char id[32];
    snprintf(id, sizeof id, "table%d", page_markup_next_id(d->m));
    page_markup_leaf(d->m, "h3", caption, "id", id, NULL);
    page_markup_newline(d->m);
    page_markup_open(d->m, "div", "class", "scroll", "role", "region", "tabindex", "0", "aria-labelledby", id, NULL);
    fv_text kinds = {0};
    add_kinds(d, &kinds);
    page_markup_open(d->m, "table", "aria-labelledby", id, "class", page_doc_words(d, &kinds), NULL);
    fv_text_free(&kinds);
    page_markup_open(d->m, "thead", NULL);
    page_markup_open(d->m, "tr", NULL);
    for (size_t i = 0; i < d->column_count; i++) {
        fv_text name = {0};
        column_name(&d->columns[i], &name);
        page_markup_open(d->m, "th", "scope", "col", NULL);
        page_markup_text(d->m, page_doc_words(d, &name));
        if (d->columns[i].unit[0]) {
            page_markup_text(d->m, " ");
            page_markup_leaf(d->m, "span", d->columns[i].unit, "class", "u", NULL);
        }
        page_markup_close(d->m);
        fv_text_free(&name);
    }
    page_markup_close(d->m);
    page_markup_close_line(d->m);
    page_markup_open(d->m, "tbody", NULL);
}

static void markdown_head(page_doc *d, const char *caption)
{
    fv_text_add(d->text, "\n**");
    page_doc_escape_markdown(caption, d->text);
    fv_text_add(d->text, "**\n\n|");
    for (size_t i = 0; i < d->column_count; i++) {
        fv_text name = {0};
        column_name(&d->columns[i], &name);
        fv_text_add(d->text, " ");
        page_doc_escape_markdown(page_doc_words(d, &name), d->text);
        fv_text_add(d->text, d->columns[i].unit[0] ? ", %s |" : "%s |", d->columns[i].unit);
        fv_text_free(&name);
    }
    fv_text_add(d->text, "\n|");
    for (size_t i = 0; i < d->column_count; i++)
        fv_text_add(d->text, d->columns[i].kind == DOC_NUMBER ? " ---: |" : " --- |");
    fv_text_add(d->text, "\n");
}

void page_doc_table(page_doc *d, const char *caption, const page_doc_column *columns, size_t count)
{
    d->columns = columns;
    d->column_count = count;
    d->column = 0;
    if (d->m)
        html_head(d, caption);
    else
        markdown_head(d, caption);
}

static void open_cell(page_doc *d)
{
    if (d->m) {
        if (d->column == 0)
            page_markup_open(d->m, "tr", NULL);
        if (d->column == 0)
            page_markup_open(d->m, "th", "scope", "row", NULL);
        else
            page_markup_open(d->m, "td", NULL);
        return;
    }
    fv_text_add(d->text, d->column == 0 ? "| " : " ");
}

static void close_cell(page_doc *d)
{
    bool last = ++d->column == d->column_count;
    if (d->m)
        page_markup_close(d->m);
    else
        fv_text_add(d->text, " |");
    if (last && d->m)
        page_markup_close(d->m);
    if (last && d->m)
        page_markup_newline(d->m);
    if (last && !d->m)
        fv_text_add(d->text, "\n");
    if (last)
        d->column = 0;
}

void page_doc_cell(page_doc *d, const char *fmt, ...)
{
    va_list args;
    open_cell(d);
    va_start(args, fmt);
    write(d, fmt, args);
    va_end(args);
    close_cell(d);
}

void page_doc_cell_verdict(page_doc *d, fv_verdict verdict, const char *word)
{
    static const char *const signs[] = {
        [FV_FED] = "\xE2\x9C\x94",
        [FV_LAGGING] = "\xE2\x96\xB2",
        [FV_STARVED] = "\xE2\x9C\x96",
        [FV_SHUT_OFF] = "\xE2\x96\xA1",
    };
    open_cell(d);
    if (d->m) {
        page_markup_open(d->m, "span", "class", "verdict", NULL);
        page_doc_sign(d->m, verdict);
        page_markup_say(d->m, " %s", word);
        page_markup_close(d->m);
    } else {
        fv_text_add(d->text, "%s %s", signs[verdict], word);
    }
    close_cell(d);
}

void page_doc_table_end(page_doc *d)
{
    if (!d->m)
        return;
    page_markup_close(d->m);
    page_markup_close(d->m);
    page_markup_close_line(d->m);
}

void page_doc_sign(page_markup *m, fv_verdict verdict)
{
    page_markup_open(m, "svg", "xmlns", "http://www.w3.org/2000/svg", "class", "sign", "viewBox", "-12 -12 24 24",
                     "aria-hidden", "true", "width", "16", "height", "16", NULL);
    page_svg_mark(m, page_view_mark(verdict), 0, 0, 10);
    page_markup_close(m);
}
