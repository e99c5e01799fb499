/* SPDX-License-Identifier: MIT */
/* What deserves a second look: one note per subject, with all parts it is about. */
#ifndef PRINT_NOTES_H
#define PRINT_NOTES_H

#include "farvessel/steady.h"
#include "farvessel/units.h"
#include "print/names.h"

#include <jansson.h>

typedef struct {
    const char *id;   /* stable, for programs */
    const char *text; /* one or more sentences */
    print_names parts;
} print_note;

typedef struct {
    fv_arena *arena;
    print_note *notes;
    size_t count, capacity;
    bool failed;
} print_notes;

void print_notes_free(print_notes *notes);
/* Starts a note; its parts follow with print_note_part. */
void print_note_add(print_notes *notes, const char *id, const char *fmt, ...) FV_PRINTF(3, 4);
/* Adds to the last note. The name must live as long as the list. */
void print_note_part(print_notes *notes, const char *part);

/* What is guessed, changed on top of the file, and left to defaults and correlations. */
void print_note_sources(const fv_plant *plant, print_notes *notes);

void print_notes_text(const print_notes *notes, fv_text *out);
json_t *print_notes_json(const print_notes *notes);
/* Adds a remark, and in one breath all others that say the same of other parts, and its place in the file ("line 10 and
 * 4 more"; none: nothing). False: it was said before. */
bool print_remark(const fv_faults *remarks, size_t i, fv_unit_system units, fv_text *place, fv_text *out);
/* Cautions that lower floors left, with their place in the file. */
void print_remarks_text(const fv_faults *remarks, fv_unit_system units, fv_text *out);
json_t *print_remarks_json(const fv_faults *remarks);

#endif
