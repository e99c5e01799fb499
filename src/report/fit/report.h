/* SPDX-License-Identifier: MIT */
/* The fit answer in each format, and what its parts share. */
#ifndef REPORT_FIT_REPORT_H
#define REPORT_FIT_REPORT_H

#include "farvessel/fit.h"
#include "farvessel/report.h"
#include "print/show.h"
#include "report/frame.h"

typedef struct {
    const fv_fit_answer *answer;
    fv_unit_system units;
} report_fit;

/* ---- words.c ---- */
void report_fit_sentence(const report_frame *frame, fv_text *out);
void report_fit_counts(const report_frame *frame, fv_text *out);
/* "the coil of bench3 has a third of its holes clogged": one way to explain the log. */
void report_fit_mode(const report_fit *fit, const fv_fit_mode *mode, fv_text *out);
/* "p6 from 09:40 to 10:05 reads 4.2 K too low: ..." */
void report_fit_stretch(const report_fit *fit, const fv_fit_stretch *stretch, fv_text *out);
/* By the log's clock, "09:44". */
print_shown report_fit_time(const report_fit *fit, double since_lit);

/* ---- tables.c, in the order of FV_REPORT_FIT_TABLES ---- */
enum { FIT_VESSELS, FIT_UNKNOWNS, FIT_PROBES, FIT_INSTRUMENTS, FIT_RESIDUALS, FIT_TABLES };
extern const print_table report_fit_tables[FIT_TABLES];

void report_fit_lead(const report_frame *frame, fv_text *out);
void report_fit_table(const report_frame *frame, fv_text *out);
void report_fit_json(const report_frame *frame, json_t **root);

#endif
