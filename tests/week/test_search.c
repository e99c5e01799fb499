/* SPDX-License-Identifier: MIT */
/* Timetables against everything that could be done (small weeks), against bounds, and against a week by hand. */
#include "week/every_week.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <cmocka.h>

enum { SMALL_DAY = 3, SMALL_WEEK = FV_WEEK_DAYS * SMALL_DAY, CASES = 200 };

typedef struct {
    fv_week_problem problem;
    size_t people[SMALL_WEEK];
    fv_week_batch batch[6];
} small;

static unsigned draw(unsigned *seed, unsigned below)
{
    *seed = *seed * 1103515245u + 12345u;
    return (*seed >> 16) % below;
}

static void make_small(unsigned seed, small *s)
{
    memset(s, 0, sizeof *s);
    seed = seed * 2654435761u + 1u;
    const bool nights = draw(&seed, 2);
    const size_t crew = 1 + draw(&seed, 2);
    for (size_t i = 0; i < SMALL_WEEK; i++)
        s->people[i] = i / SMALL_DAY < 5 + draw(&seed, 2) && (nights || i % SMALL_DAY < 2) ? crew : 0;
    s->problem = (fv_week_problem){.slots_a_day = SMALL_DAY,
                                   .people = s->people,
                                   .places = 1 + draw(&seed, 2),
                                   .taken_off = draw(&seed, 2),
                                   .batch = s->batch};
    s->problem.vessels = s->problem.places + (s->problem.taken_off ? draw(&seed, 2) : 0);
    for (size_t k = 0; k < FV_TASK_KINDS; k++)
        s->problem.task[k] = (fv_week_task){1, crew > 1 && draw(&seed, 3) == 0 ? 2 : 1};
    for (size_t k = 1; k <= s->problem.places; k++) {
        const size_t steam = 1 + draw(&seed, 3) + (k - 1);
        s->batch[k] = (fv_week_batch){.steam = steam,
                                      .attended = draw(&seed, 2) ? 1 : (steam < 2 ? steam : 2),
                                      .cool = draw(&seed, 5),
                                      .kg = 100.0 * (double)k};
    }
}

/* One or two boxes and a tank: vessels that are not alike, which go together in any way; more boxes than places. */
static void make_unlike(unsigned seed, small *s)
{
    make_small(seed, s);
    seed = seed * 2654435761u + 7u;
    const size_t boxes = 1 + draw(&seed, 2), more = s->problem.taken_off ? draw(&seed, 3) : 0;
    s->problem.kind_count = 2;
    s->problem.kinds[0] = (fv_week_kind){boxes, boxes + more};
    s->problem.kinds[1] = (fv_week_kind){1, 1};
    s->problem.places = boxes + 1;
    s->problem.vessels = boxes + more + 1;
    for (size_t box = 0; box <= boxes; box++)
        for (size_t tank = box == 0; tank <= 1; tank++)
            s->batch[++s->problem.batch_count] = (fv_week_batch){.of = {box, tank},
                                                                 .steam = 1 + draw(&seed, 3),
                                                                 .attended = 1,
                                                                 .cool = draw(&seed, 5),
                                                                 .kg = 100.0 * (double)box + 40.0 * (double)tank};
}

static void small_weeks_are_the_best_there_are(void **state)
{
    (void)state;
    size_t best = 0, every = 0;
    double worst = 1.0;
    for (unsigned seed = 0; seed < CASES; seed++) {
        small s;
        fv_week_plan plan;
        make_small(seed, &s);
        const double most = every_week_best(&s.problem);
        assert_int_equal(fv_week_search(&s.problem, &plan), FV_OK);
        assert_true(plan.kg <= most + 1e-9);
        assert_true(plan.bound[plan.limit] >= most - 1e-9);
        best += plan.kg >= most - 1e-9;
        every += plan.every;
        if (most > 0.0)
            worst = fmin(worst, plan.kg / most);
        fv_week_plan_free(&plan);
    }
    /* The rest loses one batch, where a task would have to wait though hands are free. */
    assert_true(best >= CASES * 95 / 100);
    assert_true(every == CASES);
    printf("check | weeks as good as the best of all | %d | %zu | worst %.3f | every combination gone through\n", CASES,
           best, worst);
}

