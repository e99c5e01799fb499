/* SPDX-License-Identifier: MIT */
/* Reading one cell of a table, for the writers. */
#ifndef PRINT_CELLS_H
#define PRINT_CELLS_H

#include "print/table.h"

double print_cell_number(const print_table *table, const print_field *field, const void *answer, size_t row);
size_t print_cell_count(const print_table *table, const print_field *field, const void *answer, size_t row);
bool print_cell_flag(const print_table *table, const print_field *field, const void *answer, size_t row);
const char *print_cell_word(const print_table *table, const print_field *field, const void *answer, size_t row,
                            char buffer[PRINT_WORD_SIZE]);
const print_names *print_cell_names(const print_table *table, const print_field *field, const void *answer, size_t row);
/* Whether the column stands in the text. */
bool print_cell_is_shown(const print_table *table, const print_field *field, const void *answer);
/* As people read it, without the unit; it may be written to the buffer. */
const char *print_cell_text(const print_table *table, const print_field *field, const void *answer, size_t row,
                            fv_unit_system units, char buffer[PRINT_WORD_SIZE]);

#endif
