/* SPDX-License-Identifier: MIT */
/* Floor 9: a plant that is made by answering questions. No file is read or written here. */
#ifndef FARVESSEL_DESK_H
#define FARVESSEL_DESK_H

#include "farvessel/base.h"
#include "farvessel/units.h"

/* The questions, in the order in which they are asked. */
typedef enum {
    FV_NEW_UNITS,
    FV_NEW_BOILER,
    FV_NEW_HEADER,
    FV_NEW_VESSELS,
    FV_NEW_HOSE,
    FV_NEW_COIL,
    FV_NEW_LOAD,
    FV_NEW_WALLS,
    FV_NEW_QUESTIONS
} fv_new_question;

typedef struct {
    const char *name;     /* "boiler", as the option --boiler */
    const char *question; /* in a grower's words */
    const char *parts;    /* what an answer holds, in its order */
    const char *example;  /* in the units asked for; also what is taken where nobody knows */
} fv_new_words;
fv_new_words fv_new_words_of(fv_new_question question, fv_unit_system units);

typedef struct fv_new fv_new;
/* Nothing is known yet; `title` may be NULL. NULL: out of memory. */
fv_new *fv_new_begin(const char *title);
void fv_new_free(fv_new *plant);
/* Takes an answer: parts joined by commas ("19 mm, 3 m, 9 m"), or numbers alone joined by blanks, in the units that the
 * question names ("19 3 9"). Empty: nobody knows; the example is taken and marked as a guess. FV_FAIL: nothing changes,
 * and what is wrong is in faults, one line. */
fv_status fv_new_answer(fv_new *plant, fv_new_question question, const char *text, fv_faults *faults);
fv_unit_system fv_new_units(const fv_new *plant);
/* Adds the plant file: commented, as a person would write it. Questions without an answer count as not known. */
void fv_new_write(const fv_new *plant, fv_text *out);

#endif
