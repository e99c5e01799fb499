/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the log answer. */
#include "report/log/report.h"
#include "print/fields.h"

#include <math.h>

static const fv_log_answer *result(const void *answer)
{
    return ((const report_log *)answer)->answer;
}

/* ---- probes ---- */

ROWS(probe_count, result(answer)->probe_count)
ROW(probe_row, &result(answer)->probes[i])
static const fv_log_probe *probe(const void *answer, size_t row)
{
    return probe_row(answer, row);
}
WORD_OF(probe_column, result(answer)->log->channels[probe(answer, i)->readings.channel].name)
static const char *probe_vessel(const void *answer, size_t row, char *buffer)
{
    const int v = probe(answer, row)->readings.vessel;
    (void)buffer;
    return v < 0 ? NULL : result(answer)->plant->vessels[v]->part.id;
}
WORD_OF(probe_at, ((const char *const[]){"core", "chamber", "air", "depth"})[probe(answer, i)->readings.at])
WORD_OF(probe_verdict, fv_log_verdict_word(probe(answer, i)->verdict))
/* s since the first row of the log */
static double since(const void *answer, double time)
{
    const fv_logfile *log = result(answer)->log;
    return log->count ? time - log->time[0] : NAN;
}
NUMBER_OF(first_at, since(answer, probe(answer, i)->as_read.first))
NUMBER_OF(first_low, since(answer, probe(answer, i)->low.first))
NUMBER_OF(first_high, since(answer, probe(answer, i)->high.first))

#define P(name, unit, member) NUMBER(fv_log_probe, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field probe_fields[] = {
    TEXT(fv_log_probe, "probe", readings.name, IN_DATA),
    WORD("column", IN_DATA, probe_column),
    WORD("vessel", IN_DATA, probe_vessel),
    WORD("at", IN_DATA, probe_at),
    WORD("verdict", IN_DATA, probe_verdict),
    P("short_by", "_s", short_by),
    P("target", "_k", target),
    P("hold_wanted", "_s", hold),
    P("error", "_k", readings.error),
    P("error_80", "_k", readings.reach),
    CELL("first_at_target", "_s", IN_DATA, FV_SHOW_NUMBER, first_at),
    CELL("first_at_target_low", "_s", IN_DATA, FV_SHOW_NUMBER, first_low),
    CELL("first_at_target_high", "_s", IN_DATA, FV_SHOW_NUMBER, first_high),
    P("longest", "_s", as_read.longest),
    P("longest_low", "_s", low.longest),
    P("longest_high", "_s", high.longest),
    P("sum", "_s", as_read.sum),
    P("sum_low", "_s", low.sum),
    P("sum_high", "_s", high.sum),
    P("lowest_in_hold", "_k", as_read.lowest),
    P("highest", "_k", as_read.highest),
    P("lethality", "_s", as_read.lethality),
    P("lethality_low", "_s", low.lethality),
    P("lethality_high", "_s", high.lethality),
    P("reference", "_k", reference),
    P("z", "_k", z),
    COUNT(fv_log_probe, "open", readings.left_out[FV_READING_OPEN], IN_DATA),
    COUNT(fv_log_probe, "frozen", readings.left_out[FV_READING_FROZEN], IN_DATA),
    COUNT(fv_log_probe, "pulled", readings.left_out[FV_READING_PULLED], IN_DATA),
    COUNT(fv_log_probe, "above_boiling", readings.left_out[FV_READING_BOILING], IN_DATA),
};

/* ---- rules: one row a probe in a core and rule ---- */

static size_t rules(void)
{
    size_t count;
    fv_log_rules(&count);
    return count;
}
ROWS(rule_count, result(answer)->probe_count *rules())
static const void *rule(const void *answer, size_t row)
{
    size_t count;
    (void)answer;
    return &fv_log_rules(&count)[row % rules()];
}
ROW(rule_row, &probe(answer, i / rules())->rules[i % rules()])
WORD_OF(rule_probe, probe(answer, i / rules())->readings.name)
static const print_field rule_fields[] = {
    WORD("probe", IN_DATA, rule_probe),
    PART_TEXT(fv_log_rule, "rule", name, IN_DATA),
    NUMBER(fv_log_rule_share, "done", done, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_log_rule_share, "done_low", low, "", IN_DATA, FV_SHOW_NUMBER),
    PART_TEXT(fv_log_rule, "source", source, IN_DATA),
};

/* ---- readings ---- */

ROWS(reading_count, result(answer)->probe_count *result(answer)->log->count)
static const fv_probe_readings *readings(const void *answer, size_t row)
{
    return &probe(answer, row / result(answer)->log->count)->readings;
}
static const char *reading_time(const void *answer, size_t row, char *buffer)
{
    const fv_logfile *log = result(answer)->log;
    return fv_logfile_stamp(log, log->time[row % log->count], buffer, PRINT_WORD_SIZE);
}
ROW(reading_row, readings(answer, i))
NUMBER_OF(reading_value, readings(answer, i)->value[i % result(answer)->log->count])
WORD_OF(reading_flaw, fv_reading_flaw_word((fv_reading_flaw)readings(answer, i)->flaw[i % result(answer)->log->count]))
static const print_field reading_fields[] = {
    WORD("time", IN_DATA, reading_time),
    TEXT(fv_probe_readings, "probe", name, IN_DATA),
    CELL("reading", "_k", IN_DATA, FV_SHOW_NUMBER, reading_value),
    WORD("kept", IN_DATA, reading_flaw),
};

const print_table report_log_tables[LOG_TABLES] = {
    [LOG_PROBES] = {"probes", FIELDS(probe_fields), probe_count, probe_row, NULL},
    [LOG_RULES] = {"rules", FIELDS(rule_fields), rule_count, rule_row, rule},
    [LOG_READINGS] = {"readings", FIELDS(reading_fields), reading_count, reading_row, NULL},
};
