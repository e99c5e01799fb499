/* SPDX-License-Identifier: MIT */
/* Arguments into requests, and faults into exit codes. What is said on stderr is read by the scripts. */
#include "cli/cli.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static cli_exit parse(char **argv, cli_request *request)
{
    int argc = 0;
    while (argv[argc])
        argc++;
    return cli_parse(argc, argv, request);
}

static void reads_options_wherever_they_stand(void **state)
{
    (void)state;
    char *argv[] = {"farvessel",      "flow",  "--set",  "a.b=1", "p.xml", "--units=us",
                    "--set=c.d=2 mm", "-oout", "--fire", "50 %",  NULL};
    cli_request request;
    assert_int_equal(parse(argv, &request), CLI_GOOD);
    assert_ptr_equal(request.verb, &cli_verbs[VERB_FLOW]);
    assert_string_equal(request.operand, "p.xml");
    assert_int_equal(request.setting_count, 2);
    assert_string_equal(request.settings[0], "a.b=1");
    assert_string_equal(request.settings[1], "c.d=2 mm");
    assert_string_equal(request.value[OPTION_OUTPUT], "out");
    assert_string_equal(request.value[OPTION_FIRE], "50 %");
    assert_null(request.value[OPTION_SAVE]);
    fv_report_options options = cli_report_options(&request);
    assert_int_equal(options.units, FV_US);
    assert_int_equal(options.format, FV_REPORT_TEXT);
    cli_request_free(&request);
}

static void ends_options_where_told(void **state)
{
    (void)state;
    char *argv[] = {"farvessel", "check", "--", "--odd.xml", NULL};
    cli_request request;
    assert_int_equal(parse(argv, &request), CLI_GOOD);
    assert_string_equal(request.operand, "--odd.xml");
    cli_request_free(&request);
}

static void takes_a_dash_as_standard_input(void **state)
{
    (void)state;
    char *argv[] = {"farvessel", "check", "-", NULL};
    cli_request request;
    assert_int_equal(parse(argv, &request), CLI_GOOD);
    assert_string_equal(request.operand, "-");
    cli_request_free(&request);
}

static void refuses_wrong_usage(void **state)
{
    static char *const wrong[][6] = {
        {"farvessel", NULL},
        {"farvessel", "flow", "--format", NULL},
        {"farvessel", "flow", "p.xml", "q.xml", NULL},
        {"farvessel", "flow", "--unit", "us", NULL},
        {"farvessel", "flow", "--", "-x", "-y", NULL},
        {"farvessel", "check", "--list", "fittings", "p.xml", NULL},
        {"farvessel", "flow", "p.xml", "--table", "lines", NULL},
        {"farvessel", "flow", "--no-turndown=1", NULL},
    };
    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        cli_request request;
        char *argv[6];
        memcpy(argv, wrong[i], sizeof argv);
        assert_int_equal(parse(argv, &request), CLI_INPUT);
        cli_request_free(&request);
    }
}

/* Every row of the option table can be found again, and no two of a verb share a name or letter. */
static void tables_are_sound(void **state)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    (void)state;
    for (size_t i = 0; i < count; i++) {
        assert_true(options[i].verbs != 0 && options[i].verbs < 1u << VERB_COUNT);
        assert_true(options[i].doc && options[i].doc[0]);
        for (size_t j = 0; j < i; j++) {
            if (!(options[i].verbs & options[j].verbs))
                continue;
            assert_string_not_equal(options[i].name, options[j].name);
            assert_true(!options[i].letter || options[i].letter != options[j].letter);
        }
    }
    for (size_t i = 0; i < VERB_COUNT; i++)
        assert_true(cli_verbs[i].name && cli_verbs[i].question && cli_verbs[i].example);
}

static void the_exit_code_tells_whose_fault_it_is(void **state)
{
    static const struct {
        fv_err_class first, second;
        cli_exit code;
    } cases[] = {
        {FV_ERR_INPUT, FV_ERR_INPUT, CLI_INPUT},          {FV_ERR_PHYSICS, FV_ERR_PHYSICS, CLI_UNSOLVED},
        {FV_ERR_NUMERICS, FV_ERR_NUMERICS, CLI_UNSOLVED}, {FV_ERR_NUMERICS, FV_ERR_INPUT, CLI_INPUT},
        {FV_ERR_INPUT, FV_ERR_SYSTEM, CLI_SYSTEM},        {FV_ERR_SYSTEM, FV_ERR_PHYSICS, CLI_SYSTEM},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fv_faults *faults = fv_faults_new();
        fv_caution(faults, FV_ERR_SYSTEM, (fv_loc){"p.xml", 1}, "a caution does not count");
        fv_error(faults, cases[i].first, (fv_loc){"p.xml", 2}, "first");
        fv_error(faults, cases[i].second, (fv_loc){"p.xml", 3}, "second");
        assert_int_equal(cli_say_faults(faults), cases[i].code);
        fv_faults_free(faults);
    }
    assert_int_equal(cli_say_faults(NULL), CLI_SYSTEM); /* no memory even for the list */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_options_wherever_they_stand),
        cmocka_unit_test(ends_options_where_told),
        cmocka_unit_test(takes_a_dash_as_standard_input),
        cmocka_unit_test(refuses_wrong_usage),
        cmocka_unit_test(tables_are_sound),
        cmocka_unit_test(the_exit_code_tells_whose_fault_it_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
