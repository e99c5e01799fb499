/* SPDX-License-Identifier: MIT */
/* The cells of a table, and its text. */
#include "print/cells.h"
#include "print/screen.h"

#include "farvessel/model.h"

#include <math.h>
#include <stdio.h>

/* The member that a field names; NULL where the row has none. */
static const void *member(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    const char *from = (field->of_part ? table->part : table->row)(answer, row);
    return from ? from + field->offset : NULL;
}

double print_cell_number(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    if (field->kind == FIELD_CELL)
        return field->number(answer, row);
    const void *place = member(table, field, answer, row);
    if (!place)
        return (double)NAN;
    return field->kind == FIELD_VALUE    ? ((const fv_value *)place)->v
           : field->kind == FIELD_COLUMN ? (*(double *const *)place)[row]
                                         : *(const double *)place;
}

size_t print_cell_count(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    const size_t *place = member(table, field, answer, row);
    return place ? *place : 0;
}

bool print_cell_flag(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    const bool *place = member(table, field, answer, row);
    return place && *place;
}

const char *print_cell_word(const print_table *table, const print_field *field, const void *answer, size_t row,
                            char buffer[PRINT_WORD_SIZE])
{
    if (field->kind == FIELD_WORD)
        return field->word(answer, row, buffer);
    const void *place = member(table, field, answer, row);
    return place ? *(const char *const *)place : NULL;
}

const print_names *print_cell_names(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    return member(table, field, answer, row);
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
    case FIELD_TEXT:
    case FIELD_WORD:
        return print_cell_word(table, field, answer, row, buffer);
    case FIELD_FLAG:
        return print_cell_flag(table, field, answer, row) ? "yes" : "";
    case FIELD_NAMES:
        return few_names(print_cell_names(table, field, answer, row), buffer);
    case FIELD_COUNT:
        snprintf(buffer, PRINT_WORD_SIZE, "%zu", print_cell_count(table, field, answer, row));
        return buffer;
    default:
        return fv_show_number(units, field->show, print_cell_number(table, field, answer, row), buffer,
                              PRINT_WORD_SIZE);
    }
}

bool print_cell_is_shown(const print_table *table, const print_field *field, const void *answer)
{
    bool shown = field->where & IN_TEXT;
    char buffer[PRINT_WORD_SIZE];
    for (size_t row = 0; field->where & IN_TEXT_SAID && !shown && row < table->rows(answer); row++) {
        const char *word = print_cell_word(table, field, answer, row, buffer);
        shown = word && word[0];
    }
    return shown;
}

enum { MOST_FIELDS = 40 };

void print_table_text(const print_table *table, const void *answer, fv_unit_system units, fv_text *out)
{
    print_grid_column columns[MOST_FIELDS];
    const print_field *fields[MOST_FIELDS];
    size_t count = 0;
    for (size_t i = 0; i < table->field_count && count < MOST_FIELDS; i++) {
        const print_field *field = &table->fields[i];
        if (!print_cell_is_shown(table, field, answer))
            continue;
        bool number = print_field_is_number(field);
        columns[count] = (print_grid_column){field->name, number ? fv_show_unit(units, field->show) : "", !number};
        fields[count++] = field;
    }
    print_grid *grid = print_grid_new(columns, count);
    char buffer[PRINT_WORD_SIZE];
    for (size_t row = 0; row < table->rows(answer); row++)
        for (size_t i = 0; i < count; i++)
            print_grid_add(grid, print_cell_text(table, fields[i], answer, row, units, buffer));
    print_grid_print(grid, out);
}
