/* SPDX-License-Identifier: MIT */
/* What is known about the values that a plant consists of. */
#ifndef PRINT_SAID_H
#define PRINT_SAID_H

#include "farvessel/model.h"
#include "print/names.h"

/* Where a value came from, for the list of what is not the user's own measurement. */
typedef enum {
    SAID_DEFAULT, /* the file does not say; the documented default */
    SAID_GUESS,   /* known="guess" */
    SAID_FIXED,   /* a coefficient that the user fixed */
    SAID_LEFT,    /* a coefficient that a correlation or a table supplies */
    SAID_SETTING, /* changed on top of the file */
    SAID_KINDS
} print_said;
const char *print_said_word(print_said said); /* "default", "guess", "fixed", "from_correlation", "setting" */

typedef struct {
    print_said said;
    const char *element; /* "hose" */
    const fv_attr *attr;
    double si;          /* NaN: left open */
    const char *reason; /* what applies where nothing was said, or the source of a default; may be "" */
    print_names owners;
} print_said_row;
typedef struct {
    fv_arena *arena;
    print_said_row *rows;
    size_t row_count, capacity;
    size_t values[SAID_KINDS]; /* single values, not rows */
} print_said_list;

/* Equal values of the same attribute share a row. False: out of memory. Free it in any case. */
bool print_said_collect(const fv_plant *plant, print_said_list *list);
void print_said_free(print_said_list *list);

#endif
