/* SPDX-License-Identifier: MIT */
/* The cells of a table, and its text. */
#include "print/cells.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

double print_cell_number(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    if (field->number)
        return field->number(answer, row);
    const char *part = table->row(answer, row);
    return part ? *(const double *)(const void *)(part + field->offset) : (double)NAN;
}

size_t print_cell_count(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    const char *part = table->row(answer, row);
    return part ? *(const size_t *)(const void *)(part + field->offset) : 0;
}

bool print_cell_flag(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    const char *part = table->row(answer, row);
    return part && *(const bool *)(const void *)(part + field->offset);
}

static const char *few_names(const print_names *names, char buffer[PRINT_WORD_SIZE])
{
    enum { FEW = 3 };
    print_names_print(names, FEW, buffer, PRINT_WORD_SIZE);
    return buffer;
}

const char *print_cell_text(const print_table *table, const print_field *field, const void *answer, size_t row,
                            fv_unit_system units, char buffer[PRINT_WORD_SIZE])
{
    switch (field->kind) {
    case FIELD_WORD:
        return field->word(answer, row, buffer);
    case FIELD_FLAG:
        return print_cell_flag(table, field, answer, row) ? "yes" : "";
    case FIELD_NAMES:
        return few_names(field->names(answer, row), buffer);
    case FIELD_COUNT:
        snprintf(buffer, PRINT_WORD_SIZE, "%zu", print_cell_count(table, field, answer, row));
        return buffer;
    default:
        return fv_show_number(units, field->show, print_cell_number(table, field, answer, row), buffer,
                              PRINT_WORD_SIZE);
    }
}

enum { MOST_FIELDS = 40 };

void print_table_text(const print_table *table, const void *answer, fv_unit_system units, fv_text *out)
{
    print_grid_column columns[MOST_FIELDS];
    const print_field *fields[MOST_FIELDS];
    size_t count = 0;
    for (size_t i = 0; i < table->field_count && count < MOST_FIELDS; i++) {
        const print_field *field = &table->fields[i];
        if (!(field->where & IN_TEXT))
            continue;
        bool word = field->kind != FIELD_NUMBER && field->kind != FIELD_COUNT;
        columns[count] = (print_grid_column){field->name, word ? "" : fv_show_unit(units, field->show), word};
        fields[count++] = field;
    }
    print_grid *grid = print_grid_new(columns, count);
    char buffer[PRINT_WORD_SIZE];
    for (size_t row = 0; row < table->rows(answer); row++)
        for (size_t i = 0; i < count; i++)
            print_grid_add(grid, print_cell_text(table, fields[i], answer, row, units, buffer));
    print_grid_print(grid, out);
    print_grid_free(grid);
}
