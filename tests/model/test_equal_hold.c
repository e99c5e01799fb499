/* SPDX-License-Identifier: MIT */
/* The hold of equal lethality against the law worked by hand: ten times as long for each z that it is colder (thermal
 * death time; Ball and Olson, Sterilization in Food Technology, 1957, chapter 7: from memory). */
#include "farvessel/model.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define CELSIUS(t) ((t) + 273.15)
#define HOURS(t) ((t)*3600.0)

static void is_as_long_as_by_hand(void **state)
{
    (void)state;
    /* 1900 m: water boils at 93.6 degC, so 91.5 degC; 4 h 10^0.35 = 8.955 h. */
    fv_equal_hold equal = fv_equal_hold_of(CELSIUS(95.0), HOURS(4), 10.0, CELSIUS(93.6));
    assert_true(fabs(equal.temperature - (CELSIUS(91.5))) <= 1e-9);
    assert_true(fabs(equal.hold / 3600.0 - (8.955)) <= 1e-3);
    /* One z colder: ten times as long. */
    equal = fv_equal_hold_of(CELSIUS(100.0), HOURS(1), 10.0, CELSIUS(92.0));
    assert_true(fabs(equal.temperature - (CELSIUS(90.0))) <= 1e-9);
    assert_true(fabs(equal.hold - (HOURS(10))) <= 1e-6);
}

static void is_the_hold_itself_where_the_target_is_reached(void **state)
{
    (void)state;
    fv_equal_hold equal = fv_equal_hold_of(CELSIUS(82.0), HOURS(0.5), 10.0, CELSIUS(99.6));
    assert_true(fabs(equal.temperature - (CELSIUS(82.0))) <= 0.0);
    assert_true(fabs(equal.hold - (HOURS(0.5))) <= 0.0);
}

static void is_not_offered_where_nobody_would_wait(void **state)
{
    (void)state;
    assert_true(isnan(fv_equal_hold_of(CELSIUS(100.0), HOURS(5), 10.0, CELSIUS(92.0)).hold));    /* 50 h */
    assert_true(!isnan(fv_equal_hold_of(CELSIUS(100.0), HOURS(4.7), 10.0, CELSIUS(92.0)).hold)); /* 47 h */
    assert_true(isnan(fv_equal_hold_of(CELSIUS(121.0), HOURS(0.01), 10.0, CELSIUS(99.6)).hold)); /* over two z */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(is_as_long_as_by_hand),
        cmocka_unit_test(is_the_hold_itself_where_the_target_is_reached),
        cmocka_unit_test(is_not_offered_where_nobody_would_wait),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
