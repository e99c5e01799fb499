/* SPDX-License-Identifier: MIT */
/* The sections of the page. Each writes HTML or Markdown, as its doc says. */
#ifndef PAGE_PARTS_H
#define PAGE_PARTS_H

#include "page/doc.h"
#include "print/table.h"

/* ---- documents ---- */
const char *page_title(const page_view *v);
void page_facts(const page_view *v, fv_text *out);   /* air, boiling point and fire: what holds for the whole page */
void page_begin(const page_view *v, page_markup *m); /* up to and with <body> */
void page_end(page_markup *m);
void page_sheet(const page_view *v, page_markup *m); /* all of one sheet of paper, in place of the whole page */

/* ---- what comes first ---- */
void page_answer(page_doc *d);                        /* the sentences */
void page_verdicts(page_doc *d);                      /* each vessel in a word */
void page_reasons(page_doc *d);                       /* why the others are not fed */
void page_next_step(page_doc *d);                     /* the first remedy */
const char *page_next_step_words(const page_view *v); /* what it is called */
void page_plan(page_doc *d);                          /* what hands do, and when; nothing where that was not asked */

void page_cost(page_doc *d); /* nothing where that was not asked */
void page_week(page_doc *d); /* nothing where that was not asked */
/* ---- how sure that is, where it was asked for; nothing else ---- */
void page_sure(page_doc *d);
void page_fit(page_doc *d); /* the log against the plant fitted to it */

void page_drawing_keys(page_doc *d); /* legend */

/* ---- where it is written in; only with v->content->session ---- */
void page_session_changes(page_doc *d);
void page_session_asked(page_doc *d);
void page_session_fields(page_doc *d);
void page_session_bar(page_doc *d);
void page_difference(page_doc *d); /* of the last change; nothing before one */
void page_questions(page_doc *d);  /* instead of all other sections, where there is no plant yet */

/* ---- tables ---- */
/* As in text, JSON and CSV: what stands in a report's table. */
void page_table(page_doc *d, const print_table *table, const void *answer, const char *caption);
void page_remedies(page_doc *d);
void page_vessels_over_run(page_doc *d);
void page_vessels(page_doc *d); /* at one moment */
void page_timeline(page_doc *d);
void page_lines(page_doc *d);
void page_coils(page_doc *d);
void page_boilers(page_doc *d); /* with fuel and water */
void page_turndown(page_doc *d);

/* ---- where it all comes from ---- */
void page_entered(page_doc *d); /* what was measured, in the file's order */
void page_notes(page_doc *d);
void page_sources(page_doc *d);
void page_limits(page_doc *d);
void page_cautions(page_doc *d);
void page_cautions_list(page_doc *d);
void page_imprint(page_doc *d); /* file, digest, version, audit */

/* CSS of drawings, and of the whole page with it. */
void page_drawing_css(fv_text *out);
void page_css(fv_text *out);

#endif
