/* SPDX-License-Identifier: MIT */
/* What hands do, and when, as a plan found it. */
#include "report/remedy.h"
#include "report/step.h"
#include "page/parts.h"

static void row(page_doc *d, const char *when, fv_text *what)
{
    page_doc_cell(d, "%s", when);
    page_doc_cell(d, "%s", page_doc_words(d, what));
    fv_text_free(what);
}

static void light(page_doc *d)
{
    fv_text what = {0};
    fv_text_add(&what, "light the fire; all other valves as they are");
    row(d, print_when(&d->v->plan.clock, 0).text, &what);
}

/* What is bought or mended, then what is set, the fire, and what is done in the course of the run. */
static void to_do(page_doc *d)
{
    static const page_doc_column columns[] = {{"when", "", DOC_WORD}, {"what", "", DOC_PROSE}};
    const report_plan *plan = &d->v->plan;
    const fv_plan_row *best = &plan->answer->rows[0];
    fv_text what = {0};
    bool lit = false;
    page_doc_table(d, "What to do", columns, 2);
    for (size_t i = 0; i < best->move_count; i++) {
        report_remedy(plan->units, best->moves[i], &what);
        row(d, "beforehand", &what);
    }
    for (size_t i = 0; i < best->step_count;) {
        print_shown when;
        if (!lit && best->steps[i].action > FV_PLAN_FIT_WASHER) {
            light(d);
            lit = true;
        }
        i = report_step_group(d->v->plant, plan->units, &plan->clock, best->steps, best->step_count, i, &when, &what);
        row(d, when.text, &what);
    }
    if (!lit)
        light(d);
    page_doc_table_end(d);
}

void page_plan(page_doc *d)
{
    const page_view *v = d->v;
    const report_frame frame = {.answer = &v->plan};
    fv_text sentence = {0}, command = {0};
    if (!v->content->plan)
        return;
    const fv_plan_row *best = &v->content->plan->rows[0];
    page_doc_section(d, "todo", "What to do, and when");
    report_plan_sentence(&frame, &sentence);
    page_doc_paragraph(d, "what", "%s", page_doc_words(d, &sentence));
    if (best->step_count + best->move_count > 0)
        to_do(d);
    page_table(d, &report_plan_tables[PLAN_VESSELS], &v->plan, "When each vessel is done, so");
    page_doc_fold_narrow(d, "Show what else would do it");
    page_table(d, &report_plan_tables[PLAN_PLANS], &v->plan, "What else would do it");
    page_doc_paragraph(d, "hint",
                       "Each is the best found for its cost; >: the plan above. Times from lighting the fire.");
    page_doc_end(d);
    report_command(v->plant, "heat", &best->change, " ", &command);
    if (best->change.count + best->change.action_count > 0)
        page_doc_paragraph(d, "hint", "To check it: `%s`", page_doc_words(d, &command));
    page_doc_end(d);
    fv_text_free(&sentence);
    fv_text_free(&command);
}
