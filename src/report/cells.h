/* SPDX-License-Identifier: MIT */
/* Reading one cell of a table, for the writers. */
#ifndef REPORT_CELLS_H
#define REPORT_CELLS_H

#include "report/table.h"

double report_cell_number(const report_table *table, const report_field *field, const void *answer, size_t row);
size_t report_cell_count(const report_table *table, const report_field *field, const void *answer, size_t row);
bool report_cell_flag(const report_table *table, const report_field *field, const void *answer, size_t row);

#endif
