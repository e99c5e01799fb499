/* SPDX-License-Identifier: MIT */
/* What a batch costs, and which of the remedies pay. */
#include "report/remedy.h"
#include "page/parts.h"

#include <math.h>

enum { MONEY_SIZE = 48 };
static const double LEAST = 0.005; /* of the currency: less is nothing */

typedef struct {
    char text[MONEY_SIZE];
} money;

static money shown(const page_view *v, double amount)
{
    money m = {""};
    report_cost_money(&v->cost, amount, m.text, sizeof m.text);
    return m;
}

/* "after 120 batches", "in 1.4 years" where batches a year are known, "at once", "never". */
static void add_payback(const fv_cost_answer *a, fv_text *out)
{
    if (!(a->saved >= LEAST))
        fv_text_add(out, isnan(a->saved) ? "-" : "never");
    else if (!(a->options.spend > 0.0))
        fv_text_add(out, isnan(a->options.spend) ? "price not known" : "at once");
    else if (!isnan(a->payback))
        fv_text_add(out, "in %.1f years", a->payback);
    else
        fv_text_add(out, "after %.0f batches", ceil(a->options.spend / a->saved));
}

static void payoffs(page_doc *d)
{
    static const page_doc_column columns[] = {{"change", "", DOC_PROSE},
                                              {"price", "", DOC_NUMBER},
                                              {"saved a batch", "", DOC_NUMBER},
                                              {"pays for itself", "", DOC_WORD},
                                              {"worth over its years", "", DOC_NUMBER}};
    const page_view *v = d->v;
    const fv_cost_answer *const *pays = v->content->pays;
    const bool yearly = !isnan(v->content->cost->options.batches_a_year);
    bool begun = false;
    for (size_t i = 0; pays && i < v->content->why->remedy_count; i++) {
        fv_text what = {0}, when = {0};
        if (!pays[i])
            continue;
        if (!begun)
            page_doc_table(d, "Which changes pay", columns, yearly ? 5 : 4);
        begun = true;
        report_remedy(v->units, &v->content->why->remedies[i], &what);
        add_payback(pays[i], &when);
        page_doc_cell(d, "%s", page_doc_words(d, &what));
        page_doc_cell(d, "%s", shown(v, pays[i]->options.spend).text);
        page_doc_cell(d, "%s", shown(v, pays[i]->saved).text);
        page_doc_cell(d, "%s", page_doc_words(d, &when));
        if (yearly)
            page_doc_cell(d, "%s", shown(v, pays[i]->present_value).text);
        fv_text_free(&what);
        fv_text_free(&when);
    }
    if (begun)
        page_doc_table_end(d);
}

void page_cost(page_doc *d)
{
    const page_view *v = d->v;
    const report_frame frame = {.answer = &v->cost, .units = v->units, .plant = v->plant};
    fv_text sentence = {0};
    print_notes notes = {0};
    if (!v->content->cost)
        return;
    page_doc_section(d, "cost", "What a batch costs");
    report_cost_sentence(&frame, &sentence);
    page_doc_paragraph(d, "what", "%s", page_doc_words(d, &sentence));
    page_doc_fold_narrow(d, "Show what it is made of");
    page_table(d, &report_cost_tables[COST_ITEMS], &v->cost, "What a batch takes");
    page_doc_end(d);
    payoffs(d);
    report_cost_notes(&frame, &notes);
    page_doc_notes(d, &notes);
    page_doc_end(d);
    print_notes_free(&notes);
    fv_text_free(&sentence);
}
