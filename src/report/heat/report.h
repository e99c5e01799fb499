/* SPDX-License-Identifier: MIT */
/* The heat answer in each format, and what its parts share. */
#ifndef REPORT_HEAT_REPORT_H
#define REPORT_HEAT_REPORT_H

#include "farvessel/report.h"
#include "print/clock.h"
#include "report/frame.h"

/* What became of a vessel in the run, the worst first. */
typedef enum {
    OUTCOME_NEVER,   /* its core does not reach the target in the time allowed, nor later */
    OUTCOME_LATE,    /* it does, after the time allowed */
    OUTCOME_UNHELD,  /* it does, but its hold breaks, or ends too early */
    OUTCOME_PENDING, /* the run ended before that could be said */
    OUTCOME_LAGGING,
    OUTCOME_FED,
    OUTCOME_SHUT, /* never on the steam */
    OUTCOMES
} report_outcome;

/* One place that the fuel's heat went to. */
typedef struct {
    const char *item, *what;  /* for programs, for people */
    double heat, heat_at_end; /* J until the last steam was shut, until the end of the run */
    double share;             /* of the heat supplied until the last steam was shut */
} report_heat_share;
enum { HEAT_SHARES = 13 };

typedef struct {
    double fuel_mass, fuel_volume; /* kg; m3 where it is bought so, else NaN */
} report_fuel;

typedef struct {
    const fv_heat_result *result;
    fv_unit_system units;
    print_clock clock;
    const fv_assumed_answer *assumed;   /* which assumptions matter most; NULL: not known */
    const fv_overheat_answer *overheat; /* what keeps loads below their limits; NULL: not known */
    bool with_series;                   /* samples stand in the JSON */
    fv_arena *arena;
    report_outcome *outcomes; /* by vessel */
    const char **why;   /* by vessel: why it is starved, unheld, lagging or not through; NULL: nothing to explain */
    report_fuel *fuels; /* by boiler */
    bool *seen;         /* scratch, by line */
    report_heat_share shares[HEAT_SHARES];
    double supplied; /* J until the last steam was shut */
} report_heat;
/* False: out of memory. Free it in any case. */
bool report_heat_make(const fv_heat_result *result, const fv_report_options *options, report_heat *heat);
void report_heat_free(report_heat *heat);

/* s from the opening of its steam to the core's arrival; NaN. */
double report_heat_took(const report_heat *heat, size_t vessel);
report_outcome report_heat_outcome(const fv_heat_result *result, size_t vessel);
const char *report_outcome_word(report_outcome outcome);  /* for programs: "never", "late", ... */
const char *report_outcome_shown(report_outcome outcome); /* for people: "starved", "hold broken", ... */
bool report_is_bed(const report_heat *heat, size_t vessel);
/* Its chamber takes so much of the time until it is full, or its bed so much longer than with all the steam there is,
 * that steam, not the load, is what is slow. */
bool report_short_of_steam(const report_heat *heat, size_t vessel);

/* ---- path.c: which lines bring a vessel's steam, in the state when steam first flowed ---- */
int report_sag_before(const report_heat *heat, size_t vessel);  /* line with the deepest sag on its way; -1: none */
int report_stop_before(const report_heat *heat, size_t vessel); /* line that lets no steam through to it; -1: none */

/* ---- series.c: the samples ---- */
long report_sample_before(const report_heat *heat, double time); /* the last at or before `time`; -1: none */
double report_series_at(const report_heat *heat, const double *matrix, size_t width, size_t column, double time);

/* ---- words ---- */
print_shown report_target(const report_heat *heat, size_t vessel);
/* Index of the event that set the fire lower last; -1: none. */
int report_turndown_before(const report_heat *heat, double time);
int report_dry_boiler(const report_heat *heat); /* the first that ran dry; -1: none */
/* When its steam first did not cover its losses, though it may have recovered later; NaN. */
double report_starved_at(const report_heat *heat, size_t vessel);
/* What equal reasons have in common is said once; returns how many were left out. */
size_t report_heat_reason_notes(const report_heat *heat, print_notes *notes);
void report_heat_reasons_text(const report_heat *heat, fv_text *out); /* all of them, for the text */
char *report_heat_why(const report_heat *heat, size_t vessel); /* in the arena; NULL: nothing to explain, no memory */
/* Loads above a limit that the file sets, a sentence or two; above their medium's, as a note. */
void report_heat_overheating(const report_heat *heat, fv_text *out);
void report_heat_overheating_notes(const report_heat *heat, print_notes *notes);
void report_heat_sentence(const report_frame *frame, fv_text *out);
void report_event_text(const report_heat *heat, const fv_heat_event *event, const char *names, fv_text *out);
/* A valve that is shut because the hold is done is said with the hold, the cycles of a thermostat in its table. */
bool report_event_is_said(const fv_heat_result *result, size_t i);
const char *report_event_word(fv_heat_event_kind kind);
const char *report_turned_by(const fv_thermostat *thermostat); /* boiler or valve */
const char *report_event_part(const report_heat *heat, const fv_heat_event *event);
void report_heat_notes(const report_frame *frame, print_notes *notes);
double report_heat_steam_gone(const fv_heat_result *result); /* s: the last boiler ran dry for good; INFINITY: never */
/* s: as far as a vessel is drawn whose core never comes: the end of the run, or soon after the last boiler ran dry. */
double report_heat_waits_until(const fv_heat_result *result);
void report_heat_curves(const report_heat *heat, fv_text *out);

/* ---- tables, the first in the order of FV_REPORT_HEAT_TABLES ---- */
enum {
    HEAT_SERIES,
    HEAT_VESSELS,
    HEAT_EVENTS,
    HEAT_SPLIT,
    HEAT_BOILERS,
    HEAT_LINES,
    HEAT_FIRING,
    HEAT_PLANT,
    HEAT_THERMOSTATS,
    HEAT_TABLES,
    HEAT_TIMELINE = HEAT_TABLES, /* text only */
    HEAT_EFFORT,
    HEAT_ALL_TABLES
};
extern const print_table report_heat_tables[HEAT_ALL_TABLES];

void report_heat_lead(const report_frame *frame, fv_text *out);
void report_heat_table(const report_frame *frame, fv_text *out);
void report_heat_reasons(const report_frame *frame, fv_text *out);
void report_heat_details(const report_frame *frame, fv_text *out);
void report_heat_method(const report_frame *frame, fv_text *out);
void report_heat_json(const report_frame *frame, json_t **root);
json_t *report_heat_audit(const report_frame *frame);

#endif
