/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the odds answer. */
#include "report/odds/report.h"
#include "print/fields.h"

#include <math.h>

static const fv_odds_answer *result(const void *answer)
{
    return ((const report_odds *)answer)->answer;
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

#define V(name, unit, member) NUMBER(fv_odds_vessel, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field vessel_fields[] = {
    WORD("vessel", IN_DATA, vessel_id),
    V("core_now", "_s", now),
    V("core_10", "_s", core.low),
    V("core_50", "_s", core.middle),
    V("core_90", "_s", core.high),
    V("core_10_error", "_s", core.low_error),
    V("core_50_error", "_s", core.middle_error),
    V("core_90_error", "_s", core.high_error),
    V("chance_within", "", within),
    V("chance_within_error", "", within_error),
    V("chance_fed", "", verdict[FV_FED]),
    V("chance_lagging", "", verdict[FV_LAGGING]),
    V("chance_starved", "", verdict[FV_STARVED]),
    V("chance_last", "", last),
};

/* ---- inputs ---- */

static size_t input_count(const void *answer)
{
    return result(answer)->unknown_count;
}
static const void *input_row(const void *answer, size_t row)
{
    return &result(answer)->inputs[row];
}
static const fv_unknown *unknown(const void *answer, size_t row)
{
    return &result(answer)->unknowns[result(answer)->inputs[row].unknown];
}
static const char *input_name(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->name;
}
static const char *input_path(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->path;
}
static const char *input_attribute(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->attribute;
}
static const char *input_shape(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return fv_spread_shape_word(unknown(answer, row)->shape);
}
static const char *input_source(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->source;
}
static const char *input_measure(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return unknown(answer, row)->measurement.how;
}
static double input_centre(const void *answer, size_t row)
{
    return unknown(answer, row)->centre;
}
static double input_spread(const void *answer, size_t row)
{
    return unknown(answer, row)->spread;
}
static double input_effort(const void *answer, size_t row)
{
    return unknown(answer, row)->measurement.effort;
}

#define I(name, unit, member) NUMBER(fv_odds_input, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field input_fields[] = {
    WORD("input", IN_DATA, input_name),
    WORD("path", IN_DATA, input_path),
    WORD("attribute", IN_DATA, input_attribute),
    WORD("shape", IN_DATA, input_shape),
    CELL("centre_si", "", IN_DATA, FV_SHOW_NUMBER, input_centre),
    CELL("spread", "", IN_DATA, FV_SHOW_NUMBER, input_spread),
    WORD("source", IN_DATA, input_source),
    I("share_first", "", first),
    I("share_total", "", total),
    I("exact_first", "", exact_first),
    I("exact_total", "", exact_total),
    I("narrows", "_s", narrows),
    WORD("measure", IN_DATA, input_measure),
    CELL("effort", "", IN_DATA, FV_SHOW_NUMBER, input_effort),
    I("worth", "_s", worth),
};

/* ---- places ---- */

static size_t place_count(const void *answer)
{
    return result(answer)->place_count;
}
static const void *place_row(const void *answer, size_t row)
{
    return &result(answer)->places[row];
}
static const char *place_vessel(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->plant->vessels[result(answer)->places[row].vessel]->part.id;
}
static const char *place_at(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->places[row].core ? "core" : "chamber";
}
static const print_field place_fields[] = {
    WORD("vessel", IN_DATA, place_vessel),
    WORD("at", IN_DATA, place_at),
    NUMBER(fv_odds_place, "narrows", narrows, "_s", IN_DATA, FV_SHOW_NUMBER),
};

/* ---- runs: one row a run and vessel ---- */

static size_t run_count(const void *answer)
{
    return result(answer)->runs * result(answer)->plant->vessel_count;
}
static double run_number(const void *answer, size_t row)
{
    return (double)(row / result(answer)->plant->vessel_count);
}
static const char *run_vessel(const void *answer, size_t row, char *buffer)
{
    (void)buffer;
    return result(answer)->plant->vessels[row % result(answer)->plant->vessel_count]->part.id;
}
static double run_core(const void *answer, size_t row)
{
    const double core = result(answer)->core[row];
    return isinf(core) ? NAN : core;
}
static const print_field run_fields[] = {
    CELL("run", "", IN_DATA, FV_SHOW_NUMBER, run_number),
    WORD("vessel", IN_DATA, run_vessel),
    CELL("core", "_s", IN_DATA, FV_SHOW_NUMBER, run_core),
};

const print_table report_odds_tables[ODDS_TABLES] = {
    [ODDS_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, NULL},
    [ODDS_INPUTS] = {"inputs", FIELDS(input_fields), input_count, input_row, NULL},
    [ODDS_PLACES] = {"places", FIELDS(place_fields), place_count, place_row, NULL},
    [ODDS_RUNS] = {"runs", FIELDS(run_fields), run_count, NULL, NULL},
};
