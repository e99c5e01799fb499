/* SPDX-License-Identifier: MIT */
/* The one verdict at its edges: allowed 10 h, so that 8 h leave a fifth. Definition: farvessel/steady.h. */
#include "farvessel/steady.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <math.h>
#include <cmocka.h>

static void a_fifth_of_the_time_allowed_is_the_edge(void **state)
{
    (void)state;
    const double hour = 3600;
    assert_int_equal(fv_verdict_of(8 * hour, 10 * hour), FV_FED);
    assert_int_equal(fv_verdict_of(8.2 * hour, 10 * hour), FV_LAGGING);
    assert_int_equal(fv_verdict_of(10 * hour, 10 * hour), FV_LAGGING);
    assert_int_equal(fv_verdict_of(10 * hour + 1, 10 * hour), FV_STARVED);
    assert_int_equal(fv_verdict_of((double)NAN, 10 * hour), FV_STARVED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_fifth_of_the_time_allowed_is_the_edge)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
