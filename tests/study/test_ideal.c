/* SPDX-License-Identifier: MIT */
/* What taking a cause away does to the plant, by hand. */
#include "study/nursery.h"

#include "study/why/ideal.h"

static fv_plant *ideal_of(fv_plant *plant, fv_why_cause cause, int only)
{
    fv_arena *arena = fv_arena_new();
    study_ways ways;
    double need[3] = {1, 1, 1}, ample[3] = {1, 1, 1};
    assert_true(study_ways_find(plant, arena, &ways));
    const study_basis basis = {.plant = plant, .ways = &ways, .need = need, .ample = ample};
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = fv_plant_copy(plant);
    study_causes changed = 0;
    assert_int_not_equal(study_idealize(&basis, study_cause_bit(cause), only, copy, &changed, faults), FV_FAIL);
    nursery_say(faults);
    fv_faults_free(faults);
    fv_arena_free(arena);
    return copy;
}

/* 80 blocks of 13 x 13 x 20 cm are 0.2704 m3, and a tenth of the room stays gas: 0.2704/0.9. */
static void air(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL), *ideal = ideal_of(plant, FV_WHY_AIR, -1);
    for (int i = 0; i < 3; i++)
        assert_true(fabs(ideal->vessels[i]->volume.v - 80 * 0.13 * 0.13 * 0.2 / 0.9) < 1e-9);
    fv_plant_free(ideal);
    ideal = ideal_of(plant, FV_WHY_AIR, 1);
    assert_true(ideal->vessels[0]->volume.v == 0.9 && ideal->vessels[1]->volume.v < 0.9);
    fv_plant_free(ideal);
    fv_plant_free(plant);
}

/* Four times the output, the water and steel that it has. */
static void boiler(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL), *ideal = ideal_of(plant, FV_WHY_BOILER, -1);
    assert_true(fabs(ideal->boilers[0]->output.v - 120e3) < 1e-6);
    assert_true(ideal->boilers[0]->water.v == plant->boilers[0]->water.v);
    assert_true(ideal->boilers[0]->usable.v == plant->boilers[0]->usable.v);
    assert_true(ideal->boilers[0]->steel.v == plant->boilers[0]->steel.v);
    fv_plant_free(ideal);
    fv_plant_free(plant);
}

static void lines(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, (const char *const[]){"s3.sag=60 mm", NULL});
    fv_plant *ideal = ideal_of(plant, FV_WHY_SAG, -1);
    assert_true(plant->lines[fv_plant_line_index(plant, "s3")]->sag.v > 0.05);
    assert_true(ideal->lines[fv_plant_line_index(ideal, "s3")]->sag.v == 0);
    fv_plant_free(ideal);
    /* The hoses are the vessels' own, the header sections shared; h3 leads to bin3 alone, but a header is a header. */
    ideal = ideal_of(plant, FV_WHY_HOSE, -1);
    assert_true(ideal->lines[fv_plant_line_index(ideal, "s2")]->friction.v < 1e-3);
    assert_false(fv_is_set(ideal->lines[fv_plant_line_index(ideal, "h2")]->friction));
    fv_plant_free(ideal);
    ideal = ideal_of(plant, FV_WHY_HEADER, -1);
    assert_true(ideal->lines[fv_plant_line_index(ideal, "h3")]->friction.v < 1e-3);
    assert_false(fv_is_set(ideal->lines[fv_plant_line_index(ideal, "s2")]->friction));
    fv_plant_free(ideal);
    fv_plant_free(plant);
}

/* Equal needs, unequal holes: each gets a third of all the area, so the mean of the squares of the diameters. */
static void holes(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, (const char *const[]){"bin1.coil.drill=9 mm", NULL});
    fv_plant *ideal = ideal_of(plant, FV_WHY_HOLES, -1);
    const double area = study_drilled_area(&ideal->vessels[0]->coil);
    for (int i = 0; i < 3; i++)
        assert_true(fabs(study_drilled_area(&ideal->vessels[i]->coil) / area - 1) < 1e-9);
    const double drill = ideal->vessels[0]->coil.drill.v, mean = sqrt((81 + 49 + 49) / 3.0) * 1e-3;
    print_message("holes: %.4g mm, at least the mean of all, %.4g mm\n", 1e3 * drill, 1e3 * mean);
    assert_true(drill > mean * (1 - 1e-9));
    fv_plant_free(ideal);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(air), cmocka_unit_test(boiler), cmocka_unit_test(lines),
                                       cmocka_unit_test(holes)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
