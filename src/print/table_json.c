/* SPDX-License-Identifier: MIT */
/* Tables as arrays of JSON objects. */
#include "print/cells.h"
#include "print/json.h"

#include <stdio.h>

static json_t *cell(const report_table *table, const report_field *field, const void *answer, size_t row)
{
    char buffer[REPORT_WORD_SIZE];
    switch (field->kind) {
    case FIELD_WORD:
        return report_json_word(field->word(answer, row, buffer));
    case FIELD_FLAG:
        return json_boolean(report_cell_flag(table, field, answer, row));
    case FIELD_NAMES:
        return report_json_names(field->names(answer, row));
    case FIELD_COUNT:
        return json_integer((json_int_t)report_cell_count(table, field, answer, row));
    default:
        return report_json_number(report_cell_number(table, field, answer, row));
    }
}

json_t *report_row_json(const report_table *table, const void *answer, size_t row)
{
    json_t *object = json_object();
    char key[REPORT_WORD_SIZE];
    for (size_t i = 0; object && i < table->field_count; i++) {
        const report_field *field = &table->fields[i];
        if (!(field->where & IN_DATA))
            continue;
        snprintf(key, sizeof key, "%s%s", field->name, field->unit);
        report_json_set(&object, key, cell(table, field, answer, row));
    }
    return object;
}

json_t *report_table_json(const report_table *table, const void *answer)
{
    json_t *array = json_array();
    for (size_t row = 0; array && row < table->rows(answer); row++)
        report_json_append(&array, report_row_json(table, answer, row));
    return array;
}
