/* SPDX-License-Identifier: MIT */
/* One description of the page serves HTML and Markdown: headings, paragraphs, lists, tables. Drawings are the HTML's
 * only. All text may come from the input and is escaped by the writer. */
#ifndef PAGE_DOC_H
#define PAGE_DOC_H

#include "page/view.h"

typedef struct {
    const page_view *v;
    page_markup *m; /* HTML; NULL: Markdown */
    fv_text *text;  /* Markdown; NULL: HTML */
    size_t column;  /* in the row being written */
    const struct page_doc_column *columns;
    size_t column_count;
} page_doc;

typedef enum { DOC_WORD, DOC_NUMBER, DOC_PROSE } page_doc_kind; /* numbers stand right; prose may break */
typedef struct page_doc_column {
    const char *name; /* words may be joined by '_' */
    const char *unit; /* "" for none */
    page_doc_kind kind;
} page_doc_column;

/* A section under its own heading of the second level; `id` is where links lead. */
void page_doc_section(page_doc *d, const char *id, const char *title);
void page_doc_end(page_doc *d); /* of a section, a fold, a list */
/* What is read only when it is looked for: folded away on a screen, open on paper. Markdown shows it. */
void page_doc_fold(page_doc *d, const char *summary);
/* What is only folded away where the screen is as narrow as a phone's. */
void page_doc_fold_narrow(page_doc *d, const char *summary);
void page_doc_subheading(page_doc *d, const char *title);
void page_doc_paragraph(page_doc *d, const char *css_class, const char *fmt, ...) FV_PRINTF(3, 4);
void page_doc_list(page_doc *d);
/* `lead` stands in bold before the text, or is NULL. */
void page_doc_item(page_doc *d, const char *lead, const char *fmt, ...) FV_PRINTF(3, 4);
/* A command to be typed. */
void page_doc_code(page_markup *m, const char *command);
/* The text, "" where it is empty or failed; a failure is the page's, too. */
const char *page_doc_words(page_doc *d, const fv_text *text);
void page_doc_fail(page_doc *d);                            /* out of memory */
void page_doc_notes(page_doc *d, const print_notes *notes); /* a list of them */

/* The first cell of each row names it. Rows end by themselves. The style knows 14 columns of numbers, 5 of prose. */
void page_doc_table(page_doc *d, const char *caption, const page_doc_column *columns, size_t count);
void page_doc_cell(page_doc *d, const char *fmt, ...) FV_PRINTF(2, 3);
/* A word with the sign of a verdict before it. */
void page_doc_cell_verdict(page_doc *d, fv_verdict verdict, const char *word);
void page_doc_table_end(page_doc *d);
/* The sign of a verdict in a line of HTML; the word must stand beside it. */
void page_doc_sign(page_markup *m, fv_verdict verdict);

/* Text with everything that Markdown would take as markup set off by a backslash. */
void page_doc_escape_markdown(const char *text, fv_text *out);

#endif
