/* SPDX-License-Identifier: MIT */
/* The odds answer as JSON, which reference/odds.schema.json describes. */
#include "report/odds/report.h"

static json_t *band(const fv_band *b)
{
    json_t *o = json_object();
    print_json_set(&o, "core_10_s", print_json_number(b->low));
    print_json_set(&o, "core_50_s", print_json_number(b->middle));
    print_json_set(&o, "core_90_s", print_json_number(b->high));
    print_json_set(&o, "core_10_error_s", print_json_number(b->low_error));
    print_json_set(&o, "core_50_error_s", print_json_number(b->middle_error));
    print_json_set(&o, "core_90_error_s", print_json_number(b->high_error));
    return o;
}

static json_t *method(const fv_odds_answer *a)
{
    json_t *m = json_object();
    print_json_set(&m, "runs", json_integer((json_int_t)a->runs));
    print_json_set(&m, "runs_done", json_integer((json_int_t)a->runs_done));
    print_json_set(&m, "stopped", json_boolean(a->stopped));
    print_json_set(&m, "runs_failed", json_integer((json_int_t)a->runs_failed));
    print_json_set(&m, "runs_never", json_integer((json_int_t)a->never));
    print_json_set(&m, "seed", json_integer((json_int_t)a->options.seed));
    print_json_set(&m, "until_s", print_json_number(a->until));
    print_json_set(&m, "variance_explained", print_json_number(a->explained));
    print_json_set(&m, "probe_error_k", print_json_number(a->probe_error));
    return m;
}

void report_odds_json(const report_frame *frame, json_t **root)
{
    const fv_odds_answer *a = ((const report_odds *)frame->answer)->answer;
    print_json_set(root, "counts", report_frame_said_json(frame, frame->counts));
    print_json_set(root, "method", method(a));
    print_json_set(root, "last", band(&a->last));
    print_json_set(root, "last_now_s", print_json_number(a->last_now));
    print_json_set(root, "chance_all_within", print_json_number(a->all_within));
    print_json_set(root, "chance_all_within_error", print_json_number(a->all_within_error));
    print_json_set(root, "chance_over_relief", print_json_number(a->over_relief));
    for (size_t i = ODDS_VESSELS; i <= ODDS_PLACES; i++)
        report_frame_table_json(frame, i, root);
}
