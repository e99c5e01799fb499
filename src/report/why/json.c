/* SPDX-License-Identifier: MIT */
/* The why answer as JSON, which reference/why.schema.json describes, and the way in to all its formats. */
#include "print/cautions.h"
#include "print/json.h"
#include "print/notes.h"
#include "report/why/report.h"

#include <string.h>

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
    print_json_set(&m, "runs", json_integer((json_int_t)a->runs));
    print_json_set(&m, "runs_failed", json_integer((json_int_t)a->runs_failed));
    print_json_set(&m, "remedies_failed", json_integer((json_int_t)a->remedies_failed));
    print_json_set(&m, "best_fed", name(a, a->best));
    print_json_set(&m, "target", name(a, a->target));
    return m;
}

static json_t *settings(const fv_why_answer *a, const fv_change *change)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < change->count; i++) {
        fv_text text = {0};
        const bool good = fv_setting_write(&change->settings[i], a->plant, &text);
        print_json_append(&array, good ? print_json_word(text.text) : NULL);
        fv_text_free(&text);
    }
    return array;
}

static json_t *remedies(const report_why *why)
{
    json_t *array = json_array();
    for (size_t i = 0; array && i < why->answer->remedy_count; i++) {
        json_t *o = print_row_json(&report_why_tables[WHY_REMEDIES], why, i);
        print_json_set(&o, "settings", settings(why->answer, &why->answer->remedies[i].change));
        print_json_append(&array, o);
    }
    return array;
}

fv_status report_why_json(const report_why *why, const fv_faults *remarks, fv_text *out)
{
    static const int tables[] = {WHY_VESSELS, WHY_SHARES, WHY_PRESSURE};
    const fv_why_answer *a = why->answer;
    fv_text sentence = {0}, step = {0};
    json_t *root = print_json_head("why", a->plant);
    report_why_sentence(why, &sentence);
    report_why_step(why, &step);
    print_json_set(&root, "answer", print_json_word(sentence.failed ? NULL : sentence.text));
    print_json_set(&root, "next_step", print_json_word(step.failed ? NULL : step.text));
    print_json_set(&root, "question", question(a));
    print_json_set(&root, "method", method(a));
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        print_json_set(&root, report_why_tables[tables[i]].name, print_table_json(&report_why_tables[tables[i]], why));
    print_json_set(&root, "currency", print_json_word(a->plant->currency));
    print_json_set(&root, "remedies", remedies(why));
    print_json_set(&root, "effects", print_table_json(&report_why_tables[WHY_EFFECTS], why));
    print_json_set(&root, "remarks", print_remarks_json(remarks));
    print_json_set(&root, "cautions", print_cautions_json(a->plant));
    fv_text_free(&sentence);
    fv_text_free(&step);
    return print_json_finish(root, out);
}

/* The table named, the first where none is. */
static fv_status csv(const report_why *why, const char *name, fv_text *out)
{
    for (size_t i = 0; i < WHY_TABLES; i++) {
        if (name && strcmp(report_why_tables[i].name, name) != 0)
            continue;
        print_table_csv(&report_why_tables[i], why, out);
        return out->failed ? FV_FAIL : FV_OK;
    }
    return FV_FAIL;
}

fv_status fv_report_why(const fv_why_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    report_why why;
    fv_status status = FV_FAIL;
    if (!report_why_make(answer, options->units, &why))
        out->failed = true;
    else if (options->format == FV_REPORT_JSON)
        status = report_why_json(&why, remarks, out);
    else if (options->format == FV_REPORT_CSV)
        status = csv(&why, options->table, out);
    else
        status = report_why_text(&why, remarks, out);
    report_why_free(&why);
    return status;
}
