/* SPDX-License-Identifier: MIT */
/* Changes as settings: made, written, and read back by --set to the same plant. */
#include "study/nursery.h"
#include "yard.h"

static fv_setting list[] = {{"s3", "bore", 0.0254},
                            {"s3.barb1", "bore", 0.0221},
                            {"bin2.coil", "holes", 12},
                            {"bin2.coil", "clogged", 1.0 / 3},
                            {"bin3.load", "packing", FV_PACKING_PACKED},
                            {"boiler", "output", 22222.2},
                            {"bin1.wall1", "outside", 0.826},
                            {"bin1.wall1.layer2", "thickness", 0.0317},
                            {"site", "air", 268.15},
                            {"bin3", "start", 5400},
                            {"bin3.opening1", "diameter", 0.0107},
                            {"h2", "lagging-conductivity", 0.0377}};
enum { COUNT = sizeof list / sizeof *list };
static const fv_change change = {.settings = list, .count = COUNT};

static double value_at(const fv_plant *plant, const fv_setting *setting)
{
    const fv_element *element;
    void *part = fv_plant_find(plant, setting->path, &element);
    assert_non_null(part);
    return fv_attr_value(part, fv_attr_find(element, setting->attribute))->v;
}

static void write_out(const fv_plant *plant, fv_text *out)
{
    *out = (fv_text){0};
    assert_true(fv_plantfile_write(plant, out));
}

static void same_as_set(void **state)
{
    (void)state;
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    fv_faults *faults = fv_faults_new();
    fv_text before, after, ours, theirs, texts[COUNT];
    const char *settings[COUNT + 1] = {NULL};
    write_out(plant, &before);
    fv_plant *copy = fv_change_copy(&change, plant, faults);
    assert_non_null(copy);
    for (size_t i = 0; i < COUNT; i++) {
        texts[i] = (fv_text){0};
        assert_true(fv_setting_write(&list[i], plant, &texts[i]));
        settings[i] = texts[i].text;
        assert_true(value_at(copy, &list[i]) == list[i].si);
    }
    assert_string_equal(settings[0], "s3.bore=1 in");
    assert_string_equal(settings[4], "bin3.load.packing=packed");
    fv_plant *set = nursery_plant(nursery_row, settings);
    for (size_t i = 0; i < COUNT; i++)
        assert_true(value_at(set, &list[i]) == list[i].si);
    write_out(copy, &ours);
    write_out(set, &theirs);
    assert_string_equal(ours.text, theirs.text);
    write_out(plant, &after);
    assert_string_equal(before.text, after.text); /* the plant itself is untouched */
    for (size_t i = 0; i < COUNT; i++)
        fv_text_free(&texts[i]);
    fv_text_free(&before);
    fv_text_free(&after);
    fv_text_free(&ours);
    fv_text_free(&theirs);
    fv_plant_free(set);
    fv_plant_free(copy);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* s2 and s3 are like s1: who exchanges s1 and its barbs has done nothing to them, however often the plant is linked,
 * and in a file, too. */
static void a_part_changes_alone(void **state)
{
    (void)state;
    static fv_setting one[] = {{"s1", "bore", 0.0254}, {"s1.barb1", "bore", 0.0221}};
    static const fv_setting others[] = {{"s2", "bore", 0}, {"s2.barb1", "bore", 0}, {"s3.barb1", "bore", 0}};
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    fv_faults *faults = fv_faults_new();
    fv_plant *copy = fv_change_copy(&(fv_change){.settings = one, .count = 2}, plant, faults);
    fv_text text;
    assert_non_null(copy);
    assert_int_equal(fv_plant_link(copy, faults), FV_OK);
    write_out(copy, &text);
    fv_plant *again = fv_plantfile_read_memory(text.text, text.length, "again.xml", NULL, faults);
    assert_non_null(again);
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        assert_true(value_at(copy, &others[i]) == value_at(plant, &others[i]));
        assert_true(value_at(again, &others[i]) == value_at(plant, &others[i]));
    }
    for (size_t i = 0; i < 2; i++)
        assert_true(value_at(copy, &one[i]) == one[i].si && value_at(again, &one[i]) == one[i].si);
    fv_text_free(&text);
    fv_plant_free(again);
    fv_plant_free(copy);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

static void says_what_is_wrong(void **state)
{
    (void)state;
    static fv_setting wrong[] = {
        {"s9", "bore", 0.02}, {"s3", "colour", 1}, {"bin1", "like", 1}, {"s3", "bore", 20}, {"s1.barb1", "bore", 0.03}};
    static const char *const said[] = {"nothing is called 's9'", "'s3' is a hose, which has no value called 'colour'",
                                       "'bin1' is a vessel, which has no value called 'like'", "must be", "barb"};
    fv_plant *plant = nursery_plant(nursery_row, NULL);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        fv_faults *faults = fv_faults_new();
        assert_null(fv_change_copy(&(fv_change){.settings = &wrong[i], .count = 1}, plant, faults));
        assert_true(fv_faults_errors(faults) > 0);
        bool found = false;
        for (size_t k = 0; k < fv_faults_count(faults); k++)
            found = found || strstr(fv_faults_at(faults, k)->text, said[i]);
        assert_true(found);
        fv_faults_free(faults);
    }
    fv_text text = {0};
    assert_false(fv_setting_write(&wrong[0], plant, &text));
    assert_false(fv_setting_write(&wrong[1], plant, &text));
    assert_false(fv_setting_write(&(fv_setting){"s3", "bore", (double)NAN}, plant, &text));
    assert_false(fv_setting_write(&(fv_setting){"bin1.load", "packing", (double)NAN}, plant, &text));
    fv_text_free(&text);
    fv_plant_free(plant);
}

/* 24 rolls of 12 x 30 cm take 0.39 of 210 L and 0.43 of 190 L: above 0.4 a file must say how they are packed. */
static void a_study_does_not_ask_for_packing(void **state)
{
    fv_plant *plant = yard_read(YARD_PLAIN);
    fv_faults *faults = fv_faults_new();
    fv_setting smaller[] = {{.path = "d1", .attribute = "volume", .si = 0.19}};
    const fv_change less = {.settings = smaller, .count = 1}, nothing = {0};
    (void)state;
    fv_plant *studied = fv_change_copy(&less, plant, faults);
    assert_non_null(studied);
    assert_int_equal(fv_packing_check(studied, NULL, faults), FV_OK);
    fv_plant_free(studied);
    plant->vessels[0]->volume =
        (fv_value){.v = 0.19, .origin = FV_GIVEN}; /* refused as it is, it is refused with a change, too */
    studied = fv_change_copy(&nothing, plant, faults);
    assert_non_null(studied);
    assert_int_equal(fv_packing_check(studied, NULL, faults), FV_FAIL);
    fv_plant_free(studied);
    fv_faults_free(faults);
    fv_plant_free(plant);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(same_as_set), cmocka_unit_test(a_part_changes_alone),
                                       cmocka_unit_test(says_what_is_wrong),
                                       cmocka_unit_test(a_study_does_not_ask_for_packing)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
