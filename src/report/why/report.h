/* SPDX-License-Identifier: MIT */
/* The why answer in each format, and what its parts share. */
#ifndef REPORT_WHY_REPORT_H
#define REPORT_WHY_REPORT_H

#include "farvessel/report.h"
#include "print/show.h"
#include "report/frame.h"

typedef struct {
    const fv_why_answer *answer;
    fv_unit_system units;
    fv_arena *arena;
    const char **remedies; /* by remedy: what to do, in words */
    const char **commands; /* by remedy: `--set "s6.bore=25 mm" --set ...`, which tries it */
    print_names *parts;    /* by vessel: of its first cause */
} report_why;
/* False: out of memory. Free it in any case. */
bool report_why_make(const fv_why_answer *answer, fv_unit_system units, report_why *why);
void report_why_free(report_why *why);

/* ---- why_words.c ---- */
/* "the header is narrow (h1 to h6, 35 mm)": what the vessel's first cause is. */
void report_why_cause(const report_why *why, size_t vessel, fv_text *out);
/* "the boiler", for what comes next, and for columns. */
const char *report_why_noun(fv_why_cause cause);
/* What it takes: "nothing to buy", "EUR 57", "price not known". */
print_shown report_why_cost(const report_why *why, const fv_why_remedy *remedy);

/* ---- why_sentence.c ---- */
void report_why_sentence(const report_frame *frame, fv_text *out);
/* Lids that the pressure lifts, a hold that breaks: what comes before any next step. Nothing where there is none. */
void report_why_safety(const report_why *why, fv_text *out);
/* What to do next, one sentence; nothing where no step is worth taking. */
void report_why_step(const report_why *why, fv_text *out);
/* "bin4: its core takes ..." */
void report_why_because(const report_why *why, size_t vessel, fv_text *out);
/* ---- why_tables.c, in the order of FV_REPORT_WHY_TABLES ---- */
enum { WHY_VESSELS, WHY_SHARES, WHY_PRESSURE, WHY_REMEDIES, WHY_EFFECTS, WHY_TABLES };
extern const print_table report_why_tables[WHY_TABLES];

void report_why_step_said(const report_frame *frame, fv_text *out);
void report_why_lead(const report_frame *frame, fv_text *out);
void report_why_table(const report_frame *frame, fv_text *out);
void report_why_reasons(const report_frame *frame, fv_text *out);
void report_why_details(const report_frame *frame, fv_text *out);
void report_why_method(const report_frame *frame, fv_text *out);
void report_why_json(const report_frame *frame, json_t **root);

#endif
