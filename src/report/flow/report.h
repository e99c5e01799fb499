/* SPDX-License-Identifier: MIT */
/* The flow answer in each format, and what its parts share. */
#ifndef REPORT_FLOW_REPORT_H
#define REPORT_FLOW_REPORT_H

#include "farvessel/steady.h"
#include "report/frame.h"

/* In the order of FV_REPORT_FLOW_TABLES. */
enum { FLOW_VESSELS, FLOW_LINES, FLOW_BOILERS, FLOW_JOINTS, FLOW_HOLES, FLOW_TURNDOWN, FLOW_PLANT, FLOW_TABLES };
extern const print_table report_flow_tables[FLOW_TABLES];

/* The phase in which flow took this vessel: its own if it is shut, else that of the options, else its own. */
fv_phase report_vessel_phase(const fv_flow_answer *answer, size_t vessel);
const char *report_phase_word(fv_phase phase);
const char *report_predicted_word(const fv_vessel_result *vessel); /* its verdict, or "unsettled" */
const char *report_boiler_word(fv_boiler_state state);
/* The first sentence of the answer, in words that a grower uses. */
void report_flow_sentence(const report_frame *frame, fv_text *out);
/* Which vessel drops out first when the fire is turned down. */
void report_dropout_sentence(const fv_flow_answer *answer, fv_unit_system units, fv_text *out);

void report_flow_notes(const report_frame *frame, print_notes *notes);
void report_flow_lead(const report_frame *frame, fv_text *out);
void report_flow_table(const report_frame *frame, fv_text *out);
void report_flow_reasons(const report_frame *frame, fv_text *out);
void report_flow_details(const report_frame *frame, fv_text *out);
void report_flow_method(const report_frame *frame, fv_text *out);
void report_flow_json(const report_frame *frame, json_t **root);
json_t *report_flow_audit(const report_frame *frame);

#endif
