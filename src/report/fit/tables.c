/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the fit answer. */
#include "report/fit/report.h"
#include "print/fields.h"

#include <math.h>

static const fv_fit_answer *result(const void *answer)
{
    return ((const report_fit *)answer)->answer;
}

/* ---- vessels ---- */

static size_t vessel_count(const void *answer)
{
    return result(answer)->plant->vessel_count;
}
static const void *vessel_row(const void *answer, size_t row)
{
    return &result(answer)->vessels[row];
}
static const char *vessel_id(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->plant->vessels[row]->part.id;
}

static const print_field vessel_fields[] = {
    WORD("vessel", IN_DATA, vessel_id),
    NUMBER(fv_fit_vessel, "core_10", core.low, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "core_50", core.middle, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "core_90", core.high, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "hold_10", hold.low, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "hold_50", hold.middle, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "hold_90", hold.high, "_s", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "chance_done", chance, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "chance_within", within, "", IN_DATA, FV_SHOW_NUMBER),
};

/* ---- unknowns ---- */

static size_t unknown_count(const void *answer)
{
    return result(answer)->unknown_count;
}
static const void *unknown_row(const void *answer, size_t row)
{
    return &result(answer)->unknowns[row];
}
static const fv_unknown *unknown(const void *answer, size_t row)
{
    return &result(answer)->unknown_list[row];
}
static const char *unknown_name(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->name;
}
static const char *unknown_path(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->path;
}
static const char *unknown_attribute(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->attribute;
}
static const char *unknown_learnt(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_learnt_word(result(answer)->unknowns[row].learnt);
}
static const char *unknown_pair(const void *answer, size_t row, char *buffer)
{
    const int pair = result(answer)->unknowns[row].pair;
    (void)buffer;
    return pair < 0 ? NULL : unknown(answer, (size_t)pair)->name;
}
static double unknown_centre(const void *answer, size_t row)
{
    return unknown(answer, row)->centre;
}
#define U(name, member) NUMBER(fv_fit_unknown, name, member, "", IN_DATA, FV_SHOW_NUMBER)
static const print_field unknown_fields[] = {
    WORD("input", IN_DATA, unknown_name),
    WORD("path", IN_DATA, unknown_path),
    WORD("attribute", IN_DATA, unknown_attribute),
    CELL("file_si", "", IN_DATA, FV_SHOW_NUMBER, unknown_centre),
    U("prior_10_si", prior_low),
    U("prior_90_si", prior_high),
    U("value_10_si", low),
    U("value_50_si", middle),
    U("value_90_si", high),
    U("narrower", narrower),
    WORD("learnt", IN_DATA, unknown_learnt),
    WORD("pair", IN_DATA, unknown_pair),
    U("pair_correlation", pair_correlation),
};

/* ---- probes ---- */

static size_t probe_count(const void *answer)
{
    return result(answer)->probe_count;
}
static const void *probe_row(const void *answer, size_t row)
{
    return &result(answer)->probes[row];
}
static const char *probe_name(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->cleaned[row].readings.name;
}
#define P(name, unit, member) NUMBER(fv_fit_probe, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field probe_fields[] = {
    WORD("probe", IN_DATA, probe_name),
    COUNT(fv_fit_probe, "used", used, IN_DATA),
    P("rms", "_k", rms),
    P("offset", "_k", offset),
    P("offset_error", "_k", offset_error),
    P("noise", "_k", noise),
    P("autocorrelation", "", autocorrelation),
    P("runs_score", "", runs),
};

/* ---- residuals: one row a probe and row of the log ---- */

static size_t residual_count(const void *answer)
{
    return result(answer)->probe_count * result(answer)->log->count;
}
static size_t probe_of(const void *answer, size_t row)
{
    return row / result(answer)->log->count;
}
static size_t row_of(const void *answer, size_t row)
{
    return row % result(answer)->log->count;
}
static const char *residual_time(const void *answer, size_t row, char *buffer)
{
    const fv_logfile *log = result(answer)->log;
    return fv_logfile_stamp(log, log->time[row_of(answer, row)], buffer, PRINT_WORD_SIZE);
}
static const char *residual_probe(const void *answer, size_t row, char *buffer)
{
    return probe_name(answer, probe_of(answer, row), buffer);
}
static double residual_reading(const void *answer, size_t row)
{
    return result(answer)->cleaned[probe_of(answer, row)].readings.value[row_of(answer, row)];
}
static double residual_model(const void *answer, size_t row)
{
    const fv_fit_probe *p = &result(answer)->probes[probe_of(answer, row)];
    return p->model[row_of(answer, row)] + (isnan(p->offset) ? 0 : p->offset);
}
static const char *residual_flaw(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_reading_flaw_word(
        (fv_reading_flaw)result(answer)->cleaned[probe_of(answer, row)].readings.flaw[row_of(answer, row)]);
}
static const print_field residual_fields[] = {
    WORD("time", IN_DATA, residual_time),
    WORD("probe", IN_DATA, residual_probe),
    CELL("reading", "_k", IN_DATA, FV_SHOW_NUMBER, residual_reading),
    CELL("model", "_k", IN_DATA, FV_SHOW_NUMBER, residual_model),
    WORD("kept", IN_DATA, residual_flaw),
};

const print_table report_fit_tables[FIT_TABLES] = {
    [FIT_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, NULL},
    [FIT_UNKNOWNS] = {"unknowns", FIELDS(unknown_fields), unknown_count, unknown_row, NULL},
    [FIT_PROBES] = {"probes", FIELDS(probe_fields), probe_count, probe_row, NULL},
    [FIT_RESIDUALS] = {"residuals", FIELDS(residual_fields), residual_count, NULL, NULL},
};
