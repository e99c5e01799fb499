/* SPDX-License-Identifier: MIT */
/* Every allocation of ours fails once: reading, setting, copying and writing a plant must come back with an error and
 * lose nothing. libxml2 is given the C library's own allocator: only ours are counted here; with a
 * sanitizer, which has an allocator of its own, there is nothing to do here. */
#include "farvessel/plantfile.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <libxml/xmlmemory.h>

#if defined(__SANITIZE_ADDRESS__)
#define HAS_SANITIZER 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define HAS_SANITIZER 1
#endif
#endif
#if !defined(HAS_SANITIZER) && defined(__GLIBC__)
#define CAN_FAIL 1
#endif

#ifdef CAN_FAIL
static long countdown = -1; /* allocations until one fails; negative: none does */
static long live;           /* blocks that were not freed */
static bool counting;

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *block, size_t size);
extern void __libc_free(void *block);

static bool fails(void)
{
    return countdown >= 0 && countdown-- == 0;
}

static void *counted(void *block)
{
    live += counting && block;
    return block;
}

void *malloc(size_t size)
{
    return fails() ? NULL : counted(__libc_malloc(size));
}
void *calloc(size_t count, size_t size)
{
    return fails() ? NULL : counted(__libc_calloc(count, size));
}
void *realloc(void *block, size_t size)
{
    if (fails())
        return NULL;
    void *moved = __libc_realloc(block, size);
    return block ? moved : counted(moved);
}
void free(void *block)
{
    live -= counting && block;
    __libc_free(block);
}

static char *plain_copy(const char *text)
{
    size_t bytes = strlen(text) + 1;
    char *copy = __libc_malloc(bytes);
    return copy ? memcpy(copy, text, bytes) : NULL;
}

/* Gives the changed copy as a text, to be freed; NULL: refused. */
static char *read_and_use(const char *bytes, size_t length, fv_faults *faults)
{
    static const char *const change = "chest.wall1.layer1.thickness=22 mm";
    fv_text text = {0};
    fv_plant *plant = fv_plantfile_read_memory(bytes, length, "x.xml", NULL, faults);
    fv_plant *copy = plant ? fv_plant_copy(plant) : NULL;
    bool good = copy && fv_plantfile_set(copy, &change, 1, faults) == FV_OK && fv_plantfile_write(copy, &text);
    fv_plant_free(copy);
    fv_plant_free(plant);
    if (!good)
        fv_text_free(&text);
    return text.text;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    static char bytes[16384];
    assert_int_equal(xmlMemSetup(__libc_free, __libc_malloc, __libc_realloc, plain_copy), 0);
    FILE *f = fopen("networks/mixed.xml", "rb");
    assert_non_null(f);
    size_t length = fread(bytes, 1, sizeof bytes, f);
    fclose(f);

    fv_faults *faults = fv_faults_new();
    countdown = 1000000000;
    char *right = read_and_use(bytes, length, faults);
    assert_non_null(right);
    long total = 1000000000 - countdown;
    countdown = -1;
    fv_faults_free(faults);
    assert_true(total > 100);

    long refused = 0, tried = 0, lost = 0, wrong = 0;
    for (long n = 0; n < total; n += n < 300 || n > total - 300 ? 1 : 17) {
        live = 0;
        counting = true;
        faults = fv_faults_new();
        countdown = n;
        char *text = read_and_use(bytes, length, faults);
        countdown = -1;
        refused += !text;
        tried++;
        /* A caution may be lost for want of memory, but nothing that the file says. */
        wrong += text && strcmp(text, right) != 0;
        /* A copy or a text that cannot be made is told by its NULL or false; all else by a fault. */
        assert_true(!text || fv_faults_errors(faults) == 0);
        free(text);
        fv_faults_free(faults);
        counting = false;
        lost += live;
    }
    print_message("%ld allocations, %ld of them failed in turn, %ld runs refused\n", total, tried, refused);
    assert_int_equal(lost, 0);
    assert_int_equal(wrong, 0);
    assert_true(refused > tried / 2);
    free(right);
}
#else
static void every_allocation_may_fail(void **state)
{
    (void)state;
    print_message("another allocator stands in the way; nothing is tried\n");
}
#endif

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_allocation_may_fail)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
