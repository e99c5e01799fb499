/* SPDX-License-Identifier: MIT */
/* A cell whose word could not be made, for want of memory, is no empty cell: text, CSV and JSON fail as a whole. */
#include "print/fields.h"
#include "print/screen.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char *word_of(const void *answer, size_t row, char *buffer)
{
    fv_text text = {0};
    fv_text_add(&text, "%s", row == 0 ? "first" : "second");
    text.failed = *(const bool *)answer && row == 1;
    return print_word_take(&text, buffer);
}
ROWS(rows, 2)
ROW(row, answer)

static const print_field fields[] = {WORD("word", IN_ALL, word_of)};
static const print_table table = {"table", FIELDS(fields), rows, row, row};

static void writes_whole_tables(void **state)
{
    const bool lacks = false;
    fv_text text = {0}, csv = {0};
    (void)state;
    print_table_text(&table, &lacks, FV_METRIC, &text);
    print_table_csv(&table, &lacks, &csv);
    json_t *json = print_table_json(&table, &lacks);
    assert_false(text.failed);
    assert_non_null(strstr(text.text, "second"));
    assert_string_equal(csv.text, "word\nfirst\nsecond\n");
    assert_string_equal(json_string_value(json_object_get(json_array_get(json, 1), "word")), "second");
    json_decref(json);
    fv_text_free(&text);
    fv_text_free(&csv);
}

static void writes_no_part_of_a_table(void **state)
{
    const bool lacks = true;
    fv_text text = {0}, csv = {0};
    (void)state;
    print_table_text(&table, &lacks, FV_METRIC, &text);
    print_table_csv(&table, &lacks, &csv);
    assert_true(text.failed);
    assert_true(csv.failed);
    assert_null(print_table_json(&table, &lacks));
    fv_text_free(&text);
    fv_text_free(&csv);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(writes_whole_tables),
                                       cmocka_unit_test(writes_no_part_of_a_table)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
