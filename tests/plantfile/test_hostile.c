/* SPDX-License-Identifier: MIT */
/* Files made to hurt: depth, size, floods of elements, attributes, faults; and plants that are just large. All must end
 * soon, with a message, and leave nothing behind (run with SAN=1). */
#include "farvessel/plantfile.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#define HEAD "<network xmlns=\"" FV_PLANTFILE_NAMESPACE "\">\n"
#define BOILER "<boiler id=\"b\" at=\"n0\" output=\"30 kW\" relief=\"0.5 bar\"/>\n"
#define KIND                                                                                                           \
    "<kind id=\"k\"><coil bore=\"27 mm\" length=\"3 m\" holes=\"30\" drill=\"2 mm\"/><drain diameter=\"25 "            \
    "mm\"/></kind>\n"

static void add(fv_text *text, const char *piece, size_t times)
{
    for (size_t i = 0; i < times; i++)
        fv_text_add(text, "%s", piece);
}

static void refused(fv_text *text, const fv_plantfile_limits *limits, const char *message)
{
    fv_faults *faults = fv_faults_new();
    clock_t begin = clock();
    assert_false(text->failed);
    fv_plant *plant = fv_plantfile_read_memory(text->text, text->length, "hostile.xml", limits, faults);
    double seconds = (double)(clock() - begin) / CLOCKS_PER_SEC;
    assert_null(plant);
    bool said = false;
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        said = said || strstr(fv_faults_at(faults, i)->text, message);
    if (!said)
        for (size_t i = 0; i < fv_faults_count(faults) && i < 5; i++)
            printf("%d: %s\n", fv_faults_at(faults, i)->line, fv_faults_at(faults, i)->text);
    assert_true(said);
    assert_true(fv_faults_count(faults) < 1200);
    print_message("%s: %.1f MiB, %.2f s\n", message, (double)text->length / 1048576.0, seconds);
    assert_true(seconds < 20.0); /* seconds alone, on a slow machine, with a sanitizer */
    fv_faults_free(faults);
    fv_text_free(text);
}

static void deep_nesting_is_refused(void **state)
{
    (void)state;
    fv_text text = {0};
    add(&text, HEAD, 1);
    add(&text, "<kind>", 100000);
    refused(&text, NULL, "elements more than 32 deep inside each other");
}

static void many_elements_are_refused(void **state)
{
    (void)state;
    fv_text text = {0};
    add(&text, HEAD, 1);
    add(&text, "<drip/>\n", 300000);
    add(&text, "</network>", 1);
    refused(&text, NULL, "more than 50000 elements");
}

static void many_faults_are_cut_short(void **state)
{
    (void)state;
    fv_text text = {0};
    add(&text, HEAD, 1);
    add(&text, "<x/>\n", 24000);
    add(&text, "<site/>\n", 24000);
    add(&text, "</network>", 1);
    refused(&text, NULL, "more than 500 faults; the rest is not listed");
    add(&text, HEAD BOILER, 1);
    for (int i = 0; i < 4000; i++) /* dead ends without a length, faults of linking */
        fv_text_add(&text, "<hose id=\"s%d\" from=\"a%d\" to=\"b%d\" bore=\"2 m\"/>\n", 4000 - i, i, i);
    add(&text, "</network>", 1);
    refused(&text, NULL, "more than 500 faults; the rest is not listed");
}

static void long_tags_are_refused(void **state)
{
    (void)state;
    fv_text text = {0};
    add(&text, HEAD "<drip", 1);
    for (int i = 0; i < 1000000; i++)
        fv_text_add(&text, " a%d=''", i);
    add(&text, "/></network>", 1);
    refused(&text, NULL, "a tag of more than 8192 characters");
    add(&text, "<network title=\"", 1);
    add(&text, "0123456789abcdef", 900000);
    refused(&text, NULL, "a tag of more than 8192 characters");
    /* Just below the limit, as often as it goes. */
    add(&text, HEAD, 1);
    for (int tag = 0; tag < 1500; tag++) {
        fv_text_add(&text, "<drip");
        for (int i = 0; i < 100; i++)
            fv_text_add(&text, " a%d=''", i);
        fv_text_add(&text, "/>\n");
    }
    add(&text, "</network>", 1);
    refused(&text, NULL, "more than 500 faults");
}

