/* SPDX-License-Identifier: MIT */
/* The log answer in each format, and what its parts share. */
#ifndef REPORT_LOG_REPORT_H
#define REPORT_LOG_REPORT_H

#include "farvessel/log.h"
#include "farvessel/report.h"
#include "print/show.h"
#include "report/frame.h"

typedef struct {
    const fv_log_answer *answer;
    fv_unit_system units;
} report_log;

/* ---- words.c ---- */
void report_log_sentence(const report_frame *frame, fv_text *out);
/* What was done to the file and which readings were left out; nothing where all is as it was. */
void report_log_told(const report_frame *frame, fv_text *out);
/* What the verdict counts and leaves out. */
void report_log_counts(const report_frame *frame, fv_text *out);
/* "09:44:00", with the day where the log is longer than one. */
print_shown report_log_time(const report_log *log, double time);
/* "bench6, core (p6)". */
print_shown report_log_place(const report_log *log, size_t probe);
const char *report_log_verdict(fv_log_verdict verdict); /* for people */

/* ---- curves.c ---- */
void report_log_curves(const report_log *log, fv_text *out);

/* ---- tables.c, in the order of FV_REPORT_LOG_TABLES ---- */
enum { LOG_PROBES, LOG_RULES, LOG_READINGS, LOG_TABLES };
extern const print_table report_log_tables[LOG_TABLES];

void report_log_lead(const report_frame *frame, fv_text *out);
void report_log_table(const report_frame *frame, fv_text *out);
void report_log_json(const report_frame *frame, json_t **root);

#endif
