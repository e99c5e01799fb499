/* SPDX-License-Identifier: MIT */
/* One description of each table serves text, JSON and CSV, so that a number has one name everywhere. */
#ifndef PRINT_TABLE_H
#define PRINT_TABLE_H

#include "farvessel/base.h"
#include "farvessel/units.h"
#include "print/names.h"

#include <jansson.h>

typedef enum { FIELD_NUMBER, FIELD_COUNT, FIELD_FLAG, FIELD_WORD, FIELD_NAMES } print_field_kind;
enum { IN_DATA = 1, IN_TEXT = 2, IN_ALL = 3 };
enum { PRINT_WORD_SIZE = 256 };

typedef struct {
    const char *name; /* words joined by '_'; heading of the text, beginning of the key */
    const char *unit; /* SI, end of the key: "_kg_s"; "" for plain numbers and words */
    unsigned where;
    print_field_kind kind;
    fv_show show;
    size_t offset; /* in the struct of the row: double, size_t or bool */
    /* Instead of the offset. Words may be written to the buffer. */
    double (*number)(const void *answer, size_t row);
    const char *(*word)(const void *answer, size_t row, char buffer[PRINT_WORD_SIZE]);
    const print_names *(*names)(const void *answer, size_t row);
} print_field;

typedef struct {
    const char *name; /* key in the JSON, word of --table */
    const print_field *fields;
    size_t field_count;
    size_t (*rows)(const void *answer);
    const void *(*row)(const void *answer, size_t row); /* NULL: no numbers in this row */
} print_table;

void print_table_text(const print_table *table, const void *answer, fv_unit_system units, fv_text *out);
void print_table_csv(const print_table *table, const void *answer, fv_text *out);
json_t *print_table_json(const print_table *table, const void *answer); /* array; NULL: out of memory */
json_t *print_row_json(const print_table *table, const void *answer, size_t row);

/* Quoted where the comma or a quote asks for it. */
void print_csv_word(fv_text *out, const char *word);

#endif
