/* SPDX-License-Identifier: MIT */
/* CSV after RFC 4180, with plain line feeds: one heading row with SI units in the names, an empty cell for no value. */
#include "print/cells.h"
#include "print/safe.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What a spreadsheet would take for a formula; a number is none, nor is a dash alone. */
static bool is_formula(const char *word)
{
    char *end;
    if (!word[0] || !word[1] || !strchr("=+-@\t", word[0]))
        return false;
    strtod(word, &end);
    return end == word || *end;
}

void print_csv_word(fv_text *out, const char *word)
{
    fv_text safe = {0};
    if (is_formula(word))
        fv_text_add(&safe, "'");
    print_safe(word, &safe);
    out->failed = out->failed || safe.failed || word == print_no_memory;
    if (!safe.failed && safe.text[strcspn(safe.text, ",\"")]) {
        fv_text_add(out, "\"");
        for (const char *c = safe.text; *c; c++)
            fv_text_add(out, "%s%c", *c == '"' ? "\"" : "", *c);
        fv_text_add(out, "\"");
    } else if (!safe.failed) {
        fv_text_add(out, "%s", safe.text);
    }
    fv_text_free(&safe);
}

/* Blanks between, since no name has one. */
static void names(const print_names *list, fv_text *out)
{
    fv_text joined = {0};
    for (size_t i = 0; i < list->count; i++)
        fv_text_add(&joined, "%s%s", i ? " " : "", list->list[i]);
    print_csv_word(out, joined.text ? joined.text : "");
    out->failed = out->failed || joined.failed;
    fv_text_free(&joined);
}

static void cell(const print_table *table, const print_field *field, const void *answer, size_t row, fv_text *out)
{
    char buffer[PRINT_WORD_SIZE];
    const char *word;
    double number;
    switch (field->kind) {
    case FIELD_TEXT:
    case FIELD_WORD:
        word = print_cell_word(table, field, answer, row, buffer);
        print_csv_word(out, word ? word : "");
        break;
    case FIELD_FLAG:
        fv_text_add(out, print_cell_flag(table, field, answer, row) ? "true" : "false");
        break;
    case FIELD_NAMES:
        names(print_cell_names(table, field, answer, row), out);
        break;
    case FIELD_COUNT:
        fv_text_add(out, "%zu", print_cell_count(table, field, answer, row));
        break;
    default:
        number = print_cell_number(table, field, answer, row);
        if (isfinite(number))                        /* never is no number */
            fv_text_add(out, "%.15g", number + 0.0); /* no -0 */
        break;
    }
}

void print_table_csv(const print_table *table, const void *answer, fv_text *out)
{
    const char *comma = "";
    for (size_t i = 0; i < table->field_count; i++) {
        if (!(table->fields[i].where & IN_DATA))
            continue;
        fv_text_add(out, "%s%s%s", comma, table->fields[i].name, table->fields[i].unit);
        comma = ",";
    }
    fv_text_add(out, "\n");
    for (size_t row = 0; row < table->rows(answer); row++) {
        comma = "";
        for (size_t i = 0; i < table->field_count; i++) {
            if (!(table->fields[i].where & IN_DATA))
                continue;
            fv_text_add(out, "%s", comma);
            cell(table, &table->fields[i], answer, row, out);
            comma = ",";
        }
        fv_text_add(out, "\n");
    }
}
