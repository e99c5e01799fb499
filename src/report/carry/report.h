/* SPDX-License-Identifier: MIT */
/* The carry answer in each format, and what its parts share. */
#ifndef REPORT_CARRY_REPORT_H
#define REPORT_CARRY_REPORT_H

#include "farvessel/carry.h"
#include "print/show.h"
#include "report/frame.h"

/* ---- carry_words.c ---- */
const char *report_carry_manner_word(fv_carry_manner manner); /* "together", "with work" */
const char *report_carry_manner_key(fv_carry_manner manner);  /* for programs: "with_work" */
/* Whether a batch of this manner is one of its own. */
bool report_carry_has(const fv_carry_row *row, fv_carry_manner manner);
/* "the boiler's output", "the header", ...: what limits, for people. */
const char *report_carry_limit_shown(fv_carry_limit limit);
const char *report_carry_vessel(const fv_plant *plant, int vessel); /* id; "" for none */
/* "a fourth", "an 18th" */
print_shown report_carry_one_more(size_t count);
/* "36 kW boiler in place of boiler", "25 mm of lagging" */
void report_carry_way(const fv_carry_way *way, fv_unit_system units, fv_text *out);

/* ---- carry_sentence.c ---- */
void report_carry_sentence(const report_frame *frame, fv_text *out);

/* ---- carry_tables.c: the first in the order of FV_REPORT_CARRY_TABLES ---- */
enum { CARRY_COUNTS, CARRY_VESSELS, CARRY_HOLDING, CARRY_WAYS, CARRY_TABLES };
extern const print_table report_carry_tables[CARRY_TABLES];

void report_carry_lead(const report_frame *frame, fv_text *out);
void report_carry_table(const report_frame *frame, fv_text *out);
void report_carry_details(const report_frame *frame, fv_text *out);
void report_carry_notes(const report_frame *frame, print_notes *notes);
void report_carry_json(const report_frame *frame, json_t **root);

#endif
