/* SPDX-License-Identifier: MIT */
/* The check report, the lists, the faults, and the page they are laid out on. */
#include "bench.h"

#include "print/screen.h"

#include <jansson.h>

typedef struct {
    bench *b;
    fv_vessel_need needs[BENCH_MOST];
    fv_check_answer answer;
} check_bench;

static check_bench *check_new(size_t n, const char *pattern)
{
    check_bench *c = calloc(1, sizeof *c);
    c->b = bench_new(n, pattern);
    for (size_t i = 0; i < n; i++)
        c->needs[i] = (fv_vessel_need){.load = 7.2e7, .wall_loss = 500.0, .need = 2166.67, .load_mass = 300.0};
    c->answer = (fv_check_answer){.plant = c->b->plant,
                                  .site_pressure = 99900.0,
                                  .boiling_point = 372.7,
                                  .boiler_output = 24e3,
                                  .line_length = 12.0,
                                  .load_mass = 600.0,
                                  .need = 4333.0,
                                  .vessels = c->needs};
    return c;
}

static void check_free(check_bench *c)
{
    bench_free(c->b);
    free(c);
}

static char *report(const check_bench *c, fv_report_format format, fv_unit_system units, const char *table)
{
    fv_report_options options = {.format = format, .units = units, .table = table};
    fv_text out = {0};
    assert_int_equal(fv_report_check(&c->answer, NULL, &options, &out), FV_OK);
    return out.text;
}

static void says_what_was_understood(void **state)
{
    (void)state;
    check_bench *c = check_new(2, "bin%zu");
    char *text = report(c, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "bench.xml reads well: 1 boiler of 24.0 kW, 2 vessels with 600 kg to treat,"));
    assert_non_null(strstr(text, "  t1     h1, s1, h2, a tee (branch s1)\n"));
    free(text);
    c->answer.need = 25e3;
    text = report(c, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "more than the"));
    free(text);
    check_free(c);
}

/* Where a value came from decides in which list it stands. */
static void tells_default_guess_fixed_and_open(void **state)
{
    (void)state;
    check_bench *c = check_new(2, "bin%zu");
    fv_line *hose = c->b->plant->lines[1];
    hose->bore.known = FV_KNOWN_GUESS;
    hose->friction = (fv_value){.v = 0.03, .origin = FV_GIVEN};
    hose->length = (fv_value){.v = 4.0, .origin = FV_SETTING};
    char *csv = report(c, FV_REPORT_CSV, FV_METRIC, NULL);
    assert_non_null(strstr(csv, "\nguess,hose,bore,0.025,m,25 mm,,s1\n"));
    assert_non_null(strstr(csv, "\nfixed,hose,friction,0.03,,0.03,,s1\n"));
    assert_non_null(strstr(csv, "\nsetting,hose,length,4,m,4 m,,s1\n"));
    assert_non_null(strstr(csv, "\nfrom_correlation,hose,friction,,,-,laminar or Colebrook-White,s2\n"));
    assert_non_null(strstr(csv, "\ndefault,hose,sag,0,m,0 mm,"));
    assert_non_null(strstr(csv, "\ndefault,hose,material,,,-,epdm,s1 s2\n"));
    assert_null(strstr(csv, "lagging-conductivity")); /* a bare line has none */
    free(csv);
    hose->lagging = fv_given(0.02);
    csv = report(c, FV_REPORT_CSV, FV_METRIC, NULL);
    assert_non_null(strstr(csv, "\ndefault,hose,lagging-conductivity,0.045,"));
    free(csv);
    check_free(c);
}

static void groups_equal_values(void **state)
{
    (void)state;
    check_bench *c = check_new(BENCH_MOST, "bin%zu");
    char *text = report(c, FV_REPORT_TEXT, FV_METRIC, NULL);
    assert_non_null(strstr(text, "s1 and 59 more"));
    free(text);
    char *json = report(c, FV_REPORT_JSON, FV_METRIC, NULL);
    json_t *root = json_loads(json, 0, NULL), *row;
    size_t i, found = 0;
    json_array_foreach(json_object_get(root, "values"), i, row)
    {
        if (strcmp(json_string_value(json_object_get(row, "element")), "hose") == 0 &&
            strcmp(json_string_value(json_object_get(row, "attribute")), "sag") == 0)
            found += json_array_size(json_object_get(row, "parts"));
    }
    assert_int_equal(found, BENCH_MOST);
    json_decref(root);
    free(json);
    check_free(c);
}

static void keeps_to_80_columns(void **state)
{
    (void)state;
    for (int units = FV_METRIC; units <= FV_US; units++) {
        check_bench *c = check_new(BENCH_MOST, "north-house-bin-number-%zu-of-the-long-row");
        c->b->plant->file = "a/very/long/path/to/a/plant/that/lies/deep/in/some/folder/of/somebody/north-house.xml";
        char *text = report(c, FV_REPORT_TEXT, (fv_unit_system)units, NULL);
        assert_in_range(widest(text), 60, FV_REPORT_WIDTH);
        free(text);
        check_free(c);
    }
}

/* ---- the page ---- */

static void wraps_words(void **state)
{
    (void)state;
    fv_text out = {0};
    print_paragraph(&out, "  - ", "aaaa bbbb");
    assert_string_equal(out.text, "  - aaaa bbbb\n");
    fv_text_free(&out);
    char words[200];
    for (size_t i = 0; i < sizeof words - 1; i++)
        words[i] = i % 10 == 9 ? ' ' : 'x';
    words[sizeof words - 1] = '\0';
    print_paragraph(&out, "  - ", words);
    assert_int_equal(widest(out.text), 73); /* 4 + 7 words of 9 and 6 blanks */
    assert_non_null(strstr(out.text, "\n    xxxxxxxxx "));
    fv_text_free(&out);
}

