/* SPDX-License-Identifier: MIT */
/* Every file in tests/datafile/bad is refused with the line and the words that expected.txt has for it. */
#include "farvessel/datafile.h"
#include "checks.h"

#include <dirent.h>

static void set_option(char *text, fv_datafile_options *options)
{
    if (strcmp(text, "dates=month-first") == 0)
        options->dates = FV_DATES_MONTH_FIRST;
    else if (strcmp(text, "clock=back") == 0)
        options->clock = FV_CLOCK_BACK;
    else if (strcmp(text, "clock=forward") == 0)
        options->clock = FV_CLOCK_FORWARD;
    else
        assert_string_equal(text, "");
}

static char *piece(char **rest)
{
    char *text = *rest, *bar = strstr(text, " | ");
    if (bar) {
        *bar = '\0';
        *rest = bar + 3;
    }
    return text;
}

static void refused(const char *name, const char *option, int line, const char *message)
{
    char path[480], words[400];
    fv_faults *faults = fv_faults_new();
    fv_datafile_options options;
    fv_datafile_defaults(&options);
    snprintf(words, sizeof words, "%s", option);
    set_option(words, &options);
    snprintf(path, sizeof path, "tests/datafile/bad/%s", name);
    fv_logfile *log = fv_logfile_read(path, &options, faults);
    if (log)
        fail_msg("%s was read", name);
    assert_int_equal(fv_faults_count(faults), 1);
    const fv_fault *fault = fv_faults_at(faults, 0);
    print_message("%s:%d: %s\n", fault->file, fault->line, fault->text);
    assert_int_equal(fault->blame, FV_ERR_INPUT);
    if (!strstr(fault->text, message) || fault->line != line)
        fail_msg("%s: line %d with '%s' was expected", name, line, message);
    fv_faults_free(faults);
}

static void wrong_files(void **state)
{
    (void)state;
    char text[400];
    size_t count = 0;
    FILE *list = fopen("tests/datafile/bad/expected.txt", "r");
    assert_non_null(list);
    while (fgets(text, sizeof text, list)) {
        if (text[0] == '#')
            continue;
        text[strcspn(text, "\n")] = '\0';
        char *rest = text;
        const char *name = piece(&rest), *option = piece(&rest);
        const int line = atoi(piece(&rest));
        refused(name, option, line, piece(&rest));
        count++;
    }
    fclose(list);
    size_t files = 0;
    DIR *folder = opendir("tests/datafile/bad");
    assert_non_null(folder);
    for (const struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
        files += strstr(entry->d_name, ".csv") != NULL;
    closedir(folder);
    assert_int_equal(count, files);
    assert_true(count >= 30);
}

static void missing_file(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_datafile_options options;
    fv_datafile_defaults(&options);
    assert_null(fv_logfile_read("tests/datafile/bad/none.csv.gone", &options, faults));
    assert_int_equal(fv_faults_at(faults, 0)->blame, FV_ERR_INPUT); /* a wrong name, as a plant's */
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(wrong_files), cmocka_unit_test(missing_file)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
