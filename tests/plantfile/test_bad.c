/* SPDX-License-Identifier: MIT */
/* Wrong files, each with all its errors: tests/bad/manifest.txt has rows `file | line | part of the message`. A file
 * must be refused with exactly these lines and messages. `test_bad FILE...` prints what the files get. */
#include "farvessel/plantfile.h"

#include <dirent.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define FOLDER "tests/bad/"
enum { MOST_ROWS = 1000, ROW = 512 };

typedef struct {
    char file[ROW], text[ROW];
    int line;
    bool used;
} row;

typedef struct {
    row *list;
    size_t count;
} manifest;

static bool split(char *line, row *r)
{
    char *first = strstr(line, " | "), *second = first ? strstr(first + 3, " | ") : NULL;
    if (!second)
        return false;
    *first = *second = '\0';
    line[strcspn(line, "\n")] = '\0';
    second[3 + strcspn(second + 3, "\n")] = '\0';
    snprintf(r->file, sizeof r->file, "%s%s", FOLDER, line);
    snprintf(r->text, sizeof r->text, "%s", second + 3);
    r->line = atoi(first + 3);
    return true;
}

static int load(void **state)
{
    FILE *f = fopen(FOLDER "manifest.txt", "r");
    manifest *m = calloc(1, sizeof *m);
    char line[ROW / 2];
    if (!f || !m || !(m->list = calloc(MOST_ROWS, sizeof *m->list)))
        return -1;
    while (m->count < MOST_ROWS && fgets(line, sizeof line, f))
        if (*line != '#' && split(line, &m->list[m->count]))
            m->count++;
    fclose(f);
    *state = m;
    return 0;
}

static int unload(void **state)
{
    manifest *m = *state;
    free(m->list);
    free(m);
    return 0;
}

static void show(const fv_faults *faults)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *f = fv_faults_at(faults, i);
        printf("  %s:%d: %s%s\n", f->file ? f->file : "-", f->line, f->caution ? "caution: " : "", f->text);
    }
}

static bool take_row(manifest *m, const char *file, const fv_fault *fault)
{
    for (size_t i = 0; i < m->count; i++) {
        row *r = &m->list[i];
        if (!r->used && r->line == fault->line && strcmp(r->file, file) == 0 && strstr(fault->text, r->text)) {
            r->used = true;
            return true;
        }
    }
    return false;
}

static bool check_file(manifest *m, const char *file)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(file, NULL, faults);
    bool good = !plant;
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *f = fv_faults_at(faults, i);
        if (f->caution)
            continue;
        if (!f->file || strcmp(f->file, file) != 0 || strchr(f->text, '\n') || !take_row(m, file, f)) {
            printf("%s: not in the manifest: %d: %s\n", file, f->line, f->text);
            good = false;
        }
    }
    if (plant)
        printf("%s: was read\n", file);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return good;
}

static void every_wrong_file_gets_its_messages(void **state)
{
    manifest *m = *state;
    size_t files = 0, failures = 0;
    const char *last = "";
    for (size_t i = 0; i < m->count; i++) {
        if (strcmp(m->list[i].file, last) == 0)
            continue;
        last = m->list[i].file;
        files++;
        failures += !check_file(m, last);
    }
    for (size_t i = 0; i < m->count; i++)
        if (!m->list[i].used) {
            printf("%s: never said: %d: %s\n", m->list[i].file, m->list[i].line, m->list[i].text);
            failures++;
        }
    print_message("%zu wrong files, %zu messages\n", files, m->count);
    assert_int_equal(failures, 0);
    assert_true(files >= 60);
}

static void every_wrong_file_is_in_the_manifest(void **state)
{
    const manifest *m = *state;
    DIR *folder = opendir(FOLDER);
    assert_non_null(folder);
    size_t strangers = 0;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        char path[ROW];
        bool known = !strstr(entry->d_name, ".xml");
        snprintf(path, sizeof path, "%s%s", FOLDER, entry->d_name);
        for (size_t i = 0; i < m->count && !known; i++)
            known = strcmp(m->list[i].file, path) == 0;
        if (!known)
            printf("%s: not in the manifest\n", path);
        strangers += !known;
    }
    closedir(folder);
    assert_int_equal(strangers, 0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_wrong_file_gets_its_messages),
        cmocka_unit_test(every_wrong_file_is_in_the_manifest),
    };
    for (int i = 1; i < argc; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read(argv[i], NULL, faults);
        printf("%s: %s\n", argv[i], plant ? "read" : "refused");
        show(faults);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    return argc > 1 ? 0 : cmocka_run_group_tests(tests, load, unload);
}
