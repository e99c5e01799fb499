/* SPDX-License-Identifier: MIT */
/* A walk over everything that a plant consists of, and what is known about its values. */
#ifndef PRINT_PARTS_H
#define PRINT_PARTS_H

#include "farvessel/model.h"
#include "print/names.h"

/* One part as the walk meets it. `owner`: the line, vessel or boiler that it belongs to; `path`: as --set names it. */
typedef struct {
    const fv_element *element;
    const void *part;
    const char *owner;
    const char *path;
} print_part_seen;
typedef bool (*print_part_visit)(void *context, const print_part_seen *seen);
/* Site, boilers, lines and their fittings, tees, vessels and all inside. Kinds are seen through their vessels only; a
 * load or shell that nothing was said about is left out. Stops and returns false when `visit` does. */
bool print_parts_walk(const fv_plant *plant, print_part_visit visit, void *context);

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
