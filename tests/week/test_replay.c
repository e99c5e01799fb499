/* SPDX-License-Identifier: MIT */
/* A timetable of one day, worked by hand: hung on from 7 to 8, lit at 9, taken off at 15, emptied at 20 o'clock; on
 * Tuesday the same, but for people, who then go home at 12. Hours are whole slots. */
#include "study/week/replay.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <math.h>
#include <cmocka.h>

enum { DAY = 24, WEEK = FV_WEEK_DAYS * DAY };
static const double HOUR = 3600;

typedef struct {
    size_t people[WEEK];
    fv_week_batch batch[2];
    fv_week_entry entries[8];
    fv_week_problem problem;
    fv_week_plan plan;
    week_timetable timetable;
} by_hand;

static void set_up(by_hand *h)
{
    static const fv_week_entry day[] = {
        {7, FV_TASK_HANG_ON, 0}, {9, FV_TASK_LIGHT, 1}, {15, FV_TASK_TAKE_OFF, 0}, {20, FV_TASK_EMPTY, 0}};
    *h = (by_hand){.problem = {.slots_a_day = DAY, .places = 1, .vessels = 1, .taken_off = true}};
    for (size_t i = 0; i < WEEK; i++)
        h->people[i] = i < DAY || i < DAY + 12 ? 1 : 0;
    for (size_t k = 0; k < FV_TASK_KINDS; k++)
        h->problem.task[k] = (fv_week_task){1, 1};
    for (size_t i = 0; i < 8; i++) {
        h->entries[i] = day[i % 4];
        h->entries[i].slot += i / 4 * DAY;
    }
    h->problem.people = h->people;
    h->problem.batch = h->batch;
    h->plan = (fv_week_plan){.entries = h->entries, .entry_count = 4};
    h->timetable = (week_timetable){&h->problem, &h->plan, HOUR};
}

static unsigned slips(by_hand *h, const week_times *batches)
{
    week_replay *replay = week_replay_new(&h->timetable);
    assert_non_null(replay);
    const unsigned found = week_replay_next(replay, batches);
    week_replay_free(replay);
    return found;
}

static unsigned one(double steam, double attended, double cool)
{
    by_hand h;
    set_up(&h);
    const week_times batch = {steam * HOUR, attended * HOUR, cool * HOUR};
    return slips(&h, &batch);
}

static void a_batch_in_time_slips_nowhere(void **state)
{
    (void)state;
    assert_int_equal(one(6, 6, 5), 0); /* shut at 15, cool at 20: to the minute */
}

static void each_slip_is_told_apart(void **state)
{
    (void)state;
    assert_int_equal(one(6.01, 1, 1), 1u << FV_WEEK_SLIP_HOT);
    assert_int_equal(one(5, 1, 6.01), 1u << FV_WEEK_SLIP_WARM);
    assert_int_equal(one(INFINITY, 1, 1), 1u << FV_WEEK_SLIP_HOT | 1u << FV_WEEK_SLIP_WARM);
}

static void people_who_go_home_leave_a_fire_alone(void **state)
{
    (void)state;
    by_hand h;
    set_up(&h);
    h.plan.entry_count = 8;
    /* Tuesday: lit at 9, people until 12. */
    const week_times until_twelve[] = {{6 * HOUR, 6 * HOUR, 0}, {6 * HOUR, 3 * HOUR, 0}};
    const week_times longer[] = {{6 * HOUR, 6 * HOUR, 0}, {6 * HOUR, 3.1 * HOUR, 0}};
    assert_int_equal(slips(&h, until_twelve), 0);
    assert_int_equal(slips(&h, longer), 1u << FV_WEEK_SLIP_ALONE);
}

static void a_boiler_that_still_burns_is_not_lit(void **state)
{
    (void)state;
    by_hand h;
    set_up(&h);
    h.plan.entry_count = 8;
    /* From Monday 9 to Tuesday 9 is 24 h; the vessel is of course taken off too early then. */
    const week_times day_long[] = {{24.1 * HOUR, HOUR, 0}, {6 * HOUR, HOUR, 0}};
    const week_times just[] = {{24 * HOUR, HOUR, 0}, {6 * HOUR, HOUR, 0}};
    assert_true(slips(&h, day_long) & 1u << FV_WEEK_SLIP_LIT);
    assert_false(slips(&h, just) & 1u << FV_WEEK_SLIP_LIT);
}

