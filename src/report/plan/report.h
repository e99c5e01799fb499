/* SPDX-License-Identifier: MIT */
/* The plan answer in each format, and what its parts share. */
#ifndef REPORT_PLAN_REPORT_H
#define REPORT_PLAN_REPORT_H

#include "farvessel/plan.h"
#include "print/clock.h"
#include "report/frame.h"

typedef struct {
    const fv_plan_answer *answer;
    fv_unit_system units;
    print_clock clock; /* of the lighting */
    size_t *vessels;   /* those on the steam, in room of the report's */
    size_t vessel_count;
} report_plan;
/* False: out of memory. Free it in any case. */
bool report_plan_make(const fv_plan_answer *answer, const fv_report_options *options, report_plan *plan);
void report_plan_free(report_plan *plan);

/* ---- words.c ---- */
/* "as it is", "hands alone", "boiler: 48 kW instead of 36 kW, and hands" */
void report_plan_name(const report_plan *plan, const fv_plan_row *row, fv_text *out);
/* "EUR 57", "0", "?" */
print_shown report_plan_money(const report_plan *plan, const fv_plan_row *row);

void report_plan_sentence(const report_frame *frame, fv_text *out);

/* ---- tables.c: in the order of FV_REPORT_PLAN_TABLES ---- */
enum { PLAN_PLANS, PLAN_STEPS, PLAN_VESSELS, PLAN_TABLES };
extern const print_table report_plan_tables[PLAN_TABLES];

void report_plan_table(const report_frame *frame, fv_text *out);
void report_plan_details(const report_frame *frame, fv_text *out);
void report_plan_notes(const report_frame *frame, print_notes *notes);
void report_plan_method(const report_frame *frame, fv_text *out);
void report_plan_json(const report_frame *frame, json_t **root);

#endif
