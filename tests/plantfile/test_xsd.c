/* SPDX-License-Identifier: MIT */
/* networks/network.xsd, the built-in copy, and what the schema's table and the grammar make must be one text.
 * `test_xsd --write` prints the text: that is how networks/network.xsd is made after a change of the table. */
#include "farvessel/plantfile.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static void schema_agrees_with_the_table(void **state)
{
    (void)state;
    size_t length;
    const char *built_in = fv_plantfile_xsd(&length);
    fv_text made = {0};
    assert_true(fv_plantfile_make_xsd(&made));
    if (made.length != length || memcmp(made.text, built_in, length) != 0)
        print_message("networks/network.xsd is not what the table makes; make it with `test_xsd --write`\n");
    assert_int_equal(made.length, length);
    assert_memory_equal(made.text, built_in, length);
    fv_text_free(&made);
}

static void schema_documents_every_attribute(void **state)
{
    (void)state;
    size_t count, attributes = 0, documents = 0;
    fv_text made = {0};
    assert_true(fv_plantfile_make_xsd(&made));
    const fv_element *all = fv_schema(&count);
    for (size_t i = 0; i < count; i++)
        attributes += all[i].attr_count + 1;
    for (const char *c = made.text; (c = strstr(c, "<xs:documentation>")) != NULL; c++)
        documents++;
    assert_int_equal(documents, attributes + 1);
    fv_text_free(&made);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(schema_agrees_with_the_table),
        cmocka_unit_test(schema_documents_every_attribute),
    };
    if (argc == 2 && strcmp(argv[1], "--write") == 0) {
        fv_text made = {0};
        bool good = fv_plantfile_make_xsd(&made) && fwrite(made.text, 1, made.length, stdout) == made.length;
        fv_text_free(&made);
        return good ? 0 : 1;
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
