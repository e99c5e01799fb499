/* SPDX-License-Identifier: MIT */
/* Reading one cell of a table, for the writers. */
#ifndef REPORT_CELLS_H
#define REPORT_CELLS_H

#include "print/table.h"

double report_cell_number(const report_table *table, const report_field *field, const void *answer, size_t row);
size_t report_cell_count(const report_table *table, const report_field *field, const void *answer, size_t row);
bool report_cell_flag(const report_table *table, const report_field *field, const void *answer, size_t row);
/* As people read it, without the unit; it may be written to the buffer. */
const char *report_cell_text(const report_table *table, const report_field *field, const void *answer, size_t row,
                             fv_unit_system units, char buffer[REPORT_WORD_SIZE]);

#endif
