/* SPDX-License-Identifier: MIT */
/* The week answer in each format, and what its parts share. */
#ifndef REPORT_WEEK_REPORT_H
#define REPORT_WEEK_REPORT_H

#include "farvessel/report.h"
#include "print/table.h"
#include "report/frame.h"

enum { REPORT_WEEK_WHICH = 96 };
/* The same task on several vessels of one kind at the same time is one line. */
typedef struct {
    const char *day, *task;
    char which[REPORT_WEEK_WHICH]; /* of unlike vessels, by kind; else empty */
    double begins, takes;          /* s after midnight; s */
    size_t vessels, people;
    size_t day_number;
} report_week_line;

typedef struct {
    const fv_week_answer *answer;
    fv_unit_system units;
    bool twelve_hours;
    report_week_line *lines;
    size_t line_count;
    report_week_line *groups; /* the same for people: days that are alike stand once, "Tue-Sat" */
    size_t group_count;
    char days[7][8]; /* their names */
} report_week;
/* False: out of memory. Free it in any case. */
bool report_week_make(const fv_week_answer *answer, const fv_report_options *options, report_week *week);
void report_week_free(report_week *week);

/* "07:15" */
const char *report_week_time(const report_week *week, double begins, char *buffer, size_t size);
/* "Wed 07:15", s from Monday's midnight */
const char *report_week_when(const report_week *week, double s, char *buffer, size_t size);

/* "one more vessel", "an hour more in the evening" */
/* What vessels of a kind are called; which are in a batch, "2 x box, tank". Where all are alike, nothing. */
const char *report_week_kind(const fv_week_answer *answer, size_t kind, char *buffer, size_t size);
const char *report_week_batch(const fv_week_answer *answer, size_t batch, char *buffer, size_t size);
const char *report_week_more(const report_week *week, fv_week_more more, char buffer[PRINT_WORD_SIZE]);
/* What the times of the batches' table are, and that none is a clearance. */
void report_week_times(fv_unit_system units, fv_text *out);

enum {
    WEEK_TIMETABLE,
    WEEK_BATCHES,
    WEEK_GAINS,
    WEEK_BOUNDS,
    WEEK_SPREAD,
    WEEK_TABLES,
    WEEK_GROUPS = WEEK_TABLES,
    WEEK_ALL_TABLES
};
/* In the order of FV_REPORT_WEEK_TABLES; the last one is for text alone. */
extern const print_table report_week_tables[WEEK_ALL_TABLES];

void report_week_sentence(const report_frame *frame, fv_text *out);
void report_week_lead(const report_frame *frame, fv_text *out);
void report_week_table(const report_frame *frame, fv_text *out);
void report_week_details(const report_frame *frame, fv_text *out);
void report_week_notes(const report_frame *frame, print_notes *notes);
void report_week_json(const report_frame *frame, json_t **root);

#endif
