/* SPDX-License-Identifier: MIT */
/* The why answer as JSON, as reference/why.schema.json describes it. */
#include "report/slip.h"
#include "report/why/report.h"

static json_t *question(const fv_why_answer *a)
{
    const fv_why_options *o = &a->options;
    json_t *q = json_object();
    print_json_set(&q, "vessel", print_json_word(o->vessel));
    print_json_set(&q, "cap_s", print_json_number(o->cap));
    print_json_set(&q, "most", json_integer((json_int_t)o->most));
    print_json_set(&q, "matters", print_json_number(o->matters));
    print_json_set(&q, "remedies", json_boolean(o->remedies));
    return q;
}

static json_t *name(const fv_why_answer *a, int vessel)
{
    return vessel < 0 ? json_null() : print_json_word(a->plant->vessels[vessel]->part.id);
}

static json_t *method(const fv_why_answer *a)
{
    json_t *m = json_object(), *kept = json_array();
    for (size_t i = 0; kept && i < a->kept_count; i++)
        print_json_append(&kept, print_json_word(fv_why_cause_word(a->kept[i])));
    print_json_set(&m, "cap_s", print_json_number(a->cap));
    print_json_set(&m, "causes", kept);
    print_json_set(&m, "stopped", json_boolean(a->stopped));
    print_json_set(&m, "runs", json_integer((json_int_t)a->runs));
    print_json_set(&m, "runs_failed", json_integer((json_int_t)a->runs_failed));
    print_json_set(&m, "remedies_failed", json_integer((json_int_t)a->remedies_failed));
    print_json_set(&m, "best_fed", name(a, a->best));
    print_json_set(&m, "target", name(a, a->target));
    return m;
}

static json_t *remedies(const report_why *why)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < why->answer->remedy_count; i++) {
        json_t *o = print_row_json(&report_why_tables[WHY_REMEDIES], why, i);
        print_json_set(&o, "settings", report_settings_json(why->answer->plant, &why->answer->remedies[i].change));
        print_json_append(&array, o);
    }
    return array;
}

void report_why_json(const report_frame *frame, json_t **root)
{
    const report_why *why = frame->answer;
    const fv_why_answer *a = why->answer;
    fv_text step = {0}, safety = {0};
    report_why_safety(why, &safety);
    report_why_step(why, &step);
    print_json_set(root, "safety", print_json_word(safety.failed ? NULL : safety.text));
    print_json_set(root, "unheld", name(a, a->unheld));
    print_json_set(root, "next_step", print_json_word(step.failed ? NULL : step.text));
    print_json_set(root, "slip", report_slip_json(a->plant, &a->slip));
    print_json_set(root, "question", question(a));
    print_json_set(root, "method", method(a));
    for (size_t i = 0; i < WHY_REMEDIES; i++)
        report_frame_table_json(frame, i, root);
    print_json_set(root, "currency", print_json_word(a->plant->currency));
    print_json_set(root, "remedies", remedies(why));
    report_frame_table_json(frame, WHY_EFFECTS, root);
    fv_text_free(&step);
    fv_text_free(&safety);
}
