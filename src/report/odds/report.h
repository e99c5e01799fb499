/* SPDX-License-Identifier: MIT */
/* The odds answer in each format, and what its parts share. */
#ifndef REPORT_ODDS_REPORT_H
#define REPORT_ODDS_REPORT_H

#include "farvessel/odds.h"
#include "farvessel/report.h"
#include "print/clock.h"
#include "report/frame.h"

typedef struct {
    const fv_odds_answer *answer;
    print_clock clock;
} report_odds;

/* ---- words.c ---- */
void report_odds_sentence(const report_frame *frame, fv_text *out);
/* What the bands count and what they leave out; one paragraph. */
void report_odds_counts(const report_frame *frame, fv_text *out);
/* "8 %", "2 K", "factor 2": how wide an unknown is. */
print_shown report_unknown_spread(const fv_unknown *unknown);
/* "19:25", "13:07" without a clock, "never". */
print_shown report_odds_time(const report_odds *odds, double time);
print_shown report_odds_minutes(double seconds);
/* "63 %"; chances next to none or all as such. */
print_shown report_chance(double chance);

/* ---- tables.c, in the order of FV_REPORT_ODDS_TABLES ---- */
enum { ODDS_VESSELS, ODDS_INPUTS, ODDS_PLACES, ODDS_RUNS, ODDS_TABLES };
extern const print_table report_odds_tables[ODDS_TABLES];

/* What measuring the unknown at place `i` of the order takes, and what that does to the band of the last core. False:
 * it narrows it by less than a minute. */
bool report_odds_measure(const fv_odds_answer *answer, size_t i, fv_text *what, fv_text *effect);

void report_odds_lead(const report_frame *frame, fv_text *out);
void report_odds_table(const report_frame *frame, fv_text *out);
void report_odds_json(const report_frame *frame, json_t **root);

#endif
