/* SPDX-License-Identifier: MIT */
/* Shapley values against games whose values are known, and against all orders counted one by one. */
#include "study/why/shapley.h"

#include "study/nursery.h"

/* The glove game: player 0 has a left glove, 1 and 2 a right one each; a pair is worth 1. Values 2/3, 1/6, 1/6
 * (Shapley & Shubik 1969, from memory; follows from the six orders by hand). */
static void glove_game(void **state)
{
    (void)state;
    double worth[8] = {0}, value[3];
    for (size_t set = 0; set < 8; set++)
        worth[set] = (set & 1) && (set & 6) ? 1 : 0;
    study_shapley(3, worth, value);
    print_message("check | glove game, left glove | %.17g | got %.17g | dev %.1e | six orders by hand\n", 2.0 / 3.0,
                  value[0], fabs(value[0] - 2.0 / 3.0));
    assert_true(fabs(value[0] - 2.0 / 3.0) < 1e-15);
    assert_true(fabs(value[1] - 1.0 / 6.0) < 1e-15);
    assert_true(fabs(value[2] - 1.0 / 6.0) < 1e-15);
}

/* The airport game: each pays for the longest strip among them. Strips 1, 2, 4: values 1/3, 1/3 + 1/2, 1/3 + 1/2 + 2
 * (Littlechild & Owen 1973). */
static void airport_game(void **state)
{
    (void)state;
    const double strip[3] = {1, 2, 4}, expected[3] = {1.0 / 3.0, 1.0 / 3.0 + 0.5, 1.0 / 3.0 + 2.5};
    double worth[8] = {0}, value[3];
    for (size_t set = 0; set < 8; set++)
        for (size_t i = 0; i < 3; i++)
            if (set >> i & 1)
                worth[set] = fmax(worth[set], strip[i]);
    study_shapley(3, worth, value);
    for (size_t i = 0; i < 3; i++) {
        print_message("check | airport game, strip %g | %.17g | got %.17g | dev %.1e | Littlechild & Owen 1973\n",
                      strip[i], expected[i], value[i], fabs(value[i] - expected[i]));
        assert_true(fabs(value[i] - expected[i]) < 1e-14);
    }
}

enum { PLAYERS = 6, SETS = 1 << PLAYERS };

static void add_orders(const double *worth, size_t set, double weight, double *value)
{
    size_t left = 0;
    for (size_t i = 0; i < PLAYERS; i++)
        left += !(set >> i & 1);
    for (size_t i = 0; i < PLAYERS; i++) {
        const size_t with = set | (size_t)1 << i;
        if (with == set)
            continue;
        value[i] += weight / (double)left * (worth[with] - worth[set]);
        add_orders(worth, with, weight / (double)left, value);
    }
}

/* Six players, any worths: all 720 orders walked through; the sum is what all are worth. */
static void all_orders(void **state)
{
    (void)state;
    double worth[SETS], value[PLAYERS], walked[PLAYERS] = {0}, sum = 0;
    for (size_t set = 0; set < SETS; set++)
        worth[set] = 1000 * sin(12.9898 * (double)set);
    study_shapley(PLAYERS, worth, value);
    add_orders(worth, 0, 1, walked);
    for (size_t i = 0; i < PLAYERS; i++) {
        assert_true(fabs(value[i] - walked[i]) < 1e-10);
        sum += value[i];
    }
    assert_true(fabs(sum - (worth[SETS - 1] - worth[0])) < 1e-10);
}

static void few_players(void **state)
{
    (void)state;
    double worth[2] = {3, 10}, value[1] = {0};
    study_shapley(1, worth, value);
    assert_true(value[0] == 7);
    study_shapley(0, worth, value);
    assert_true(value[0] == 7); /* nothing to share out, nothing written */
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(glove_game), cmocka_unit_test(airport_game),
                                       cmocka_unit_test(all_orders), cmocka_unit_test(few_players)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
