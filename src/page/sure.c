/* SPDX-License-Identifier: MIT */
/* How sure the times are: bands with what is not known drawn at random. */
#include "page/parts.h"
#include "report/choices.h"

#include <math.h>

static void when(page_doc *d, double time)
{
    if (isfinite(time))
        page_doc_cell(d, "%s", page_view_time(d->v, time).text);
    else
        page_doc_cell(d, "never");
}

void page_sure(page_doc *d)
{
    static const page_doc_column columns[] = {{"vessel", "", DOC_WORD},           {"file says", "", DOC_NUMBER},
                                              {"one in ten by", "", DOC_NUMBER},  {"half by", "", DOC_NUMBER},
                                              {"nine in ten by", "", DOC_NUMBER}, {"in its time", "%", DOC_NUMBER}};
    const report_choices choices = {d->v->content->odds,
                                    {.start = d->v->options->clock, .twelve_hours = d->v->options->twelve_hours}};
    fv_text said = {0}, counts = {0};
    if (!choices.answer)
        return;
    const fv_choice_odds *row = &choices.answer->rows[0];
    page_doc_section(d, "sure", "How sure that is");
    report_choices_say(&choices, &said);
    page_doc_paragraph(d, "more", "%s", page_doc_words(d, &said));
    page_doc_table(d, "When each core is at its target", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < row->vessel_count; i++) {
        const fv_choice_vessel *v = &row->vessels[i];
        page_doc_cell(d, "%s", v->id);
        when(d, v->now);
        when(d, v->core.low);
        when(d, v->core.middle);
        when(d, v->core.high);
        page_doc_cell(d, "%.0f", 100 * v->within);
    }
    page_doc_table_end(d);
    report_choices_counts(&choices, &counts);
    page_doc_paragraph(d, "hint", "%s", page_doc_words(d, &counts));
    page_doc_end(d);
    fv_text_free(&said);
    fv_text_free(&counts);
}
