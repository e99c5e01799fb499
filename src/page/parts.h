/* SPDX-License-Identifier: MIT */
/* The sections of the page. Each writes HTML or Markdown, as its doc says. */
#ifndef REPORT_PAGE_PARTS_H
#define REPORT_PAGE_PARTS_H

#include "page/doc.h"

/* ---- what comes first ---- */
void page_answer(doc *d);    /* the sentences */
void page_verdicts(doc *d);  /* each vessel in a word */
void page_reasons(doc *d);   /* why the others are not fed */
void page_next_step(doc *d); /* the first remedy */

/* ---- tables ---- */
void page_remedies(doc *d);
void page_vessels(doc *d);
void page_timeline(doc *d);
void page_lines(doc *d);
void page_boilers(doc *d); /* with fuel and water */
void page_turndown(doc *d);

/* ---- where it all comes from ---- */
void page_notes(doc *d);
void page_sources(doc *d);
void page_limits(doc *d);
void page_cautions(doc *d);
void page_imprint(doc *d); /* file, digest, version, audit */

/* CSS of drawings, and of the whole page with it. */
void page_drawing_css(fv_text *out);
void page_css(fv_text *out);

#endif
