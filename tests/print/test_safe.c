/* SPDX-License-Identifier: MIT */
/* Text made safe for a terminal, cells for a spreadsheet, words for a shell. What counts as a control character:
 * ISO/IEC 6429 (C0, DEL, C1); what reorders: Unicode's Bidi_Control; both lists from memory of the standards. */
#include "print/safe.h"
#include "print/screen.h"
#include "print/table.h"

#include "farvessel/print.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Written out anew, as a range a row, so that it does not share a mistake with the code. */
static bool is_forbidden(unsigned code)
{
    static const unsigned ranges[][2] = {{0x00, 0x1F},     {0x7F, 0x9F},     {0x061C, 0x061C},
                                         {0x200E, 0x200F}, {0x2028, 0x202E}, {0x2066, 0x2069}};
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
        if (code >= ranges[i][0] && code <= ranges[i][1])
            return true;
    return false;
}

static void encode(unsigned code, char bytes[5])
{
    if (code < 0x80)
        snprintf(bytes, 5, "%c", (int)code);
    else if (code < 0x800)
        snprintf(bytes, 5, "%c%c", (int)(0xC0 | code >> 6), (int)(0x80 | (code & 0x3F)));
    else if (code < 0x10000)
        snprintf(bytes, 5, "%c%c%c", (int)(0xE0 | code >> 12), (int)(0x80 | (code >> 6 & 0x3F)),
                 (int)(0x80 | (code & 0x3F)));
    else
        snprintf(bytes, 5, "%c%c%c%c", (int)(0xF0 | code >> 18), (int)(0x80 | (code >> 12 & 0x3F)),
                 (int)(0x80 | (code >> 6 & 0x3F)), (int)(0x80 | (code & 0x3F)));
}

/* All characters of Unicode: those that command are replaced by one other, the rest is kept. */
static void every_character_is_kept_or_replaced(void **state)
{
    (void)state;
    for (unsigned code = 1; code <= 0x10FFFF; code++) {
        char bytes[5];
        unsigned read = 0;
        if (code >= 0xD800 && code < 0xE000)
            continue;
        encode(code, bytes);
        assert_int_equal(fv_utf8_read(bytes, &read), strlen(bytes));
        assert_int_equal(read, code);
        assert_int_equal(fv_utf8_is_text(code), !is_forbidden(code));
        if (code > 0x2100 && code < 0x10000)
            continue; /* the conversion is asked for the rest */
        fv_text out = {0};
        print_safe(bytes, &out);
        if (!is_forbidden(code))
            assert_string_equal(out.text, bytes);
        else
            assert_string_equal(out.text, strchr("\t\n\r", (int)code) && code < 0x80 ? " " : "?");
        fv_text_free(&out);
    }
}

static void what_is_no_utf8_is_replaced(void **state)
{
    (void)state;
    static const char *const wrong[][2] = {
        {"pl\344nt", "pl?nt"},   {"\xC0\xAF", "??"},           {"\xE0\x80\xAF", "???"},
        {"\xED\xA0\x80", "???"}, {"\xF4\x90\x80\x80", "????"}, {"\xF8\x88\x80", "???"},
        {"a\xC3", "a?"},         {"\xE2\x82", "??"},           {"\x80", "?"},
        {"ab\xFF", "ab?"},       {"\xC3\xA4", "\xC3\xA4"}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        fv_text out = {0};
        print_safe(wrong[i][0], &out);
        assert_string_equal(out.text, wrong[i][1]);
        fv_report_safe(&out);
        assert_string_equal(out.text, wrong[i][1]);
        fv_text_free(&out);
    }
}

static void texts_are_cut_between_characters(void **state)
{
    (void)state;
    assert_string_equal(fv_shorten("abc", 3).text, "abc");
    assert_string_equal(fv_shorten("abcd", 3).text, "abc...");
    assert_string_equal(fv_shorten("ab\xC3\xA4", 3).text, "ab...");
    assert_string_equal(fv_shorten("\xF0\x9F\x8C\xB1\xF0\x9F\x8C\xB1", 7).text, "\xF0\x9F\x8C\xB1...");
    assert_string_equal(fv_shorten("", 3).text, "");
    assert_string_equal(fv_shorten(NULL, 3).text, "");
    char longer[200];
    memset(longer, 'x', sizeof longer - 1);
    longer[sizeof longer - 1] = '\0';
    assert_int_equal(strlen(fv_shorten(longer, 1000).text), 83); /* 80 and the dots */
}

