/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the log answer. */
#include "report/log/report.h"
#include "print/fields.h"

#include <math.h>

static const report_log *of(const void *answer)
{
    return answer;
}
static const fv_log_answer *result(const void *answer)
{
    return of(answer)->answer;
}

/* ---- probes ---- */

static size_t probe_count(const void *answer)
{
    return result(answer)->probe_count;
}
static const void *probe_row(const void *answer, size_t row)
{
    return &result(answer)->probes[row];
}
static const fv_log_probe *probe(const void *answer, size_t row)
{
    return probe_row(answer, row);
}
static const char *probe_name(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return probe(answer, row)->readings.name;
}
static const char *probe_column(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->log->channels[probe(answer, row)->readings.channel].name;
}
static const char *probe_vessel(const void *answer, size_t row, char *buffer)
{
    const int v = probe(answer, row)->readings.vessel;
    (void)buffer;
    return v < 0 ? NULL : result(answer)->plant->vessels[v]->part.id;
}
static const char *probe_at(const void *answer, size_t row, char *buffer)
{
    static const char *const words[] = {"core", "chamber", "air", "depth"};
    (void)buffer;
    return words[probe(answer, row)->readings.at];
}
static const char *probe_verdict(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_log_verdict_word(probe(answer, row)->verdict);
}
/* s since the first row of the log */
static double since(const void *answer, double time)
{
    const fv_logfile *log = result(answer)->log;
    return log->count ? time - log->time[0] : NAN;
}
static double first_at(const void *answer, size_t row)
{
    return since(answer, probe(answer, row)->as_read.first);
}
static double first_low(const void *answer, size_t row)
{
    return since(answer, probe(answer, row)->low.first);
}
static double first_high(const void *answer, size_t row)
{
    return since(answer, probe(answer, row)->high.first);
}

#define P(name, unit, member) NUMBER(fv_log_probe, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field probe_fields[] = {
    WORD("probe", IN_DATA, probe_name),
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
static size_t rule_count(const void *answer)
{
    return result(answer)->probe_count * rules();
}
static const fv_log_rule *rule(size_t row)
{
    size_t count;
    return &fv_log_rules(&count)[row % rules()];
}
static const void *rule_row(const void *answer, size_t row)
{
    return &probe(answer, row / rules())->rules[row % rules()];
}
static const char *rule_probe(const void *answer, size_t row, char *buffer)
{
    return probe_name(answer, row / rules(), buffer);
}
static const char *rule_name(const void *answer, size_t row, char *buffer)
{
    (void)answer;
    (void)buffer;
    return rule(row)->name;
}
static const char *rule_source(const void *answer, size_t row, char *buffer)
{
    (void)answer;
    (void)buffer;
    return rule(row)->source;
}
static const print_field rule_fields[] = {
    WORD("probe", IN_DATA, rule_probe),
    WORD("rule", IN_DATA, rule_name),
    NUMBER(fv_log_rule_share, "done", done, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_log_rule_share, "done_low", low, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("source", IN_DATA, rule_source),
};

/* ---- readings ---- */

static size_t reading_count(const void *answer)
{
    return result(answer)->probe_count * result(answer)->log->count;
}
static const fv_probe_readings *readings(const void *answer, size_t row)
{
    return &probe(answer, row / result(answer)->log->count)->readings;
}
static const char *reading_time(const void *answer, size_t row, char *buffer)
{
    const fv_logfile *log = result(answer)->log;
    return fv_logfile_stamp(log, log->time[row % log->count], buffer, PRINT_WORD_SIZE);
}
static const char *reading_probe(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return readings(answer, row)->name;
}
static double reading_value(const void *answer, size_t row)
{
    return readings(answer, row)->value[row % result(answer)->log->count];
}
static const char *reading_flaw(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_reading_flaw_word((fv_reading_flaw)readings(answer, row)->flaw[row % result(answer)->log->count]);
}
static const print_field reading_fields[] = {
    WORD("time", IN_DATA, reading_time),
    WORD("probe", IN_DATA, reading_probe),
    CELL("reading", "_k", IN_DATA, FV_SHOW_NUMBER, reading_value),
    WORD("kept", IN_DATA, reading_flaw),
};

const print_table report_log_tables[LOG_TABLES] = {
    [LOG_PROBES] = {"probes", FIELDS(probe_fields), probe_count, probe_row, NULL},
    [LOG_RULES] = {"rules", FIELDS(rule_fields), rule_count, rule_row, NULL},
    [LOG_READINGS] = {"readings", FIELDS(reading_fields), reading_count, NULL, NULL},
};