static void what_cools_over_the_week_end_counts_in_the_next_week(void **state)
{
    (void)state;
    by_hand h;
    set_up(&h);
    /* Emptied on Monday at 6, before it is filled anew: from Monday 15 to Monday 6 is 159 h. */
    h.entries[0] = (fv_week_entry){6, FV_TASK_EMPTY, 0};
    h.entries[1] = (fv_week_entry){7, FV_TASK_HANG_ON, 0};
    h.entries[2] = (fv_week_entry){9, FV_TASK_LIGHT, 1};
    h.entries[3] = (fv_week_entry){15, FV_TASK_TAKE_OFF, 0};
    h.plan.off[0] = 1; /* on Monday morning the one of last week stands there */
    week_replay *replay = week_replay_new(&h.timetable);
    assert_non_null(replay);
    const week_times slow = {6 * HOUR, HOUR, 159.1 * HOUR}, fast = {6 * HOUR, HOUR, 159 * HOUR};
    assert_int_equal(week_replay_next(replay, &fast), 0);
    assert_int_equal(week_replay_next(replay, &slow), 0);
    assert_int_equal(week_replay_next(replay, &fast), 1u << FV_WEEK_SLIP_WARM);
    assert_int_equal(week_replay_next(replay, &fast), 0);
    week_replay_free(replay);
}

/* Two vessels, one batch of each: the one that is cool first is emptied first, whichever it is. */
static void vessels_have_no_names(void **state)
{
    (void)state;
    by_hand h;
    set_up(&h);
    static const fv_week_entry both[] = {{0, FV_TASK_HANG_ON, 0}, {1, FV_TASK_LIGHT, 1}, {3, FV_TASK_TAKE_OFF, 0},
                                         {3, FV_TASK_HANG_ON, 1}, {4, FV_TASK_LIGHT, 1}, {6, FV_TASK_TAKE_OFF, 1},
                                         {9, FV_TASK_EMPTY, 0},   {12, FV_TASK_EMPTY, 1}};
    for (size_t i = 0; i < 8; i++)
        h.entries[i] = both[i];
    h.problem.vessels = 2;
    h.plan.entry_count = 8;
    /* Steam shut at 3 and 6; cool at 11 and 9 o'clock: the second is emptied at 9, the first at 12. */
    const week_times second_first[] = {{2 * HOUR, HOUR, 8 * HOUR}, {2 * HOUR, HOUR, 3 * HOUR}};
    const week_times neither[] = {{2 * HOUR, HOUR, 8 * HOUR}, {2 * HOUR, HOUR, 4 * HOUR}};
    assert_int_equal(slips(&h, second_first), 0);
    assert_int_equal(slips(&h, neither), 1u << FV_WEEK_SLIP_WARM);
}

/* Lit on Monday at 9, now it is 12; the next is lit at 15, when this one is taken off, and it is emptied at 20. People
 * are there until Tuesday, 12 o'clock, 27 h after the lighting. */
static unsigned on_steam(double steam, double attended, double cool)
{
    by_hand h;
    set_up(&h);
    static const fv_week_entry rest[] = {{15, FV_TASK_TAKE_OFF, 0}, {15, FV_TASK_LIGHT, 1}, {20, FV_TASK_EMPTY, 0}};
    for (size_t i = 0; i < 3; i++)
        h.entries[i] = rest[i];
    h.problem.vessels = 3;
    h.plan = (fv_week_plan){.entries = h.entries, .entry_count = 3, .hung = {1}, .hot = {1}};
    const week_times batch = {steam * HOUR, attended * HOUR, cool * HOUR}, next = {HOUR, HOUR, HOUR};
    week_replay *replay = week_replay_new(&h.timetable);
    assert_non_null(replay);
    const unsigned alone = week_replay_on_steam(replay, 1, 9 * HOUR, 12 * HOUR, &batch);
    const unsigned found = alone | week_replay_next(replay, &next);
    week_replay_free(replay);
    return found;
}

static void a_batch_on_the_steam_slips_as_any_other(void **state)
{
    (void)state;
    assert_int_equal(on_steam(6, 27, 5), 0);
    assert_int_equal(on_steam(6.01, 6, 1), 1u << FV_WEEK_SLIP_HOT | 1u << FV_WEEK_SLIP_LIT);
    assert_int_equal(on_steam(6, 27.1, 5), 1u << FV_WEEK_SLIP_ALONE);
    assert_int_equal(on_steam(6, 6, 5.01), 1u << FV_WEEK_SLIP_WARM);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_batch_in_time_slips_nowhere),
        cmocka_unit_test(each_slip_is_told_apart),
        cmocka_unit_test(people_who_go_home_leave_a_fire_alone),
        cmocka_unit_test(a_boiler_that_still_burns_is_not_lit),
        cmocka_unit_test(vessels_have_no_names),
        cmocka_unit_test(a_batch_on_the_steam_slips_as_any_other),
        cmocka_unit_test(what_cools_over_the_week_end_counts_in_the_next_week),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