/* What goes together is the search's choice, not the order of the list: where a box and a tank together never end,
 * boxes go alone where they weigh more, and the tank where it does, whichever stands first. By hand: a batch a day, lit
 * when it is hung on, as in the first week of reference/week/by-hand.md, for five days. */
static void unlike_vessels_go_as_is_best(void **state)
{
    (void)state;
    for (size_t heavy = 0; heavy < 2; heavy++) {
        size_t people[FV_WEEK_DAYS * 24] = {0};
        fv_week_plan plan;
        for (size_t i = 0; i < (size_t)5 * 24; i++)
            people[i] = i % 24 >= 7 && i % 24 < 17;
        const fv_week_batch batch[] = {{.steam = 0},
                                       {.of = {1, 0}, .steam = 8, .attended = 8, .cool = 12, .kg = heavy ? 40 : 100},
                                       {.of = {0, 1}, .steam = 8, .attended = 8, .cool = 12, .kg = heavy ? 100 : 40},
                                       {.of = {1, 1}, .steam = 0, .kg = 0}};
        const fv_week_problem problem = {.slots_a_day = 24,
                                         .people = people,
                                         .places = 2,
                                         .vessels = 2,
                                         .kind_count = 2,
                                         .kinds = {{1, 1}, {1, 1}},
                                         .batch_count = 3,
                                         .batch = batch,
                                         .task = {{1, 1}, {0, 0}, {0, 0}, {0, 0}, {1, 1}}};
        assert_int_equal(fv_week_search(&problem, &plan), FV_OK);
        assert_true(fabs(plan.kg - 500.0) < 1e-9);
        for (size_t i = 0; i < plan.entry_count; i++)
            if (plan.entries[i].what == FV_TASK_LIGHT)
                assert_int_equal(plan.entries[i].vessel, heavy ? 2 : 1);
        fv_week_plan_free(&plan);
    }
}

/* Which kind stands first in the file changes nothing of what is treated. */
static void order_of_kinds_does_not_matter(void **state)
{
    (void)state;
    size_t alike = 0, cases = 100;
    for (unsigned seed = 0; seed < cases; seed++) {
        small s;
        fv_week_plan plan, other;
        make_unlike(seed, &s);
        assert_int_equal(fv_week_search(&s.problem, &plan), FV_OK);
        const fv_week_kind first = s.problem.kinds[0];
        s.problem.kinds[0] = s.problem.kinds[1];
        s.problem.kinds[1] = first;
        for (size_t b = 1; b <= s.problem.batch_count; b++) {
            const size_t of = s.batch[b].of[0];
            s.batch[b].of[0] = s.batch[b].of[1];
            s.batch[b].of[1] = of;
        }
        assert_int_equal(fv_week_search(&s.problem, &other), FV_OK);
        alike += fabs(plan.kg - other.kg) < 1e-9;
        fv_week_plan_free(&plan);
        fv_week_plan_free(&other);
    }
    printf("check | weeks of unlike vessels the same in either order | %zu | %zu | the other order\n", cases, alike);
    assert_true(alike >= cases * 95 / 100);
}

/* ---- weeks worked by hand: reference/week/by-hand.md ---- */

static fv_week_plan week_of(fv_week_problem problem, size_t first, size_t end, size_t days, size_t crew)
{
    size_t people[FV_WEEK_DAYS * 96] = {0};
    fv_week_plan plan;
    for (size_t s = 0; s < days * 96; s++)
        people[s] = s % 96 >= first && s % 96 < end ? crew : 0;
    problem.slots_a_day = 96;
    problem.people = people;
    assert_int_equal(fv_week_search(&problem, &plan), FV_OK);
    return plan;
}

/* Is it done at that hour of the day, on every working day? */
static void assert_each_day(const fv_week_plan *plan, fv_week_what what, double hour, size_t days)
{
    size_t found = 0;
    for (size_t i = 0; i < plan->entry_count; i++)
        found += plan->entries[i].what == what && plan->entries[i].slot % 96 == (size_t)(4.0 * hour);
    assert_int_equal(found, days);
}

