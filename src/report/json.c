/* SPDX-License-Identifier: MIT */
/* Tables as JSON objects. Jansson's packing functions take what they are given and release it when they fail, so a
 * NULL anywhere ends as a NULL root, and that alone is tested. */
#include "report/cells.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

json_t *report_json_number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

json_t *report_json_word(const char *word)
{
    json_t *text = word ? json_string(word) : NULL;
    return text ? text : json_null();
}

static json_t *cell(const report_table *table, const report_field *field, const void *answer, size_t row)
{
    char buffer[REPORT_WORD_SIZE];
    switch (field->kind) {
    case FIELD_WORD:
        return report_json_word(field->word(answer, row, buffer));
    case FIELD_FLAG:
        return json_boolean(report_cell_flag(table, field, answer, row));
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
        if (json_object_set_new(object, key, cell(table, field, answer, row)) != 0) {
            json_decref(object);
            return NULL;
        }
    }
    return object;
}

json_t *report_table_json(const report_table *table, const void *answer)
{
    json_t *array = json_array();
    for (size_t row = 0; array && row < table->rows(answer); row++) {
        if (json_array_append_new(array, report_row_json(table, answer, row)) != 0) {
            json_decref(array);
            return NULL;
        }
    }
    return array;
}

fv_status report_json_finish(json_t *root, fv_text *out)
{
    char *text = root ? json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(15)) : NULL;
    json_decref(root);
    if (text)
        fv_text_add(out, "%s\n", text);
    else
        out->failed = true;
    free(text);
    return out->failed ? FV_FAIL : FV_OK;
}
