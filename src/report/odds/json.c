/* SPDX-License-Identifier: MIT */
/* The odds answer as JSON, which reference/odds.schema.json describes, and the way in to all its formats. */
#include "print/cautions.h"
#include "print/json.h"
#include "print/notes.h"
#include "report/odds/report.h"

#include <string.h>

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

fv_status report_odds_json(const report_odds *odds, const fv_faults *remarks, fv_text *out)
{
    static const int tables[] = {ODDS_VESSELS, ODDS_INPUTS, ODDS_PLACES};
    const fv_odds_answer *a = odds->answer;
    fv_text sentence = {0}, counts = {0};
    json_t *root = print_json_head("odds", a->plant);
    report_odds_sentence(odds, &sentence);
    report_odds_counts(odds, &counts);
    print_json_set(&root, "answer", print_json_word(sentence.failed ? NULL : sentence.text));
    print_json_set(&root, "counts", print_json_word(counts.failed ? NULL : counts.text));
    print_json_set(&root, "method", method(a));
    print_json_set(&root, "last", band(&a->last));
    print_json_set(&root, "last_now_s", print_json_number(a->last_now));
    print_json_set(&root, "chance_all_within", print_json_number(a->all_within));
    print_json_set(&root, "chance_all_within_error", print_json_number(a->all_within_error));
    print_json_set(&root, "chance_over_relief", print_json_number(a->over_relief));
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        print_json_set(&root, report_odds_tables[tables[i]].name,
                       print_table_json(&report_odds_tables[tables[i]], odds));
    print_json_set(&root, "remarks", print_remarks_json(remarks));
    print_json_set(&root, "cautions", print_cautions_json(a->plant));
    fv_text_free(&sentence);
    fv_text_free(&counts);
    return print_json_finish(root, out);
}

/* The table named, the first where none is. */
static fv_status csv(const report_odds *odds, const char *name, fv_text *out)
{
    for (size_t i = 0; i < ODDS_TABLES; i++) {
        if (name && strcmp(report_odds_tables[i].name, name) != 0)
            continue;
        print_table_csv(&report_odds_tables[i], odds, out);
        return out->failed ? FV_FAIL : FV_OK;
    }
    return FV_FAIL;
}

fv_status fv_report_odds(const fv_odds_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out)
{
    if (!answer || !options || !out)
        return FV_FAIL;
    const report_odds odds = {.answer = answer,
                              .units = options->units,
                              .cautions = options->cautions,
                              .clock = {options->clock, options->twelve_hours}};
    if (options->format == FV_REPORT_JSON)
        return report_odds_json(&odds, remarks, out);
    if (options->format == FV_REPORT_CSV)
        return csv(&odds, options->table, out);
    return report_odds_text(&odds, remarks, out);
}