static void one_vessel_by_hand(void **state)
{
    (void)state;
    const fv_week_batch batch[] = {{.steam = 0}, {.steam = 16, .attended = 16, .cool = 40, .kg = 300.0, .fuel = 1e8}};
    fv_week_plan plan = week_of(
        (fv_week_problem){.places = 1, .vessels = 1, .batch = batch, .task = {{4, 2}, {0, 0}, {1, 1}, {0, 0}, {4, 1}}},
        28, 68, 5, 2);
    assert_int_equal(plan.batches, 5);
    assert_true(plan.kg == 1500.0);
    assert_each_day(&plan, FV_TASK_EMPTY, 7.0, 5);
    assert_each_day(&plan, FV_TASK_FILL, 8.0, 5);
    assert_each_day(&plan, FV_TASK_LIGHT, 9.0, 5);
    assert_true(plan.crew_slots == 5 * (8 + 1 + 4));
    fv_week_plan_free(&plan);
}

static void four_vessels_on_one_place_by_hand(void **state)
{
    (void)state;
    const fv_week_batch batch[] = {{.steam = 0}, {.steam = 20, .attended = 20, .cool = 80, .kg = 300.0, .fuel = 1e8}};
    fv_week_plan plan = week_of((fv_week_problem){.places = 1,
                                                  .vessels = 4,
                                                  .taken_off = true,
                                                  .batch = batch,
                                                  .task = {{3, 1}, {1, 1}, {1, 1}, {1, 1}, {2, 1}}},
                                28, 72, 7, 2);
    assert_int_equal(plan.batches, 14);
    assert_each_day(&plan, FV_TASK_LIGHT, 7.0, 7);
    assert_each_day(&plan, FV_TASK_LIGHT, 12.5, 7);
    assert_true(plan.bound[FV_WEEK_BY_BOILER] >= 4200.0 - 1e-9);
    fv_week_plan_free(&plan);
}

static void nobody_is_there_long_enough_by_hand(void **state)
{
    (void)state;
    const fv_week_batch batch[] = {{.steam = 0}, {.steam = 41, .attended = 41, .cool = 40, .kg = 300.0, .fuel = 1e8}};
    fv_week_plan plan = week_of(
        (fv_week_problem){.places = 1, .vessels = 1, .batch = batch, .task = {{0, 0}, {0, 0}, {1, 1}, {0, 0}, {0, 0}}},
        28, 68, 6, 1);
    assert_true(plan.kg == 0.0);
    assert_int_equal(plan.entry_count, 0);
    fv_week_plan_free(&plan);
}

/* ---- from the midst of a week: four vessels on one place, lit at 07:00 and 12:30, as reference/week/by-hand.md has it
 */

static void set_first(const fv_week_plan *plan, fv_week_what what, size_t *slot)
{
    for (size_t i = plan->entry_count; i-- > 0;)
        if (plan->entries[i].what == what)
            *slot = plan->entries[i].slot;
}

static fv_week_plan rest_of(const fv_week_stand *stand)
{
    const fv_week_batch batch[] = {{.steam = 0}, {.steam = 20, .attended = 20, .cool = 80, .kg = 300.0, .fuel = 1e8}};
    size_t people[FV_WEEK_DAYS * 96];
    for (size_t s = 0; s < FV_WEEK_DAYS * 96; s++)
        people[s] = s % 96 >= 28 && s % 96 < 72 ? 2 : 0;
    const fv_week_problem problem = {.slots_a_day = 96,
                                     .people = people,
                                     .places = 1,
                                     .vessels = 4,
                                     .taken_off = true,
                                     .batch = batch,
                                     .task = {{3, 1}, {1, 1}, {1, 1}, {1, 1}, {2, 1}}};
    fv_week_plan week, rest;
    assert_int_equal(fv_week_search(&problem, &week), FV_OK);
    assert_int_equal(fv_week_search_rest(&problem, &week, stand, &rest), FV_OK);
    fv_week_plan_free(&week);
    return rest;
}

/* Wednesday's first batch is lit an hour late and takes an hour longer: its vessel comes off at 14:00, and the next,
 * lit at 14:30, would burn until 19:30, when nobody is there. Four days of two batches are left. */
