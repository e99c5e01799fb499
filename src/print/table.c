/* SPDX-License-Identifier: MIT */
/* The cells of a table, and its text. */
#include "print/cells.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

double report_cell_number(const report_table *table, const report_field *field, const void *answer, size_t row)
{
    if (field->number)
        return field->number(answer, row);
    const char *part = table->row(answer, row);
    return part ? *(const double *)(const void *)(part + field->offset) : (double)NAN;
}

size_t report_cell_count(const report_table *table, const report_field *field, const void *answer, size_t row)
{
    const char *part = table->row(answer, row);
    return part ? *(const size_t *)(const void *)(part + field->offset) : 0;
}

bool report_cell_flag(const report_table *table, const report_field *field, const void *answer, size_t row)
{
    const char *part = table->row(answer, row);
    return part && *(const bool *)(const void *)(part + field->offset);
}

static const char *few_names(const report_names *names, char buffer[REPORT_WORD_SIZE])
{
    enum { FEW = 3 };
    report_names_print(names, FEW, buffer, REPORT_WORD_SIZE);
    return buffer;
}

const char *report_cell_text(const report_table *table, const report_field *field, const void *answer, size_t row,
                             fv_unit_system units, char buffer[REPORT_WORD_SIZE])
{
    switch (field->kind) {
    case FIELD_WORD:
        return field->word(answer, row, buffer);
    case FIELD_FLAG:
        return report_cell_flag(table, field, answer, row) ? "yes" : "";
    case FIELD_NAMES:
        return few_names(field->names(answer, row), buffer);
    case FIELD_COUNT:
        snprintf(buffer, REPORT_WORD_SIZE, "%zu", report_cell_count(table, field, answer, row));
        return buffer;
    default:
        return fv_show_number(units, field->show, report_cell_number(table, field, answer, row), buffer,
                              REPORT_WORD_SIZE);
    }
}

enum { MOST_FIELDS = 40 };

void report_table_text(const report_table *table, const void *answer, fv_unit_system units, fv_text *out)
{
    report_grid_column columns[MOST_FIELDS];
    const report_field *fields[MOST_FIELDS];
    size_t count = 0;
    for (size_t i = 0; i < table->field_count && count < MOST_FIELDS; i++) {
        const report_field *field = &table->fields[i];
        if (!(field->where & IN_TEXT))
            continue;
        bool word = field->kind != FIELD_NUMBER && field->kind != FIELD_COUNT;
        columns[count] = (report_grid_column){field->name, word ? "" : fv_show_unit(units, field->show), word};
        fields[count++] = field;
    }
    report_grid *grid = report_grid_new(columns, count);
    char buffer[REPORT_WORD_SIZE];
    for (size_t row = 0; row < table->rows(answer); row++)
        for (size_t i = 0; i < count; i++)
            report_grid_add(grid, report_cell_text(table, fields[i], answer, row, units, buffer));
    report_grid_print(grid, out);
    report_grid_free(grid);
}
