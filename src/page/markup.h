/* SPDX-License-Identifier: MIT */
/* Well-formed markup on libxml2's xmlTextWriter. What is written is XML and reads the same as HTML: elements that HTML
 * knows as empty are closed at once, all others with an end tag. Text may come from the input: it is escaped, and bytes
 * that are no XML characters are replaced. After a failure nothing more is written and `failed` stays true. */
#ifndef PAGE_MARKUP_H
#define PAGE_MARKUP_H

#include "farvessel/base.h"

typedef struct page_markup page_markup;

page_markup *page_markup_new(void); /* NULL: out of memory */
void page_markup_free(page_markup *m);
/* Appends all that was written to `out`. */
fv_status page_markup_finish(page_markup *m, fv_text *out);

/* Attributes follow as pairs of name and value, ended by NULL; a pair whose value is NULL is left out, so a value that
 * may be NULL must stand last. */
void page_markup_open(page_markup *m, const char *element, ...);
void page_markup_close(page_markup *m);
void page_markup_close_line(page_markup *m); /* and goes on in the next line */
void page_markup_end(page_markup *m); /* of an element that stayed empty and may be written so: shapes, <meta/> */
/* Without content: <meta/>, <br/>, <path/>. Not for other HTML elements. */
void page_markup_void(page_markup *m, const char *element, ...);
/* One element with text. */
void page_markup_leaf(page_markup *m, const char *element, const char *text, ...);
/* Adds to the element just opened. */
void page_markup_attr(page_markup *m, const char *name, const char *fmt, ...) FV_PRINTF(3, 4);
void page_markup_attr_number(page_markup *m, const char *name, double value); /* two decimals at most */
void page_markup_text(page_markup *m, const char *text);
void page_markup_say(page_markup *m, const char *fmt, ...) FV_PRINTF(2, 3);
/* Text of our own that is no markup for XML and no entity for HTML either: style and script. */
void page_markup_raw(page_markup *m, const char *text);
void page_markup_newline(page_markup *m);
void page_markup_doctype(page_markup *m);
/* For writers that ran out of memory: page_markup_finish will fail. */
void page_markup_fail(page_markup *m);
/* The text, "" where it is empty or failed; a failure is the writer's, too. */
const char *page_markup_words(page_markup *m, const fv_text *text);
/* Numbers for ids, from 1. */
int page_markup_next_id(page_markup *m);
/* The next is last + 1; returns which was the last. */
int page_markup_number_from(page_markup *m, int last);

/* A copy in which every byte sequence that is no character of XML 1.0 is U+FFFD, and "degC" behind a digit reads as the
 * sign. False: out of memory. */
void page_markup_clean(const char *text, fv_text *out);

#endif
