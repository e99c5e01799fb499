/* SPDX-License-Identifier: MIT */
/* The log answer as JSON, which reference/log.schema.json describes. */
#include "report/log/report.h"

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

void report_log_json(const report_frame *frame, json_t **root)
{
    const fv_log_answer *a = ((const report_log *)frame->answer)->answer;
    print_json_set(root, "told", report_frame_said_json(frame, report_log_told));
    print_json_set(root, "counts", report_frame_said_json(frame, frame->counts));
    print_json_set(root, "verdict", print_json_word(fv_log_verdict_word(a->verdict)));
    print_json_set(root, "coldest", print_json_word(a->coldest < 0 ? NULL : a->probes[a->coldest].readings.name));
    print_json_set(root, "log", log_of(frame->answer));
    print_json_set(root, "boiling_point_k", print_json_number(a->boiling_point));
    report_frame_table_json(frame, LOG_PROBES, root);
    report_frame_table_json(frame, LOG_RULES, root);
}