static void a_whole_answer_keeps_its_lines(void **state)
{
    (void)state;
    fv_text out = {0};
    fv_text_add(&out, "a\tb\nc\033[31md\177\302\233e\342\200\256f\037g\n");
    fv_report_safe(&out);
    assert_string_equal(out.text, "a\tb\nc?[31md??e?f?g\n");
    assert_int_equal(out.length, strlen(out.text));
    fv_text_free(&out);
    fv_report_safe(&out); /* nothing in it */
    assert_null(out.text);
}

static void a_title_forges_no_line(void **state)
{
    (void)state;
    static const print_grid_column columns[] = {{"name", "E\nUR", true}, {"n", "", false}};
    fv_text out = {0};
    print_paragraph(&out, "", "title\nplant.xml:1: forged");
    print_section(&out, "section\nforged");
    print_grid *grid = print_grid_new(columns, 2);
    print_grid_add(grid, "cell\nforged");
    print_grid_add(grid, "1");
    print_grid_print(grid, &out);
    size_t lines = 0;
    for (const char *c = out.text; *c; c++)
        lines += *c == '\n';
    assert_int_equal(lines, 6); /* one, two with the blank one, heading, unit, row */
    assert_non_null(strstr(out.text, "title plant.xml:1: forged"));
    fv_text_free(&out);
}

static void cells_are_no_formulas(void **state)
{
    (void)state;
    static const char *const cells[][2] = {{"=1+1", "'=1+1"},
                                           {"=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"},
                                           {"+1-1", "'+1-1"},
                                           {"-1+1", "'-1+1"},
                                           {"@SUM(1)", "'@SUM(1)"},
                                           {"\tx", "' x"},
                                           {"=a,b", "\"'=a,b\""},
                                           {"a=b", "a=b"},
                                           {"-5", "-5"},
                                           {"-5.25e3", "-5.25e3"},
                                           {"+7", "+7"},
                                           {"-", "-"},
                                           {"", ""},
                                           {"a\"b", "\"a\"\"b\""},
                                           {"a\nb", "a b"},
                                           {"a\x1b", "a?"}};
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        fv_text out = {0};
        print_csv_word(&out, cells[i][0]);
        assert_string_equal(out.text, cells[i][1]);
        fv_text_free(&out);
    }
}

static void words_are_quoted_for_a_shell(void **state)
{
    (void)state;
    static const char *const words[][2] = {{"plant.xml", "plant.xml"},
                                           {"my\xC3\xA4.xml", "my\xC3\xA4.xml"},
                                           {"-o.xml", "./-o.xml"},
                                           {"a b.xml", "'a b.xml'"},
                                           {"-a b", "'./-a b'"},
                                           {"it's", "'it'\\''s'"},
                                           {"$(x)", "'$(x)'"},
                                           {"a;b", "'a;b'"},
                                           {"~x", "'~x'"},
                                           {"", "''"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        fv_text out = {0};
        print_shell_word(words[i][0], &out);
        assert_string_equal(out.text, words[i][1]);
        fv_text_free(&out);
    }
    fv_text out = {0};
    fv_text line = {0};
    fv_text_add(&line, "to try it out: farvessel heat ");
    print_shell_word("a very long name with many words of a plant file that is broken nowhere.xml", &line);
    print_say(&out, "", &line);
    assert_non_null(strstr(out.text, "'a very long name with many words of a plant file that is broken nowhere.xml'"));
    fv_text_free(&out);
}

static void json_gives_the_text_back(void **state)
{
    (void)state;
    fv_text out = {0};
    const char *text = "{\"a\": \"\xC2\x9B\x7F\xE2\x80\xAE\xC3\xA4\",\n\"b\": 1}";
    print_safe_json(text, strlen(text), &out);
    assert_string_equal(out.text, "{\"a\": \"\\u009b\\u007f\\u202e\xC3\xA4\",\n\"b\": 1}");
    fv_text_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_character_is_kept_or_replaced),
                                       cmocka_unit_test(what_is_no_utf8_is_replaced),
                                       cmocka_unit_test(texts_are_cut_between_characters),
                                       cmocka_unit_test(a_whole_answer_keeps_its_lines),
                                       cmocka_unit_test(a_title_forges_no_line),
                                       cmocka_unit_test(cells_are_no_formulas),
                                       cmocka_unit_test(words_are_quoted_for_a_shell),
                                       cmocka_unit_test(json_gives_the_text_back)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
