/* SPDX-License-Identifier: MIT */
/* The cost answer in each format. */
#ifndef REPORT_COST_REPORT_H
#define REPORT_COST_REPORT_H

#include "farvessel/report.h"
#include "print/table.h"
#include "report/frame.h"

typedef struct {
    const fv_cost_answer *answer;
    fv_unit_system units;
    const char *currency; /* " EUR", or "" */
} report_cost;

enum { COST_ITEMS, COST_BATCHES, COST_TABLES }; /* in the order of FV_REPORT_COST_TABLES */
extern const print_table report_cost_tables[COST_TABLES];

/* "12.30 EUR", "-" */
const char *report_cost_money(const report_cost *cost, double money, char *buffer, size_t size);

void report_cost_sentence(const report_frame *frame, fv_text *out);
void report_cost_table(const report_frame *frame, fv_text *out);
void report_cost_details(const report_frame *frame, fv_text *out);
void report_cost_notes(const report_frame *frame, print_notes *notes);
void report_cost_json(const report_frame *frame, json_t **root);

#endif
