/* SPDX-License-Identifier: MIT */
/* The frame that every answer is printed in: which format, what stands first and last, notes, remarks and cautions. A
 * question fills in the rest. */
#ifndef REPORT_FRAME_H
#define REPORT_FRAME_H

#include "farvessel/change.h"
#include "farvessel/lid.h"
#include "print/json.h"
#include "print/notes.h"
#include "print/table.h"
#include "report/choices.h"

#include "farvessel/print.h"

typedef struct report_frame report_frame;
struct report_frame {
    const char *kind;      /* "flow" */
    const fv_plant *plant; /* NULL: a log without one */
    const void *answer;    /* what the tables and the functions below are about */
    fv_unit_system units;
    const fv_faults *remarks;
    const print_table *tables; /* those of CSV; where none is named it gives the first */
    size_t table_count;
    /* What a question has none of is NULL. */
    void (*sentence)(const report_frame *frame, fv_text *out);  /* the answer, which stands first, */
    void (*step)(const report_frame *frame, fv_text *out);      /* what to do next, if anything, */
    void (*lead)(const report_frame *frame, fv_text *out);      /* what it is about, */
    void (*table)(const report_frame *frame, fv_text *out);     /* the table that belongs to it, */
    void (*why)(const report_frame *frame, fv_text *out);       /* why, */
    void (*notes)(const report_frame *frame, print_notes *out); /* what deserves a second look, */
    void (*details)(const report_frame *frame, fv_text *out);   /* all that is left, */
    void (*method)(const report_frame *frame, fv_text *out);    /* and how it was found, or how well it balances */
    void (*json)(const report_frame *frame, json_t **root);     /* what follows for programs */
    /* What the bands of an answer by samples count and leave out. Such an answer says nothing of what no sample bears
     * on, and ends with this, remarks and cautions. */
    void (*counts)(const report_frame *frame, fv_text *out);
    json_t *(*audit)(const report_frame *frame);
    bool notes_for_programs;
    bool no_cautions;           /* nothing that is said has to do with steam that flows */
    bool full_cautions;         /* all their words, not a line for each */
    const report_choices *odds; /* how sure that is, after the table; NULL: not asked */
    const fv_lid_answer *lids;  /* what openings must pass at the worst; NULL: not asked */
    bool brief;                 /* no more than the answer and its table */
};

fv_status report_frame_print(const report_frame *frame, fv_report_format format, const char *table, fv_text *out);
/* A table under its heading; nothing where it has no rows. */
void report_frame_table(const report_frame *frame, size_t table, const char *title, fv_text *out);
/* The same table as a member of an object, under its name. */
void report_frame_table_json(const report_frame *frame, size_t table, json_t **root);
/* What is said, as a member of an object. */
json_t *report_frame_said_json(const report_frame *frame, void (*say)(const report_frame *, fv_text *));

/* What --set takes, one text each. */
json_t *report_settings_json(const fv_plant *plant, const fv_change *change);
/* What --do takes. */
json_t *report_actions_json(const fv_change *change);

#endif