static void a_late_batch_by_hand(void **state)
{
    (void)state;
    const fv_week_stand stand = {.at = 2 * 96 + 48, .lit = 2 * 96 + 32, .steam = 24, .cool = 80, .batch = 1};
    fv_week_plan rest = rest_of(&stand);
    size_t lit = 0, off = 0;
    set_first(&rest, FV_TASK_LIGHT, &lit);
    set_first(&rest, FV_TASK_TAKE_OFF, &off);
    assert_int_equal(rest.batches, 8);
    assert_true(rest.kg == 2400.0);
    assert_int_equal(off, 2 * 96 + 56);
    assert_int_equal(lit, 3 * 96 + 28);
    fv_week_plan_free(&rest);
}

/* Sunday's second batch burns until Monday, 03:30: taken off at 07:00, the next hung on by 07:30 and lit, the one after
 * at 13:00, half an hour later than always and just in time. */
static void a_batch_over_sunday_night_by_hand(void **state)
{
    (void)state;
    const fv_week_stand stand = {.at = 4, .lit = 6 * 96 + 50, .steam = 60, .cool = 80, .batch = 1};
    fv_week_plan rest = rest_of(&stand);
    size_t lit = 0;
    set_first(&rest, FV_TASK_LIGHT, &lit);
    assert_int_equal(rest.batches, 14);
    assert_int_equal(lit, 30);
    fv_week_plan_free(&rest);
}

/* ---- random weeks, written down for the checker in Python ---- */

static void write_week(FILE *out, unsigned seed, const small *s, const fv_week_plan *plan)
{
    fprintf(out, "problem,%u,%zu,%zu,%zu,%d", seed, s->problem.slots_a_day, s->problem.places, s->problem.vessels,
            s->problem.taken_off);
    for (size_t k = 0; k < FV_TASK_KINDS; k++)
        fprintf(out, ",%zu,%zu", s->problem.task[k].slots, s->problem.task[k].people);
    for (size_t k = 1; k <= fv_week_batches(&s->problem); k++)
        fprintf(out, ",%zu,%zu,%zu", s->batch[k].steam, s->batch[k].attended, s->batch[k].cool);
    for (size_t k = 0; k < s->problem.kind_count; k++) {
        fprintf(out, "\nkind,%u,%zu,%zu", seed, s->problem.kinds[k].places, s->problem.kinds[k].vessels);
        for (size_t b = 1; b <= s->problem.batch_count; b++)
            fprintf(out, ",%zu", s->batch[b].of[k]);
    }
    fprintf(out, "\npeople,%u", seed);
    for (size_t i = 0; i < SMALL_WEEK; i++)
        fprintf(out, ",%zu", s->people[i]);
    fprintf(out, "\n");
    for (size_t i = 0; i < plan->entry_count; i++)
        fprintf(out, "entry,%u,%zu,%s,%zu\n", seed, plan->entries[i].slot, fv_week_word(plan->entries[i].what),
                plan->entries[i].vessel);
}

static void random_weeks_are_written_down(void **state)
{
    (void)state;
    const char *path = getenv("WEEKS_TO");
    FILE *out = path ? fopen(path, "w") : NULL;
    const unsigned count = path && getenv("WEEKS") ? (unsigned)strtoul(getenv("WEEKS"), NULL, 10) : 50;
    for (unsigned seed = 1000; seed < 1000 + count; seed++) {
        small s;
        fv_week_plan plan;
        (seed % 2 ? make_unlike : make_small)(seed, &s);
        assert_int_equal(fv_week_search(&s.problem, &plan), FV_OK);
        assert_true(plan.kg <= plan.bound[plan.limit] * (1.0 + 1e-12));
        if (out)
            write_week(out, seed, &s, &plan);
        fv_week_plan_free(&plan);
    }
    if (out)
        assert_int_equal(fclose(out), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_weeks_are_the_best_there_are), cmocka_unit_test(one_vessel_by_hand),
        cmocka_unit_test(four_vessels_on_one_place_by_hand),  cmocka_unit_test(a_late_batch_by_hand),
        cmocka_unit_test(a_batch_over_sunday_night_by_hand),  cmocka_unit_test(nobody_is_there_long_enough_by_hand),
        cmocka_unit_test(unlike_vessels_go_as_is_best),       cmocka_unit_test(order_of_kinds_does_not_matter),
        cmocka_unit_test(random_weeks_are_written_down)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
