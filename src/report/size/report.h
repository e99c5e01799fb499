/* SPDX-License-Identifier: MIT */
/* The size answer in each format, and what its parts share. */
#ifndef REPORT_SIZE_REPORT_H
#define REPORT_SIZE_REPORT_H

#include "farvessel/size.h"
#include "print/show.h"
#include "report/frame.h"

/* ---- size_words.c ---- */
const char *report_size_goal_word(fv_size_goal goal);    /* "time" */
const char *report_size_limit_word(fv_size_limit limit); /* "evenness", for programs */
const char *report_size_limit_unit(fv_size_limit limit); /* end of its key: "_m_s"; "" for plain numbers */
/* "now", "1", "2": the plant as it is is row 0. */
print_shown report_size_choice(size_t row);
/* "fastest, most even"; `gap` between. */
void report_size_marks(unsigned marks, bool words_for_people, const char *gap, fv_text *out);
/* "2 mm holes and 53 mm header"; what changes only; "" for the plant as it is. */
void report_size_what(const fv_size_answer *answer, const fv_size_row *row, fv_unit_system units, fv_text *out);
/* A size as it is bought: "25", "36"; and with its unit, "25 mm". */
print_shown report_size_number(fv_unit_system units, fv_size_part part, double value);
/* Value of a limit for people, with its unit. */
print_shown report_size_limit_shown(fv_unit_system units, fv_size_limit limit, double value);
/* Where a check is worst: id of vessel, line or boiler; "" for none. */
const char *report_size_where(const fv_size_answer *answer, fv_size_limit limit, int at);
/* "bench6 is starved", "the holes of bench1 pass 0.7 of each other, 0.8 is wanted": a limit that is broken. */
void report_size_broken(const fv_size_answer *answer, const fv_size_row *row, fv_size_limit limit, fv_unit_system units,
                        fv_text *out);
/* The first that a row breaks, be it no more than the plant as it is; FV_LIMITS: none. */
fv_size_limit report_size_first_broken(const fv_size_row *row);
/* "707.60 EUR", "at least 129.60 EUR", "no price known". */
print_shown report_size_cost(const fv_size_answer *answer, const fv_size_row *row);

/* ---- size_sentence.c ---- */
void report_size_sentence(const report_frame *frame, fv_text *out);
/* How far the choices were gone through. */
void report_size_search(const fv_size_answer *answer, fv_text *out);

/* ---- size_tables.c: in the order of FV_REPORT_SIZE_TABLES ---- */
enum { SIZE_CHOICES, SIZE_SIZES, SIZE_LIMITS, SIZE_COILS, SIZE_SETTINGS, SIZE_TABLES };
extern const print_table report_size_tables[SIZE_TABLES];

void report_size_lead(const report_frame *frame, fv_text *out);
void report_size_table(const report_frame *frame, fv_text *out);
void report_size_details(const report_frame *frame, fv_text *out);
void report_size_notes(const report_frame *frame, print_notes *notes);
void report_size_json(const report_frame *frame, json_t **root);

#endif
