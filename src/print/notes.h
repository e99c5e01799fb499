/* SPDX-License-Identifier: MIT */
/* What deserves a second look: one note per subject, with all parts it is about. */
#ifndef REPORT_NOTES_H
#define REPORT_NOTES_H

#include "farvessel/steady.h"
#include "farvessel/units.h"
#include "print/names.h"

#include <jansson.h>

typedef struct {
    const char *id;   /* stable, for programs */
    const char *text; /* one or more sentences */
    report_names parts;
} report_note;

typedef struct {
    fv_arena *arena;
    report_note *notes;
    size_t count, capacity;
    bool failed;
} report_notes;

void report_notes_free(report_notes *notes);
/* Starts a note; its parts follow with report_note_part. */
void report_note_add(report_notes *notes, const char *id, const char *fmt, ...) FV_PRINTF(3, 4);
/* Adds to the last note. The name must live as long as the list. */
void report_note_part(report_notes *notes, const char *part);

/* What is guessed, changed on top of the file, and left to defaults and correlations. */
void report_note_sources(const fv_plant *plant, report_notes *notes);
/* The notes of a flow answer. */
void report_flow_notes(const fv_flow_answer *answer, fv_unit_system units, report_notes *notes);

void report_notes_text(const report_notes *notes, fv_text *out);
json_t *report_notes_json(const report_notes *notes);
/* True of a caution that was not given before: every solve of a study says the same again. */
bool report_is_remark(const fv_faults *remarks, size_t i);
/* Cautions that lower floors left, with their place in the file. */
void report_remarks_text(const fv_faults *remarks, fv_unit_system units, fv_text *out);
json_t *report_remarks_json(const fv_faults *remarks);

#endif
