/* SPDX-License-Identifier: MIT */
/* The forecast in each format, and what its parts share. */
#ifndef REPORT_FORECAST_REPORT_H
#define REPORT_FORECAST_REPORT_H

#include "farvessel/forecast.h"
#include "farvessel/report.h"
#include "print/show.h"
#include "report/frame.h"

typedef struct {
    const fv_forecast_answer *answer;
    fv_unit_system units;
} report_forecast;

void report_forecast_sentence(const report_frame *frame, fv_text *out);
void report_forecast_counts(const report_frame *frame, fv_text *out);
print_shown report_forecast_time(const report_forecast *forecast, double since_lit);

/* ---- tables.c, in the order of FV_REPORT_FORECAST_TABLES ---- */
enum { FORECAST_VESSELS, FORECAST_TABLES };
extern const print_table report_forecast_tables[FORECAST_TABLES];

void report_forecast_lead(const report_frame *frame, fv_text *out);
void report_forecast_table(const report_frame *frame, fv_text *out);
void report_forecast_json(const report_frame *frame, json_t **root);

#endif