static void cuts_a_word_that_is_too_long(void **state)
{
    (void)state;
    fv_text out = {0};
    char word[200];
    memset(word, 'y', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    print_paragraph(&out, "", word);
    assert_int_equal(widest(out.text), FV_REPORT_WIDTH);
    assert_int_equal(out.length, 199 + 3); /* nothing is lost */
    fv_text_free(&out);
}

static void counts_letters_not_bytes(void **state)
{
    (void)state;
    const print_grid_column columns[] = {{"name", "", true}, {"x", "", false}};
    fv_text out = {0};
    print_grid *grid = print_grid_new(columns, 2);
    print_grid_add(grid, "Wägelchen");
    print_grid_add(grid, "1");
    print_grid_add(grid, "abcdefghi");
    print_grid_add(grid, "2");
    print_grid_print(grid, &out);
    assert_string_equal(out.text, "  name       x\n  Wägelchen  1\n  abcdefghi  2\n");
    fv_text_free(&out);
}

static void cuts_only_words(void **state)
{
    (void)state;
    const print_grid_column columns[] = {{"name", "", true}, {"what", "", true}, {"number", "m", false}};
    fv_text out = {0};
    print_grid *grid = print_grid_new(columns, 3);
    print_grid_add(grid, "ab0000000000000000000000000000000000000000000000000000yz");
    print_grid_add(grid, "some words that go on for longer than there is any room for on the row");
    print_grid_add(grid, "123456789");
    print_grid_print(grid, &out);
    assert_int_equal(widest(out.text), FV_REPORT_WIDTH);
    assert_non_null(strstr(out.text, "  ab0000"));
    assert_non_null(strstr(out.text, "0yz "));
    assert_non_null(strstr(out.text, " some words"));
    assert_non_null(strstr(out.text, ".. 123456789\n"));
    fv_text_free(&out);
}

/* What tells names apart is what stays. */
static void keeps_what_tells_names_apart(void **state)
{
    (void)state;
    const print_grid_column columns[] = {{"name", "", true}, {"what", "", true}};
    static const char *const names[] = {"north-house-bin-number-17-of-the-very-long-row-by-the-old-wall",
                                        "north-house-bin-number-8-of-the-very-long-row-by-the-old-wall"};
    fv_text out = {0};
    print_grid *grid = print_grid_new(columns, 2);
    for (size_t i = 0; i < 2; i++) {
        print_grid_add(grid, names[i]);
        print_grid_add(grid, "another column that takes half of the row or more");
    }
    print_grid_print(grid, &out);
    assert_int_equal(widest(out.text), FV_REPORT_WIDTH);
    assert_non_null(strstr(out.text, "17-of"));
    assert_non_null(strstr(out.text, "8-of"));
    assert_non_null(strstr(out.text, "  north-"));
    fv_text_free(&out);
}

static void a_grid_without_memory_fails(void **state)
{
    (void)state;
    fv_text out = {0};
    print_grid_add(NULL, "x");
    print_grid_print(NULL, &out);
    assert_true(out.failed);
    fv_text_free(&out);
}

/* ---- faults and lists ---- */

static void says_faults_with_their_place(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_text out = {0};
    fv_error(faults, FV_ERR_INPUT, (fv_loc){"p.xml", 12}, "bore is missing");
    fv_caution(faults, FV_ERR_INPUT, (fv_loc){"p.xml", 3}, "sag is large");
    fv_error(faults, FV_ERR_SYSTEM, (fv_loc){NULL, 0}, "out of memory");
    fv_report_faults(faults, &out);
    assert_string_equal(out.text, "p.xml:12: bore is missing\np.xml:3: caution: sag is large\nout of memory\n");
    fv_text_free(&out);
    fv_faults_free(faults);
}

static void says_a_remark_once(void **state)
{
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    fv_faults *faults = fv_faults_new();
    fv_report_options options;
    fv_text out = {0};
    fv_report_defaults(&options);
    for (int i = 0; i < 3; i++)
        fv_caution(faults, FV_ERR_INPUT, (fv_loc){"p.xml", 3}, "sag is large");
    assert_int_equal(fv_report_flow(&b->answer, faults, &options, &out), FV_OK);
    char *first = strstr(out.text, "line 3: sag is large");
    assert_non_null(first);
    assert_null(strstr(first + strlen("line 3: sag"), "sag is large"));
    fv_text_free(&out);
    fv_faults_free(faults);
    bench_free(b);
}

static void lists_what_can_be_named(void **state)
{
    (void)state;
    fv_report_options options;
    fv_text out = {0};
    fv_report_defaults(&options);
    assert_int_equal(fv_report_list("fittings", &options, &out), FV_OK);
    assert_non_null(strstr(out.text, "ball-valve"));
    assert_non_null(strstr(out.text, "Sources"));
    fv_text_free(&out);
    assert_int_equal(fv_report_list("fitting", &options, &out), FV_FAIL);
    assert_null(out.text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_what_was_understood),
        cmocka_unit_test(tells_default_guess_fixed_and_open),
        cmocka_unit_test(groups_equal_values),
        cmocka_unit_test(keeps_to_80_columns),
        cmocka_unit_test(wraps_words),
        cmocka_unit_test(cuts_a_word_that_is_too_long),
        cmocka_unit_test(counts_letters_not_bytes),
        cmocka_unit_test(cuts_only_words),
        cmocka_unit_test(keeps_what_tells_names_apart),
        cmocka_unit_test(a_grid_without_memory_fails),
        cmocka_unit_test(says_faults_with_their_place),
        cmocka_unit_test(says_a_remark_once),
        cmocka_unit_test(lists_what_can_be_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
