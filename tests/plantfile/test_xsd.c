/* SPDX-License-Identifier: MIT */
/* networks/network.xsd, the built-in copy, and what the schema's tables make must be one text; and what
 * reading accepts the XSD must allow, since reading does without it.
 * `test_xsd --write` prints the text: that is how networks/network.xsd is made after a change of the table. */
#include "plantfile/against_xsd.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { FILE_MOST = 1 << 16 };

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
    assert_int_equal(documents, attributes + 2); /* known and spread */
    fv_text_free(&made);
}

static char *load(const char *path, size_t *length)
{
    FILE *f = fopen(path, "rb");
    char *bytes = malloc(FILE_MOST);
    assert_true(f && bytes);
    *length = fread(bytes, 1, FILE_MOST, f);
    assert_true(*length > 0 && *length < FILE_MOST);
    fclose(f);
    return bytes;
}

/* Whether reading accepts the bytes; if so the XSD must allow them. */
static bool accepted(xmlSchemaPtr schema, const char *bytes, size_t length)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(bytes, length, "x.xml", NULL, faults);
    bool good = plant != NULL;
    if (good && !xsd_allows(schema, bytes, length))
        fail_msg("reading accepts what the XSD refuses:\n%.*s", (int)length, bytes);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return good;
}

/* The bundled plants, and each with a piece of it gone, twice there, or spelt otherwise. */
static void what_is_read_the_xsd_allows(void **state)
{
    (void)state;
    static const char *const files[] = {"networks/hand.xml", "networks/mixed.xml", "networks/turndown-trap.xml"};
    enum { PIECES = 300 };
    xmlSchemaPtr schema = xsd_load();
    size_t good = 0, all = 0;
    assert_non_null(schema);
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        size_t length;
        char *bytes = load(files[i], &length), *changed = malloc(2 * length);
        assert_non_null(changed);
        assert_true(accepted(schema, bytes, length));
        for (size_t k = 0; k < PIECES; k++) {
            const size_t from = k * length / PIECES, piece = 1 + k * 7 % 60;
            const size_t to = from + piece < length ? from + piece : length;
            const size_t resume = k % 3 == 0 ? to : from + (k % 3 == 2);
            memcpy(changed, bytes, to);
            if (k % 3 == 0)
                memcpy(changed + from, bytes + to, length - to);
            else
                memcpy(changed + to, bytes + resume, length - resume);
            const size_t size = (k % 3 == 0 ? from : to) + length - resume;
            if (k % 3 == 2)
                changed[from] = changed[from] == ' ' ? '_' : ' ';
            good += accepted(schema, changed, size);
            all++;
        }
        free(changed);
        free(bytes);
    }
    xmlSchemaFree(schema);
    print_message("%zu changed files, %zu of them read\n", all, good);
    assert_true(good > all / 20 && good < all);
}

/* The XSD by itself does refuse: what is misspelt, missing, misplaced or no word. */
static void the_xsd_refuses(void **state)
{
    (void)state;
    static const char *const files[] = {"tests/bad/attribute-misspelt.xml", "tests/bad/id-missing.xml",
                                        "tests/bad/element-misplaced.xml", "tests/bad/xsi-other.xml"};
    xmlSchemaPtr schema = xsd_load();
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        size_t length;
        char *bytes = load(files[i], &length);
        if (xsd_allows(schema, bytes, length))
            fail_msg("the XSD allows %s", files[i]);
        free(bytes);
    }
    xmlSchemaFree(schema);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(schema_agrees_with_the_table),
        cmocka_unit_test(schema_documents_every_attribute),
        cmocka_unit_test(what_is_read_the_xsd_allows),
        cmocka_unit_test(the_xsd_refuses),
    };
    if (argc == 2 && strcmp(argv[1], "--write") == 0) {
        fv_text made = {0};
        bool good = fv_plantfile_make_xsd(&made) && fwrite(made.text, 1, made.length, stdout) == made.length;
        fv_text_free(&made);
        return good ? 0 : 1;
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
