/* SPDX-License-Identifier: MIT */
/* Tables as arrays of JSON objects. */
#include "print/cells.h"
#include "print/json.h"

#include <stdio.h>

static json_t *cell(const print_table *table, const print_field *field, const void *answer, size_t row)
{
    char buffer[PRINT_WORD_SIZE];
    const char *word;
    switch (field->kind) {
    case FIELD_TEXT:
    case FIELD_WORD:
        word = print_cell_word(table, field, answer, row, buffer);
        return word == print_no_memory ? NULL : print_json_word(word);
    case FIELD_FLAG:
        return json_boolean(print_cell_flag(table, field, answer, row));
    case FIELD_NAMES:
        return print_json_names(print_cell_names(table, field, answer, row));
    case FIELD_COUNT:
        return json_integer((json_int_t)print_cell_count(table, field, answer, row));
    default:
        return print_json_number(print_cell_number(table, field, answer, row));
    }
}

json_t *print_row_json(const print_table *table, const void *answer, size_t row)
{
    json_t *object = json_object();
    char key[PRINT_WORD_SIZE];
    for (size_t i = 0; object && i < table->field_count; i++) {
        const print_field *field = &table->fields[i];
        if (!(field->where & IN_DATA))
            continue;
        snprintf(key, sizeof key, "%s%s", field->name, field->unit);
        print_json_set(&object, key, cell(table, field, answer, row));
    }
    return object;
}

json_t *print_table_json(const print_table *table, const void *answer)
{
    json_t *array = json_array();
    for (size_t row = 0; array && row < table->rows(answer); row++)
        print_json_append(&array, print_row_json(table, answer, row));
    return array;
}
