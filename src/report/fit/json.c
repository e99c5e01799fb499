/* SPDX-License-Identifier: MIT */
/* The fit answer as JSON, which reference/fit.schema.json describes, and the way in to all its formats. */
#include "print/cautions.h"
#include "print/json.h"
#include "print/notes.h"
#include "report/fit/report.h"

#include <string.h>

static json_t *modes(const report_fit *fit)
{
    const fv_fit_answer *a = fit->answer;
    json_t *array = json_array();
    for (size_t k = 0; array && k < a->mode_count; k++) {
        const fv_fit_mode *m = &a->modes[k];
        fv_text text = {0};
        json_t *o = json_object();
        report_fit_mode(fit, m, &text);
        print_json_set(&o, "defect", print_json_word(fv_defect_word(m->kind)));
        print_json_set(&o, "vessel",
                       m->vessel < 0 ? json_null() : print_json_word(a->plant->vessels[m->vessel]->part.id));
        print_json_set(&o, "line", m->line < 0 ? json_null() : print_json_word(a->plant->lines[m->line]->part.id));
        print_json_set(&o, "chance", print_json_number(m->probability));
        print_json_set(&o, "size_si", print_json_number(m->size));
        print_json_set(&o, "text", print_json_word(text.failed ? NULL : text.text));
        fv_text_free(&text);
        print_json_append(&array, o);
    }
    return array;
}

static json_t *stretches(const report_fit *fit)
{
    const fv_fit_answer *a = fit->answer;
    json_t *array = json_array();
    for (size_t k = 0; array && k < a->stretch_count; k++) {
        const fv_fit_stretch *s = &a->stretches[k];
        fv_text text = {0};
        json_t *o = json_object();
        report_fit_stretch(fit, s, &text);
        print_json_set(&o, "probe", print_json_word(a->cleaned[s->probe].readings.name));
        print_json_set(&o, "from_s", print_json_number(s->from - a->lit));
        print_json_set(&o, "to_s", print_json_number(s->to - a->lit));
        print_json_set(&o, "departs_k", print_json_number(s->departs));
        print_json_set(&o, "text", print_json_word(text.failed ? NULL : text.text));
        fv_text_free(&text);
        print_json_append(&array, o);
    }
    return array;
}

static json_t *method(const fv_fit_answer *a)
{
    char stamp[32];
    json_t *m = json_object();
    print_json_set(&m, "log", print_json_word(a->log->file));
    print_json_set(&m, "lit", print_json_word(fv_logfile_stamp(a->log, a->lit, stamp, sizeof stamp)));
    print_json_set(&m, "lit_error_s", print_json_number(a->lit_error));
    print_json_set(&m, "now", print_json_word(fv_logfile_stamp(a->log, a->now, stamp, sizeof stamp)));
    print_json_set(&m, "runs", json_integer((json_int_t)a->runs));
    print_json_set(&m, "draws", json_integer((json_int_t)a->draws));
    print_json_set(&m, "effective_draws", print_json_number(a->effective));
    print_json_set(&m, "moved", json_boolean(a->sampled));
    print_json_set(&m, "slow_error_core_k", print_json_number(a->slow[0]));
    print_json_set(&m, "slow_error_chamber_k", print_json_number(a->slow[1]));
    print_json_set(&m, "slow_error_s", print_json_number(a->slow_time));
    print_json_set(&m, "seed", json_integer((json_int_t)a->options.seed));
    return m;
}

fv_status report_fit_json(const report_fit *fit, const fv_faults *remarks, fv_text *out)
{
    static const int tables[] = {FIT_VESSELS, FIT_UNKNOWNS, FIT_PROBES};
    const fv_fit_answer *a = fit->answer;
    fv_text sentence = {0}, counts = {0};
    json_t *root = print_json_head("fit", a->plant);
    report_fit_sentence(fit, &sentence);
    report_fit_counts(fit, &counts);
    print_json_set(&root, "answer", print_json_word(sentence.failed ? NULL : sentence.text));
    print_json_set(&root, "counts", print_json_word(counts.failed ? NULL : counts.text));
    print_json_set(&root, "method", method(a));
    print_json_set(&root, "explanations", modes(fit));
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        print_json_set(&root, report_fit_tables[tables[i]].name, print_table_json(&report_fit_tables[tables[i]], fit));
    print_json_set(&root, "stretches", stretches(fit));
    print_json_set(&root, "remarks", print_remarks_json(remarks));
    print_json_set(&root, "cautions", print_cautions_json(a->plant));
    fv_text_free(&sentence);
    fv_text_free(&counts);
    return print_json_finish(root, out);
}

/* The table named, the first where none is. */
static fv_status csv(const report_fit *fit, const char *name, fv_text *out)
{
    for (size_t i = 0; i < FIT_TABLES; i++) {
        if (name && strcmp(report_fit_tables[i].name, name) != 0)
            continue;
        print_table_csv(&report_fit_tables[i], fit, out);
        return out->failed ? FV_FAIL : FV_OK;
    }
    return FV_FAIL;
}

fv_status fv_report_fit(const fv_fit_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_fit fit = {.answer = answer, .units = options->units, .cautions = options->cautions};
    if (options->format == FV_REPORT_JSON)
        return report_fit_json(&fit, remarks, out);
    if (options->format == FV_REPORT_CSV)
        return csv(&fit, options->table, out);
    return report_fit_text(&fit, remarks, out);
}
