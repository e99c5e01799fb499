/* SPDX-License-Identifier: MIT */
/* The fuzz targets without a fuzzer: every seed and find, and a few hundred children of each that are the same in every
 * run. What a target does not like it ends with abort(). */
#include "mutate_xml.h"

#define LLVMFuzzerTestOneInput quantity_target
#include "fuzz_quantity.c"
#undef LLVMFuzzerTestOneInput
#define LLVMFuzzerTestOneInput set_target
#include "fuzz_set.c"
#undef LLVMFuzzerTestOneInput
#define LLVMFuzzerTestOneInput plantfile_target
#include "fuzz_plantfile.c"
#undef LLVMFuzzerTestOneInput
#define LLVMFuzzerTestOneInput flow_target
#include "fuzz_flow.c"
#undef LLVMFuzzerTestOneInput
#define LLVMFuzzerTestOneInput heat_target
#include "fuzz_heat.c"
#undef LLVMFuzzerTestOneInput
#define LLVMFuzzerTestOneInput desk_target
#include "fuzz_desk.c"
#undef LLVMFuzzerTestOneInput

#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { MOST = 20000 };

/* Any change of bytes will do. */
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most)
{
    static unsigned seed = 1; /* the tests run one after the other */
    if (size == 0)
        return 0;
    const size_t at = next_of(&seed, (unsigned)size), length = 1 + next_of(&seed, 4);
    const span cut = {at, at + length < size ? at + length : size};
    switch (next_of(&seed, 4)) {
    case 0:
        data[at] = (uint8_t)next_of(&seed, 256);
        return size;
    case 1:
        data[at] ^= (uint8_t)(1u << next_of(&seed, 8));
        return size;
    case 2:
        return splice(data, size, most, cut, NULL, 0);
    default:
        return splice(data, size, most, (span){at, at}, data + cut.from, cut.to - cut.from);
    }
}

typedef int target(const uint8_t *data, size_t size);

static size_t load(const char *folder, const char *name, uint8_t *data)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "rb");
    const size_t size = file ? fread(data, 1, MOST, file) : 0;
    if (file)
        fclose(file);
    return size;
}

/* All files of a folder, each with its children. */
static size_t feed(target *run, const char *folder, bool xml, unsigned children)
{
    static uint8_t data[MOST], child[MOST];
    struct dirent **names;
    const int count = scandir(folder, &names, NULL, alphasort);
    size_t fed = 0;
    for (int i = 0; i < count; i++) {
        const size_t size = names[i]->d_name[0] == '.' ? 0 : load(folder, names[i]->d_name, data);
        for (unsigned k = 0; k <= children && size > 0; k++, fed++) {
            size_t now = size;
            memcpy(child, data, size);
            for (unsigned n = 0; n < k % 4 + (k > 0); n++)
                now =
                    xml ? LLVMFuzzerCustomMutator(child, now, MOST, 7919 * k + n) : LLVMFuzzerMutate(child, now, MOST);
            run(child, now);
        }
        free(names[i]);
    }
    if (count >= 0)
        free(names);
    print_message("%s: %zu inputs\n", folder, fed);
    return fed;
}

static void quantities(void **state)
{
    (void)state;
    assert_true(feed(quantity_target, "tests/fuzz/seeds/quantity", false, 100) > 1000);
}

static void settings(void **state)
{
    (void)state;
    assert_true(feed(set_target, "tests/fuzz/seeds/set", false, 50) > 300);
}

static void plant_files(void **state)
{
    (void)state;
    assert_true(feed(plantfile_target, "tests/fuzz/seeds/flow", true, 50) > 200);
    assert_true(feed(plantfile_target, "networks", true, 30) > 100);
    assert_true(feed(plantfile_target, "tests/bad", true, 1) > 200);
}

static void flows(void **state)
{
    (void)state;
    assert_true(feed(flow_target, "tests/fuzz/seeds/flow", true, 100) > 600);
    assert_true(feed(flow_target, "networks", true, 12) > 80);
}

static void heats(void **state)
{
    (void)state;
    assert_true(feed(heat_target, "tests/fuzz/seeds/flow", true, 40) > 200);
    assert_true(feed(heat_target, "networks", true, 6) > 40);
}

static void sessions(void **state)
{
    (void)state;
    assert_true(feed(desk_target, "tests/fuzz/seeds/desk", false, 300) > 250);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(quantities),  cmocka_unit_test(settings),
                                       cmocka_unit_test(plant_files), cmocka_unit_test(flows),
                                       cmocka_unit_test(heats),       cmocka_unit_test(sessions)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
