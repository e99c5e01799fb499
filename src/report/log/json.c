/* SPDX-License-Identifier: MIT */
/* The log answer as JSON, which reference/log.schema.json describes, and the way in to all its formats. */
#include "print/cautions.h"
#include "print/json.h"
#include "print/notes.h"
#include "report/log/report.h"

#include <math.h>
#include <string.h>

static json_t *log_of(const report_log *log)
{
    const fv_logfile *l = log->answer->log;
    char stamp[32];
    json_t *o = json_object();
    print_json_set(&o, "file", print_json_word(l->file));
    print_json_set(&o, "rows", json_integer((json_int_t)l->count));
    print_json_set(&o, "first", print_json_word(fv_logfile_stamp(l, l->time[0], stamp, sizeof stamp)));
    print_json_set(&o, "last", print_json_word(fv_logfile_stamp(l, l->time[l->count - 1], stamp, sizeof stamp)));
    print_json_set(&o, "interval_s", print_json_number(l->interval));
    print_json_set(&o, "restarts", json_integer((json_int_t)l->told.restarts));
    print_json_set(&o, "sorted", json_integer((json_int_t)l->told.sorted));
    print_json_set(&o, "repeated", json_integer((json_int_t)l->told.repeated));
    print_json_set(&o, "clock_moved_s", print_json_number(l->told.moved));
    print_json_set(&o, "longest_gap_s", print_json_number(l->told.gap));
    return o;
}

fv_status report_log_json(const report_log *log, const fv_faults *remarks, fv_text *out)
{
    const fv_log_answer *a = log->answer;
    fv_text sentence = {0}, told = {0}, counts = {0};
    const fv_plant none = {0};
    json_t *root = print_json_head("log", a->plant ? a->plant : &none);
    report_log_sentence(log, &sentence);
    report_log_told(log, &told);
    report_log_counts(log, &counts);
    print_json_set(&root, "answer", print_json_word(sentence.failed ? NULL : sentence.text));
    print_json_set(&root, "told", print_json_word(told.failed ? NULL : told.text));
    print_json_set(&root, "counts", print_json_word(counts.failed ? NULL : counts.text));
    print_json_set(&root, "verdict", print_json_word(fv_log_verdict_word(a->verdict)));
    print_json_set(&root, "coldest",
                   a->coldest < 0 ? json_null() : print_json_word(a->probes[a->coldest].readings.name));
    print_json_set(&root, "log", log_of(log));
    print_json_set(&root, "boiling_point_k", print_json_number(a->boiling_point));
    print_json_set(&root, "probes", print_table_json(&report_log_tables[LOG_PROBES], log));
    print_json_set(&root, "rules", print_table_json(&report_log_tables[LOG_RULES], log));
    print_json_set(&root, "remarks", print_remarks_json(remarks));
    print_json_set(&root, "cautions", print_cautions_json(a->plant ? a->plant : &none));
    fv_text_free(&sentence);
    fv_text_free(&told);
    fv_text_free(&counts);
    return print_json_finish(root, out);
}

/* The table named, the first where none is. */
static fv_status csv(const report_log *log, const char *name, fv_text *out)
{
    for (size_t i = 0; i < LOG_TABLES; i++) {
        if (name && strcmp(report_log_tables[i].name, name) != 0)
            continue;
        print_table_csv(&report_log_tables[i], log, out);
        return out->failed ? FV_FAIL : FV_OK;
    }
    return FV_FAIL;
}

fv_status fv_report_log(const fv_log_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_log log = {.answer = answer, .units = options->units, .cautions = options->cautions};
    if (options->format == FV_REPORT_JSON)
        return report_log_json(&log, remarks, out);
    if (options->format == FV_REPORT_CSV)
        return csv(&log, options->table, out);
    return report_log_text(&log, remarks, out);
}
