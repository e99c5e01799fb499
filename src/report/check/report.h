/* SPDX-License-Identifier: MIT */
/* The check answer in each format, and what its parts share. */
#ifndef REPORT_CHECK_REPORT_H
#define REPORT_CHECK_REPORT_H

#include "farvessel/assumed.h"
#include "farvessel/steady.h"
#include "print/said.h"
#include "report/frame.h"

/* In the order of FV_REPORT_CHECK_TABLES. */
enum { CHECK_VALUES, CHECK_VESSELS, CHECK_JOINTS, CHECK_MATTERS, CHECK_TABLES };
extern const print_table report_check_tables[CHECK_TABLES];

/* What these tables are made from. */
typedef struct {
    const fv_check_answer *answer;
    const fv_assumed_answer *assumed; /* NULL: not known */
    print_said_list said;
    print_names *joints; /* the parts that meet at each node, in said.arena */
    fv_unit_system units;
} report_check;
/* False: out of memory. Free it in any case. */
bool report_check_make(const fv_check_answer *answer, const fv_report_options *options, report_check *check);
void report_check_free(report_check *check);

void report_check_reasons(const report_frame *frame, fv_text *out);
void report_check_table(const report_frame *frame, fv_text *out);
void report_check_details(const report_frame *frame, fv_text *out);
void report_check_json(const report_frame *frame, json_t **root);

#endif
