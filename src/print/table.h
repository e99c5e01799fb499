/* SPDX-License-Identifier: MIT */
/* One description of each table serves text, JSON and CSV, so that a number has one name everywhere. */
#ifndef PRINT_TABLE_H
#define PRINT_TABLE_H

#include "farvessel/base.h"
#include "farvessel/units.h"
#include "print/names.h"

#include <jansson.h>

/* What a cell is, numbers first, and where it comes from: a member of the row or of its part, or a function. */
typedef enum {
    FIELD_NUMBER, /* double */
    FIELD_VALUE,  /* fv_value: its number */
    FIELD_COLUMN, /* double *, with a number for each row */
    FIELD_CELL,   /* double, from `number` */
    FIELD_COUNT,  /* size_t */
    FIELD_FLAG,   /* bool */
    FIELD_TEXT,   /* const char * */
    FIELD_WORD,   /* const char *, from `word` */
    FIELD_NAMES   /* print_names */
} print_field_kind;
/* IN_TEXT_SAID: words, in the text only where a row has any. */
enum { IN_DATA = 1, IN_TEXT = 2, IN_ALL = 3, IN_TEXT_SAID = 4 };
enum { PRINT_WORD_SIZE = 256 };

/* The word of a cell where memory lacked for it: what it is written to then fails. */
extern const char print_no_memory[];
/* Takes a cell's word into its buffer, and frees the text. */
const char *print_word_take(fv_text *text, char buffer[PRINT_WORD_SIZE]);

/* Written with the macros of print/fields.h. */
typedef struct {
    const char *name; /* words joined by '_'; heading of the text, beginning of the key */
    const char *unit; /* SI, end of the key: "_kg_s"; "" for plain numbers and words */
    unsigned where;
    print_field_kind kind;
    fv_show show;
    bool of_part; /* a member of the part that the row is about, not of the row */
    size_t offset;
    double (*number)(const void *answer, size_t row);
    const char *(*word)(const void *answer, size_t row, char buffer[PRINT_WORD_SIZE]); /* may write to the buffer */
} print_field;

static inline bool print_field_is_number(const print_field *field)
{
    return field->kind <= FIELD_COUNT;
}

typedef struct {
    const char *name; /* key in the JSON, word of --table */
    const print_field *fields;
    size_t field_count;
    size_t (*rows)(const void *answer);
    const void *(*row)(const void *answer, size_t row);  /* NULL: nothing is known in this row */
    const void *(*part)(const void *answer, size_t row); /* of the plant, or what else the row is about */
} print_table;

void print_table_text(const print_table *table, const void *answer, fv_unit_system units, fv_text *out);
void print_table_csv(const print_table *table, const void *answer, fv_text *out);
json_t *print_table_json(const print_table *table, const void *answer); /* array; NULL: out of memory */
json_t *print_row_json(const print_table *table, const void *answer, size_t row);

/* Quoted where the comma or a quote asks for it; with an apostrophe before what a spreadsheet would take for a formula.
 */
void print_csv_word(fv_text *out, const char *word);

#endif
