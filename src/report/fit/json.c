/* SPDX-License-Identifier: MIT */
/* The fit answer as JSON, which reference/fit.schema.json describes. */
#include "report/fit/report.h"

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
    print_json_set(&m, "stopped", json_boolean(a->stopped));
    print_json_set(&m, "moved", json_boolean(a->sampled));
    print_json_set(&m, "slow_error_core_k", print_json_number(a->slow[0]));
    print_json_set(&m, "slow_error_chamber_k", print_json_number(a->slow[1]));
    print_json_set(&m, "slow_error_s", print_json_number(a->slow_time));
    print_json_set(&m, "seed", json_integer((json_int_t)a->options.seed));
    return m;
}

void report_fit_json(const report_frame *frame, json_t **root)
{
    const report_fit *fit = frame->answer;
    print_json_set(root, "counts", report_frame_said_json(frame, frame->counts));
    print_json_set(root, "method", method(fit->answer));
    print_json_set(root, "explanations", modes(fit));
    for (size_t i = FIT_VESSELS; i <= FIT_INSTRUMENTS; i++)
        report_frame_table_json(frame, i, root);
    print_json_set(root, "stretches", stretches(fit));
}
