/* SPDX-License-Identifier: MIT */
/* A why study on the page. */
#ifndef REPORT_PAGE_WHY_H
#define REPORT_PAGE_WHY_H

#include "report/why/report.h"

typedef struct {
    report_why words;
    fv_page_remedy *rows; /* the next step first; in the arena of `words`, as all texts */
    size_t count;
    const char *because, *besides; /* the sentence and what follows; the latter alone. NULL: nothing to say */
} page_why;
/* False: out of memory. Free it in any case. */
bool page_why_make(const fv_why_answer *answer, fv_unit_system units, page_why *p);
void page_why_free(page_why *p);

#endif
