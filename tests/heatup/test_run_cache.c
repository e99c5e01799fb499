/* SPDX-License-Identifier: MIT */
/* What runs share changes nothing in them. */
#include "heatup/run_plants.h"

/* s to the core of a load of blocks so long, with and without what earlier runs left behind. */
static double core_of(fv_heat_cache *cache, double length, double start, double until)
{
    bench b;
    open_bench(&b, 15e3);
    add_star(&b, 2);
    b.plant->vessels[0]->load.c = fv_given(length);
    b.plant->vessels[0]->load.start_temperature = fv_given(start + KELVIN);
    b.options.cache = cache;
    b.options.until = until;
    b.options.stop_at_core = true;
    const fv_heat_result *r = go(&b);
    assert_null(r->options.cache);
    const double core = r->vessels[0].core;
    close_bench(&b);
    return core;
}

static void the_same_to_the_bit(void **state)
{
    (void)state;
    static const double lengths[] = {0.2, 0.15, 0.2, 0.3, 0.15}, starts[] = {15, 15, -5, -5, 15};
    fv_heat_cache *cache = fv_heat_cache_new();
    assert_non_null(cache);
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        const double with = core_of(cache, lengths[i], starts[i], 86400),
                     without = core_of(NULL, lengths[i], starts[i], 86400);
        printf("blocks of %.2f m from %.0f degC: %.3f s\n", lengths[i], starts[i], without);
        assert_true(with > 0 && with == without);
    }
    fv_heat_cache_free(cache);
    fv_heat_cache_free(NULL);
}

/* More sorts of pieces than it keeps. */
static void more_than_it_keeps(void **state)
{
    (void)state;
    fv_heat_cache *cache = fv_heat_cache_new();
    assert_non_null(cache);
    const double first = core_of(cache, 0.2, 15, 86400);
    for (int i = 0; i < 150; i++)
        core_of(cache, 0.2 + 1e-3 * i, 15, 60);
    assert_true(core_of(cache, 0.2, 15, 86400) == first);
    fv_heat_cache_free(cache);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_same_to_the_bit), cmocka_unit_test(more_than_it_keeps)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
