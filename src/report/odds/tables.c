/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the odds answer. */
#include "report/odds/report.h"
#include "print/fields.h"

static const fv_odds_answer *result(const void *answer)
{
    return ((const report_odds *)answer)->answer;
}

/* ---- vessels ---- */

ROWS(vessel_count, result(answer)->plant->vessel_count)
ROW(vessel_row, &result(answer)->vessels[i])
ROW(vessel, result(answer)->plant->vessels[i])

#define V(name, unit, member) NUMBER(fv_odds_vessel, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
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

ROWS(input_count, result(answer)->unknown_count)
ROW(input_row, &result(answer)->inputs[i])
ROW(input_unknown, &result(answer)->unknowns[result(answer)->inputs[i].unknown])
WORD_OF(input_shape, fv_spread_shape_word(((const fv_unknown *)input_unknown(answer, i))->shape))

#define I(name, unit, member) NUMBER(fv_odds_input, name, member, unit, IN_DATA, FV_SHOW_NUMBER)
static const print_field input_fields[] = {
    PART_TEXT(fv_unknown, "input", name, IN_DATA),
    PART_TEXT(fv_unknown, "path", path, IN_DATA),
    PART_TEXT(fv_unknown, "attribute", attribute, IN_DATA),
    WORD("shape", IN_DATA, input_shape),
    PART_NUMBER(fv_unknown, "centre_si", centre, "", IN_DATA, FV_SHOW_NUMBER),
    PART_NUMBER(fv_unknown, "spread", spread, "", IN_DATA, FV_SHOW_NUMBER),
    PART_TEXT(fv_unknown, "source", source, IN_DATA),
    I("share_first", "", first),
    I("share_total", "", total),
    I("exact_first", "", exact_first),
    I("exact_total", "", exact_total),
    I("narrows", "_s", narrows),
    PART_TEXT(fv_unknown, "measure", measurement.how, IN_DATA),
    PART_NUMBER(fv_unknown, "effort", measurement.effort, "", IN_DATA, FV_SHOW_NUMBER),
    I("worth", "_s", worth),
};

/* ---- places ---- */

ROWS(place_count, result(answer)->place_count)
ROW(place_row, &result(answer)->places[i])
ROW(place_vessel, vessel(answer, (size_t)result(answer)->places[i].vessel))
WORD_OF(place_at, result(answer)->places[i].core ? "core" : "chamber")
static const print_field place_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    WORD("at", IN_DATA, place_at),
    NUMBER(fv_odds_place, "narrows", narrows, "_s", IN_DATA, FV_SHOW_NUMBER),
};

/* ---- runs: one row a run and vessel ---- */

ROWS(run_count, result(answer)->runs *result(answer)->plant->vessel_count)
NUMBER_OF(run_number, (double)(i / result(answer)->plant->vessel_count))
ROW(run_vessel, vessel(answer, i % result(answer)->plant->vessel_count))
NUMBER_OF(run_core, result(answer)->core[i])
static const print_field run_fields[] = {
    CELL("run", "", IN_DATA, FV_SHOW_NUMBER, run_number),
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    CELL("core", "_s", IN_DATA, FV_SHOW_NUMBER, run_core),
};

const print_table report_odds_tables[ODDS_TABLES] = {
    [ODDS_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_count, vessel_row, vessel},
    [ODDS_INPUTS] = {"inputs", FIELDS(input_fields), input_count, input_row, input_unknown},
    [ODDS_PLACES] = {"places", FIELDS(place_fields), place_count, place_row, place_vessel},
    [ODDS_RUNS] = {"runs", FIELDS(run_fields), run_count, NULL, run_vessel},
};
