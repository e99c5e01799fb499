/* SPDX-License-Identifier: MIT */
/* What can be treated in a week, who does what when, and what would bring more. */
#include "page/parts.h"
#include "page/pictures.h"

void page_week(page_doc *d)
{
    const page_view *v = d->v;
    const report_frame frame = {.answer = &v->week, .units = v->units, .plant = v->plant};
    fv_text sentence = {0}, times = {0};
    print_notes notes = {0};
    if (!v->content->week)
        return;
    page_doc_section(d, "week", "The week");
    report_week_sentence(&frame, &sentence);
    page_doc_paragraph(d, "what", "%s", page_doc_words(d, &sentence));
    if (d->m && v->content->week->plan.entry_count > 0)
        page_pictures_draw(v, d->m, PICTURE_WEEK);
    page_doc_fold(d, "Show who does what when");
    page_table(d, &report_week_tables[WEEK_GROUPS], &v->week, "Who does what when");
    page_doc_end(d);
    page_table(d, &report_week_tables[WEEK_GAINS], &v->week, "One more of each");
    page_table(d, &report_week_tables[WEEK_BATCHES], &v->week, "A batch, by the vessels on the steam");
    report_week_times(v->units, &times);
    page_doc_paragraph(d, "hint", "%s", page_doc_words(d, &times));
    page_table(d, &report_week_tables[WEEK_SPREAD], &v->week, "As batches might turn out");
    report_week_notes(&frame, &notes);
    page_doc_notes(d, &notes);
    page_doc_end(d);
    print_notes_free(&notes);
    fv_text_free(&times);
    fv_text_free(&sentence);
}
