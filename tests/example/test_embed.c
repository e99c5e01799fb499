/* SPDX-License-Identifier: MIT */
/* The example program, built and run: the far drum on the longer hose gets less and is later; on equal hoses both are
 * equal. */
#include "embed.c"

#include <math.h>
#include <setjmp.h>
#include <stdio.h>

#include <cmocka.h>

static example_answer run(double far_length)
{
    fv_faults *faults = fv_faults_new();
    example_answer answer = {{0}, {0}};
    assert_true(example_run(far_length, &answer, faults));
    assert_int_equal(fv_faults_errors(faults), 0);
    fv_faults_free(faults);
    return answer;
}

static void the_far_drum_is_later(void **state)
{
    (void)state;
    const example_answer answer = run(12);
    assert_true(answer.steam[0] > 1.02 * answer.steam[1]);
    assert_true(answer.core[0] < answer.core[1]);
    printf("near %.2f kg/h, core after %.2f h; far %.2f kg/h, %.2f h\n", answer.steam[0] * 3600, answer.core[0] / 3600,
           answer.steam[1] * 3600, answer.core[1] / 3600);
}

/* Limit: n identical branches at one point share equally. */
static void equal_drums_are_equal(void **state)
{
    (void)state;
    const example_answer answer = run(2);
    assert_true(fabs(answer.steam[0] / answer.steam[1] - 1) < 1e-9);
    assert_true(fabs(answer.core[0] - answer.core[1]) < 1e-3);
}

static void a_plant_that_makes_no_sense_says_why(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    example_answer answer;
    assert_false(example_run(-1, &answer, faults));
    assert_true(fv_faults_errors(faults) > 0);
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_far_drum_is_later), cmocka_unit_test(equal_drums_are_equal),
                                       cmocka_unit_test(a_plant_that_makes_no_sense_says_why)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