static void big_files_are_refused(void **state)
{
    (void)state;
    fv_text text = {0};
    add(&text, HEAD, 1);
    add(&text, "                                                                \n", 270000);
    add(&text, "</network>", 1);
    refused(&text, NULL, "longer than the limit of 16777216 bytes");
    add(&text, HEAD "<!--", 1);
    add(&text, "word ", 3000000);
    add(&text, "--></network>", 1);
    refused(&text, NULL, "there is no boiler"); /* a long comment is no crime */
    add(&text, HEAD "<![CDATA[", 1);
    add(&text, "word ", 1000000);
    add(&text, "]]></network>", 1);
    refused(&text, NULL, "network: stray text 'word word");
}

static void cut_files_are_refused(void **state)
{
    (void)state;
    FILE *f = fopen("networks/mixed.xml", "rb");
    char bytes[16384];
    assert_non_null(f);
    size_t length = fread(bytes, 1, sizeof bytes, f);
    fclose(f);
    size_t last = length;
    while (last > 0 && bytes[last - 1] != '>')
        last--;
    for (size_t n = 0; n < last; n += 7) { /* every seventh place to be cut off at, each byte of one in four turned */
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read_memory(bytes, n, "cut.xml", NULL, faults);
        assert_null(plant);
        assert_true(fv_faults_errors(faults) > 0);
        fv_faults_free(faults);
    }
    unsigned random = 12345;
    for (int i = 0; i < 400; i++) {
        char turned[sizeof bytes];
        memcpy(turned, bytes, length);
        for (int j = 0; j < 3; j++) {
            random = random * 1664525u + 1013904223u;
            turned[(random >> 8) % length] = (char)(random >> 24);
        }
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read_memory(turned, length, "turned.xml", NULL, faults);
        assert_true(plant || fv_faults_errors(faults) > 0);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
}

/* 100 000 vessels: over the usual limits, and read with bigger ones. */
static void a_large_plant_is_read(void **state)
{
    (void)state;
    enum { VESSELS = 100000 };
    fv_text text = {0};
    add(&text, HEAD BOILER KIND, 1);
    for (int i = 0; i < VESSELS; i++)
        fv_text_add(&text,
                    "<header id=\"h%d\" from=\"n%d\" to=\"n%d\" length=\"1 m\" bore=\"100 mm\"/>\n"
                    "<hose id=\"s%d\" from=\"n%d\" to=\"c%d\" length=\"3 m\" bore=\"25 mm\"/>\n"
                    "<vessel id=\"v%d\" like=\"k\" at=\"c%d\"/>\n",
                    i, i, i + 1, i, i + 1, i, i, i);
    add(&text, "</network>\n", 1);
    fv_plantfile_limits limits = fv_plantfile_limits_default();
    limits.bytes_most = 64u << 20;
    limits.elements_most = 1000000;
    limits.lines_most = limits.vessels_most = limits.taken_most = 2 * VESSELS + 1;
    fv_faults *faults = fv_faults_new();
    clock_t begin = clock();
    fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "large.xml", &limits, faults);
    print_message("%d vessels, %.1f MiB: %.2f s\n", VESSELS, (double)text.length / 1048576.0,
                  (double)(clock() - begin) / CLOCKS_PER_SEC);
    assert_non_null(plant);
    assert_int_equal(plant->vessel_count, VESSELS);
    assert_int_equal(plant->vessels[VESSELS - 1]->part.loc.line, 3 + 3 * VESSELS); /* beyond any 16-bit line number */
    fv_plant_free(plant);
    fv_faults_free(faults);
    fv_text_free(&text);
}

static void folders_and_missing_files_are_refused(void **state)
{
    (void)state;
    static const char *const paths[] = {"networks", "networks/none.xml", ""};
    for (size_t i = 0; i < 3; i++) {
        fv_faults *faults = fv_faults_new();
        assert_null(fv_plantfile_read(paths[i], NULL, faults));
        assert_int_equal(fv_faults_errors(faults), 1);
        assert_non_null(strstr(fv_faults_at(faults, 0)->text, "cannot read: "));
        fv_faults_free(faults);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(deep_nesting_is_refused),   cmocka_unit_test(many_elements_are_refused),
        cmocka_unit_test(many_faults_are_cut_short), cmocka_unit_test(long_tags_are_refused),
        cmocka_unit_test(big_files_are_refused),     cmocka_unit_test(cut_files_are_refused),
        cmocka_unit_test(a_large_plant_is_read),     cmocka_unit_test(folders_and_missing_files_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
