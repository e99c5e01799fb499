/* SPDX-License-Identifier: MIT */
/* What taking a cause away does to the plant, by hand. */
#include "study/nursery.h"

#include "study/ideal.h"

/* `slow`: how long bin3's load takes, where the others' take 1. */
static fv_plant *ideal_with(fv_plant *plant, fv_why_cause cause, int only, double slow)
{
    fv_arena *arena = fv_arena_new();
    study_ways ways;
    double need[3] = {1, 1, 1}, ample[3] = {1, 1, slow};
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

static fv_plant *ideal_of(fv_plant *plant, fv_why_cause cause, int only)
{
    return ideal_with(plant, cause, only, 1);
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

/* The third bin's load is heavier than the others', in six ways of writing it: each time it becomes one like theirs. */
static void load(void **state)
{
    (void)state;
    static const char *const ways[][4] = {
        {"bin3.load.count=80", "bin3.load.mass=250 kg", NULL},
        {"bin3.load.mass=250 kg", NULL},
        {"bin3.load.mass=250 kg", "bin3.load.density=924.556 kg/m3", NULL},
        {"bin3.load.count=80", "bin3.load.mass=250 kg", "bin3.load.start-temperature=10 degC", NULL},
        {"bin3.load.count=80", "bin3.load.mass=250 kg", "bin3.load.cooling-surface=12 W/m2/K", NULL},
        {"bin3.load.count=80", "bin3.load.mass=250 kg", "bin3.load.takes-condensate=0 %", NULL}};
    for (size_t w = 0; w < sizeof ways / sizeof *ways; w++) {
        fv_plant *plant = nursery_plant(nursery_row, ways[w]);
        fv_plant *ideal = ideal_with(plant, FV_WHY_LOAD, 2, 2);
        fv_load *is = &ideal->vessels[2]->load, *usual = &plant->vessels[0]->load;
        const fv_element *element = usual->part.element;
        for (size_t i = 0; i < element->attr_count; i++) {
            const fv_value *a = fv_attr_value(is, &element->attrs[i]), *b = fv_attr_value(usual, &element->attrs[i]);
            if (fv_is_set(*a) != fv_is_set(*b) || (fv_is_set(*a) && a->v != b->v))
                print_error("way %zu: %s\n", w + 1, element->attrs[i].name);
            assert_true(fv_is_set(*a) == fv_is_set(*b) && (!fv_is_set(*a) || a->v == b->v));
        }
        fv_plant_free(ideal);
        fv_plant_free(plant);
    }
}

/* A hose that others are like is made smooth for its own vessel alone. */
static void only_one(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL), *ideal = ideal_of(plant, FV_WHY_HOSE, 0);
    assert_true(ideal->lines[fv_plant_line_index(ideal, "s1")]->friction.v < 1e-3);
    assert_false(fv_is_set(ideal->lines[fv_plant_line_index(ideal, "s2")]->friction));
    fv_plant_free(ideal);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(air),   cmocka_unit_test(boiler), cmocka_unit_test(lines),
                                       cmocka_unit_test(holes), cmocka_unit_test(load),   cmocka_unit_test(only_one)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
