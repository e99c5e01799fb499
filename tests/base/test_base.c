/* SPDX-License-Identifier: MIT */
/* Floor 0: faults, arenas, text, files that are written whole or not at all. */
#include "farvessel/base.h"

#include <setjmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

static void faults_keep_order_and_count(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_error(faults, FV_ERR_INPUT, (fv_loc){"b.xml", 7}, "second of %d", 3);
    fv_caution(faults, FV_ERR_INPUT, (fv_loc){"b.xml", 7}, "third");
    fv_error(faults, FV_ERR_SYSTEM, (fv_loc){"a.xml", 9}, "first");
    fv_faults_sort(faults);
    assert_int_equal(fv_faults_count(faults), 3);
    assert_int_equal(fv_faults_errors(faults), 2);
    assert_string_equal(fv_faults_at(faults, 0)->text, "first");
    assert_string_equal(fv_faults_at(faults, 1)->text, "second of 3");
    assert_string_equal(fv_faults_at(faults, 2)->text, "third");
    assert_null(fv_faults_at(faults, 3));
    fv_faults_free(faults);
}

static void arenas_are_zeroed_aligned_and_refuse_overflow(void **state)
{
    (void)state;
    fv_arena *arena = fv_arena_new();
    for (size_t size = 1; size < 200000; size = size * 3 + 1) {
        unsigned char *bytes = fv_arena_alloc(arena, size, 1);
        assert_non_null(bytes);
        assert_int_equal((size_t)bytes % 16, 0);
        for (size_t i = 0; i < size; i++)
            assert_int_equal(bytes[i], 0);
        memset(bytes, 0xff, size);
    }
    assert_null(fv_arena_alloc(arena, (size_t)-1, 2));
    assert_string_equal(fv_arena_printf(arena, "%s-%d", "bin", 4), "bin-4");
    fv_arena_free(arena);
}

static void text_grows(void **state)
{
    (void)state;
    fv_text text = {0};
    for (int i = 0; i < 5000; i++)
        fv_text_add(&text, "%d,", i % 10);
    assert_false(text.failed);
    assert_int_equal(text.length, 10000);
    assert_memory_equal(text.text + 9996, "8,9,", 5);
    fv_text_free(&text);
    assert_null(text.text);
}

static char *read_back(const char *path)
{
    static char bytes[64];
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    bytes[fread(bytes, 1, sizeof bytes - 1, f)] = 0;
    fclose(f);
    return bytes;
}

static void a_file_is_replaced_whole_and_keeps_its_mode(void **state)
{
    (void)state;
    char folder[] = "/tmp/fv-base-XXXXXX", path[64];
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/out", folder);
    fv_faults *faults = fv_faults_new();
    assert_true(fv_write_whole(path, "old", 3, faults));
    assert_int_equal(chmod(path, 0640), 0);
    assert_true(fv_write_whole(path, "new text", 8, faults));
    assert_string_equal(read_back(path), "new text");
    struct stat info;
    assert_int_equal(stat(path, &info), 0);
    assert_int_equal(info.st_mode & 0777, 0640);
    /* A place that cannot be written: an error, and the old file as it was. */
    char nowhere[96];
    snprintf(nowhere, sizeof nowhere, "%s/missing/out", folder);
    assert_false(fv_write_whole(nowhere, "x", 1, faults));
    assert_int_equal(fv_faults_errors(faults), 1);
    assert_string_equal(read_back(path), "new text");
    unlink(path);
    assert_int_equal(rmdir(folder), 0); /* no temporary file is left behind */
    fv_faults_free(faults);
}

/* The second cannot be put in place: the first is as it was, whether it was there before (`old`) or not. */
static void several_files_are_all_or_none(void **state)
{
    (void)state;
    for (int old = 0; old < 2; old++) {
        char folder[] = "/tmp/farvessel-test-XXXXXX", first[64], second[64];
        assert_non_null(mkdtemp(folder));
        snprintf(first, sizeof first, "%s/first", folder);
        snprintf(second, sizeof second, "%s/second", folder);
        fv_faults *faults = fv_faults_new();
        assert_true(!old || fv_write_whole(first, "old", 3, faults));
        fv_file *files[3] = {fv_file_begin(first, "new", 3, faults), NULL, fv_file_begin(second, "new", 3, faults)};
        assert_true(files[0] && files[2]);
        assert_int_equal(access(first, F_OK) == 0, old);
        assert_int_equal(mkdir(second, 0700), 0);
        assert_false(fv_files_commit(files, 3, faults));
        assert_int_equal(fv_faults_errors(faults), 1);
        assert_int_equal(access(first, F_OK) == 0, old);
        assert_true(!old || strcmp(read_back(first), "old") == 0);
        assert_int_equal(rmdir(second), 0);
        files[0] = fv_file_begin(first, "new", 3, faults);
        files[2] = fv_file_begin(second, "newer", 5, faults);
        assert_true(fv_files_commit(files, 3, faults));
        assert_string_equal(read_back(first), "new");
        assert_string_equal(read_back(second), "newer");
        unlink(first);
        unlink(second);
        assert_int_equal(rmdir(folder), 0);
        fv_faults_free(faults);
    }
}

static void one_file_by_two_names_is_one(void **state)
{
    (void)state;
    char folder[] = "/tmp/farvessel-test-XXXXXX", name[64], other[64], link[64];
    assert_non_null(mkdtemp(folder));
    snprintf(name, sizeof name, "%s/name", folder);
    snprintf(other, sizeof other, "%s/./name", folder);
    snprintf(link, sizeof link, "%s/link", folder);
    assert_int_equal(symlink("name", link), 0);
    assert_true(fv_file_same(name, other)); /* not there yet */
    assert_true(fv_file_same(link, other));
    assert_false(fv_file_same(name, folder));
    assert_false(fv_file_same(name, NULL));
    assert_true(fv_write_whole(link, "x", 1, NULL));
    assert_true(fv_file_same(link, name));
    unlink(link);
    unlink(name);
    rmdir(folder);
}

static bool stop_at_half(void *context, double share, const char *what)
{
    (void)what;
    *(int *)context += 1;
    return share < 0.5;
}

static void progress_can_stop(void **state)
{
    (void)state;
    int calls = 0;
    const fv_progress progress = {stop_at_half, &calls};
    assert_true(fv_progress_tick(&progress, 0.1, "work"));
    assert_false(fv_progress_tick(&progress, 0.6, "work"));
    assert_true(fv_progress_tick(NULL, 0.6, "work"));
    assert_int_equal(calls, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(faults_keep_order_and_count),
                                       cmocka_unit_test(arenas_are_zeroed_aligned_and_refuse_overflow),
                                       cmocka_unit_test(text_grows),
                                       cmocka_unit_test(a_file_is_replaced_whole_and_keeps_its_mode),
                                       cmocka_unit_test(several_files_are_all_or_none),
                                       cmocka_unit_test(one_file_by_two_names_is_one),
                                       cmocka_unit_test(progress_can_stop)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
