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

ROWS(vessel_count, result(answer)->plant->vessel_count)
ROW(vessel_row, &result(answer)->vessels[i])
ROW(vessel, result(answer)->plant->vessels[i])

static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    BAND(fv_fit_vessel, "core", core, "_s"),
    BAND(fv_fit_vessel, "hold", hold, "_s"),
    NUMBER(fv_fit_vessel, "chance_done", chance, "", IN_DATA, FV_SHOW_NUMBER),
    NUMBER(fv_fit_vessel, "chance_within", within, "", IN_DATA, FV_SHOW_NUMBER),
};

/* ---- unknowns ---- */

ROWS(unknown_count, result(answer)->unknown_count)
ROW(unknown_row, &result(answer)->unknowns[i])
ROW(unknown, &result(answer)->unknown_list[i])
WORD_OF(unknown_learnt, fv_learnt_word(result(answer)->unknowns[i].learnt))
static const char *unknown_pair(const void *answer, size_t row, char *buffer)
{
    const int pair = result(answer)->unknowns[row].pair;
    (void)buffer;
    return pair < 0 ? NULL : result(answer)->unknown_list[pair].name;
}
#define U(name, member) NUMBER(fv_fit_unknown, name, member, "", IN_DATA, FV_SHOW_NUMBER)
static const print_field unknown_fields[] = {
    PART_TEXT(fv_unknown, "input", name, IN_DATA),
    PART_TEXT(fv_unknown, "path", path, IN_DATA),
    PART_TEXT(fv_unknown, "attribute", attribute, IN_DATA),
    PART_NUMBER(fv_unknown, "file_si", centre, "", IN_DATA, FV_SHOW_NUMBER),
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

ROWS(probe_count, result(answer)->probe_count)
ROW(probe_row, &result(answer)->probes[i])
ROW(probe, &result(answer)->cleaned[i])
#define P(name, unit, member) NUMBER(fv_fit_probe, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field probe_fields[] = {
    PART_TEXT(fv_log_probe, "probe", readings.name, IN_DATA),
    COUNT(fv_fit_probe, "used", used, IN_DATA),
    P("rms", "_k", rms),
    P("offset", "_k", offset),
    P("offset_error", "_k", offset_error),
    P("others_offset", "_k", others),
    P("others_offset_error", "_k", others_error),
    P("departs_score", "", departs),
    P("noise", "_k", noise),
    P("autocorrelation", "", autocorrelation),
    P("runs_score", "", runs),
};

/* ---- gauges and meters: Pa and kg ---- */

ROWS(instrument_count, result(answer)->instrument_count)
ROW(instrument_row, &result(answer)->probes[result(answer)->probe_count + i])
ROW(instrument, &result(answer)->cleaned[result(answer)->probe_count + i])
WORD_OF(instrument_reads,
        ((const fv_log_probe *)instrument(answer, i))->readings.reads == FV_READS_WATER ? "water_kg" : "pressure_pa")
static const print_field instrument_fields[] = {
    PART_TEXT(fv_log_probe, "instrument", readings.name, IN_DATA),
    WORD("reads", IN_DATA, instrument_reads),
    COUNT(fv_fit_probe, "used", used, IN_DATA),
    P("rms_si", "", rms),
    P("offset_si", "", offset),
    P("offset_error_si", "", offset_error),
    P("noise_si", "", noise),
};

/* ---- residuals: one row a probe and row of the log ---- */

ROWS(residual_count, result(answer)->probe_count *result(answer)->log->count)
ROW(residual_row, &result(answer)->probes[i / result(answer)->log->count])
ROW(residual_probe, &result(answer)->cleaned[i / result(answer)->log->count])
static size_t place(const void *answer, size_t row)
{
    return row % result(answer)->log->count;
}
static const fv_probe_readings *readings(const void *answer, size_t row)
{
    return &((const fv_log_probe *)residual_probe(answer, row))->readings;
}
static const char *residual_time(const void *answer, size_t row, char *buffer)
{
    const fv_logfile *log = result(answer)->log;
    return fv_logfile_stamp(log, log->time[place(answer, row)], buffer, PRINT_WORD_SIZE);
}
NUMBER_OF(residual_reading, readings(answer, i)->value[place(answer, i)])
static double residual_model(const void *answer, size_t row)
{
    const fv_fit_probe *p = residual_row(answer, row);
    return p->model[place(answer, row)] + (isnan(p->offset) ? 0 : p->offset);
}
WORD_OF(residual_flaw, fv_reading_flaw_word((fv_reading_flaw)readings(answer, i)->flaw[place(answer, i)]))
static const print_field residual_fields[] = {
    WORD("time", IN_DATA, residual_time),
    PART_TEXT(fv_log_probe, "probe", readings.name, IN_DATA),
    CELL("reading", "_k", IN_DATA, FV_SHOW_NUMBER, residual_reading),
    CELL("model", "_k", IN_DATA, FV_SHOW_NUMBER, residual_model),
    WORD("kept", IN_DATA, residual_flaw),
};

const print_table report_fit_tables[FIT_TABLES] = {
    [FIT_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, vessel},
    [FIT_UNKNOWNS] = {"unknowns", FIELDS(unknown_fields), unknown_count, unknown_row, unknown},
    [FIT_PROBES] = {"probes", FIELDS(probe_fields), probe_count, probe_row, probe},
    [FIT_INSTRUMENTS] = {"instruments", FIELDS(instrument_fields), instrument_count, instrument_row, instrument},
    [FIT_RESIDUALS] = {"residuals", FIELDS(residual_fields), residual_count, residual_row, residual_probe},
};
