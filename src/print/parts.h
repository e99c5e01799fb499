/* SPDX-License-Identifier: MIT */
/* A walk over everything that a plant consists of, and what is known about its values. */
#ifndef REPORT_PARTS_H
#define REPORT_PARTS_H

#include "farvessel/model.h"
#include "print/names.h"

/* One part as the walk meets it. `owner`: the line, vessel or boiler that it belongs to; `path`: as --set names it. */
typedef struct {
    const fv_element *element;
    const void *part;
    const char *owner;
    const char *path;
} report_part_seen;
typedef bool (*report_part_visit)(void *context, const report_part_seen *seen);
/* Site, boilers, lines and their fittings, tees, vessels and all inside. Kinds are seen through their vessels only; a
 * load or shell that nothing was said about is left out. Stops and returns false when `visit` does. */
bool report_parts_walk(const fv_plant *plant, report_part_visit visit, void *context);

/* Where a value came from, for the list of what is not the user's own measurement. */
typedef enum {
    SAID_DEFAULT, /* the file does not say; the documented default */
    SAID_GUESS,   /* known="guess" */
    SAID_FIXED,   /* a coefficient that the user fixed */
    SAID_LEFT,    /* a coefficient that a correlation or a table supplies */
    SAID_SETTING, /* changed on top of the file */
    SAID_KINDS
} report_said;
const char *report_said_word(report_said said); /* "default", "guess", "fixed", "from_correlation", "setting" */

typedef struct {
    report_said said;
    const char *element; /* "hose" */
    const fv_attr *attr;
    double si;          /* NaN: left open */
    const char *reason; /* what applies where nothing was said, or the source of a default; may be "" */
    report_names owners;
} report_said_row;
typedef struct {
    fv_arena *arena;
    report_said_row *rows;
    size_t row_count, capacity;
    size_t values[SAID_KINDS]; /* single values, not rows */
} report_said_list;

/* Equal values of the same attribute share a row. False: out of memory. Free it in any case. */
bool report_said_collect(const fv_plant *plant, report_said_list *list);
void report_said_free(report_said_list *list);

#endif
