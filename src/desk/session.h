/* SPDX-License-Identifier: MIT */
/* What the files of a session share: its states, and the answers to one of them. */
#ifndef DESK_SESSION_H
#define DESK_SESSION_H

#include "farvessel/desk.h"
#include "farvessel/plantfile.h"
#include "farvessel/report.h"

/* A value that is changed is one edit; parts that come or go are several, with words for the list. */
typedef struct {
    const fv_edit *edits;
    size_t count;
    const char *words;   /* "added: vessel bench7 like bench6, on hose s7 like s6"; NULL: a value */
    const char *command; /* of what was proposed: `--set "s1.bore=25 mm"`; NULL: see its edit */
} desk_change;

/* A state is a list of changes on top of the file as the session found it. */
typedef struct {
    desk_change *changes; /* in the session's arena */
    size_t count;
} desk_state;

typedef struct {
    fv_text text; /* of the plant file */
    fv_plant *plant;
    fv_faults *remarks;
    fv_flow_answer *flow;
    fv_heat_result *heat;
} desk_answers;

/* What one change alone does to the file as it was found, in words. In the session's arena. */
typedef struct {
    const desk_change *change;
    const char *words;
} desk_effect;

struct fv_desk {
    fv_arena *arena;
    fv_desk_options options;
    const char *name; /* of the file, for messages */
    char *began, *saved;
    size_t began_length, saved_length;
    desk_state *states; /* what can be undone, now, what can be redone */
    size_t count, capacity, now;
    desk_answers at_first, at_now; /* of the file as it was found, and as it is changed */
    desk_answers before;           /* the last command; empty: there was none */
    desk_effect *effects;
    size_t effect_count, effect_capacity;
    unsigned long version; /* grows with every change of state */
    fv_text page;          /* the last that was given out */
    fv_text said;          /* why the last request was refused, at which part and attribute, and what was typed there */
    const char *asked[FV_NEW_QUESTIONS]; /* what was typed where there is no plant yet; in the arena */
    fv_new_question wrong_answer;        /* which of them was refused; FV_NEW_QUESTIONS: none */
    char *said_part, *said_attribute, *said_value;
    fv_page_asked asked_of_plant;     /* what: NULL where nothing was; in the arena, as all of it */
    const desk_change *asked_changes; /* by proposal */
    unsigned long asked_version;
    fv_page_sentence said_sentence; /* the form that was refused, in the arena */
};

static inline const desk_state *desk_now(const fv_desk *desk)
{
    return &desk->states[desk->now];
}

/* There is no plant yet. */
static inline bool desk_asks(const fv_desk *desk)
{
    return !desk->at_now.plant;
}

/* One change more, whose edits and words belong to the session's arena. FV_FAIL: said in `faults`, nothing changed. */
fv_status desk_add_change(fv_desk *desk, const desk_change *change, fv_faults *faults);
/* The last change that writes an attribute; the state's count: none does. */
size_t desk_writer(const desk_state *state, const char *part, const char *attribute);
static inline bool desk_is_value(const desk_change *change)
{
    return !change->words;
}

/* Begins with a plant file. False: said in `faults`, and nothing has begun. */
bool desk_begin(fv_desk *desk, const char *bytes, size_t length, bool saved, fv_faults *faults);

/* ---- answers.c ---- */

/* Adds the plant file with all changes of a state. False: said in `faults`. */
bool desk_write(const fv_desk *desk, const desk_state *state, fv_text *text, fv_faults *faults);

/* Reads the text of a state and answers for it. False: said in `faults`, and there is nothing to free. */
bool desk_answers_make(const fv_desk *desk, const desk_state *state, desk_answers *answers, fv_faults *faults);
void desk_answers_free(desk_answers *answers);

/* ---- effects.c ---- */

/* What a change does alone; NULL: not worked out. */
const char *desk_effect_of(const fv_desk *desk, const desk_change *change);
/* Works that out for all changes, or for one only. */
fv_status desk_effects(fv_desk *desk, bool all, fv_faults *faults);

/* ---- asked.c ---- */

/* "why", "size", "carry" or "plan" of the plant as it stands. FV_FAIL: said in `faults`. */
fv_status desk_ask(fv_desk *desk, const char *what, fv_faults *faults);
/* What that proposed becomes a change. */
fv_status desk_try(fv_desk *desk, size_t proposal, fv_faults *faults);

/* ---- fields.c ---- */

typedef struct {
    fv_arena *arena;
    fv_page_field *fields;
    size_t count, capacity;
    bool failed;
} desk_fields;
/* What can be written over, in the file's order. False: out of memory. Free it in any case. */
bool desk_fields_make(const fv_desk *desk, desk_fields *fields);
void desk_fields_free(desk_fields *fields);
/* What stands in the file as the session found it; NULL: nothing. In `arena`. */
const char *desk_typed(const fv_source *source, const char *part, const char *attribute, fv_arena *arena);

/* ---- form.c ---- */

/* A value of a form as browsers send it, "do=set&value=25+mm", in `arena`; NULL: not there, or no UTF-8. */
const char *desk_form_value(const char *form, size_t length, const char *name, fv_arena *arena);

#endif
