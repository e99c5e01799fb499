/* SPDX-License-Identifier: MIT */
/* What is read, written and read again is the same plant, bit for bit; settings and kinds survive. */
#include "compare.h"

#include <glob.h>
#include <setjmp.h>
#include <stdint.h>

#include <cmocka.h>

static void show(const fv_faults *faults)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        printf("  %d: %s\n", fv_faults_at(faults, i)->line, fv_faults_at(faults, i)->text);
}

static fv_plant *must_read(const char *path)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(path, NULL, faults);
    if (!plant)
        show(faults);
    assert_non_null(plant);
    fv_faults_free(faults);
    return plant;
}

static fv_plant *rewritten(const fv_plant *plant, fv_text *text)
{
    fv_faults *faults = fv_faults_new();
    assert_true(fv_plantfile_write(plant, text));
    fv_plant *again = fv_plantfile_read_memory(text->text, text->length, "again.xml", NULL, faults);
    if (!again)
        show(faults);
    assert_non_null(again);
    fv_faults_free(faults);
    return again;
}

static void must_set(fv_plant *plant, const char *setting)
{
    fv_faults *faults = fv_faults_new();
    if (fv_plantfile_set(plant, &setting, 1, faults) != FV_OK) {
        printf("%s\n", setting);
        show(faults);
        fail();
    }
    fv_faults_free(faults);
}

static void every_network_comes_back(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob("networks/*.xml", 0, NULL, &found), 0);
    assert_true(found.gl_pathc >= 5);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        fv_text text = {0}, second = {0};
        fv_plant *plant = must_read(found.gl_pathv[i]);
        fv_plant *again = rewritten(plant, &text);
        if (!compare_plants(plant, again, true))
            fail_msg("%s does not come back", found.gl_pathv[i]);
        assert_true(fv_plantfile_write(again, &second));
        assert_string_equal(text.text, second.text);
        fv_plant *copy = fv_plant_copy(plant);
        assert_true(compare_plants(plant, copy, true));
        fv_plant_free(copy);
        fv_plant_free(plant);
        fv_plant_free(again);
        fv_text_free(&text);
        fv_text_free(&second);
    }
    globfree(&found);
}

/* Settings in every sort of place: values, words, texts, kinds, lists taken over from a kind. */
static const char *const settings[] = {
    "s1.bore=24 mm",
    "s4.length=31 ft",
    "s2.condensate=back",
    "s3.material=silicone",
    "site.air=-5 degC",
    "boiler.fire=50 %",
    "v1.open=0.5",
    "s2.barb.bore=18 mm",
    "bin.load.moisture=65 %",
    "bin.coil.drill=2 mm",
    "bin2.coil.drill=1.7 mm",
    "bin2.target=80 degC",
    "bin.wall1.emissivity=0.7",
    "bin3.wall2.layer1.thickness=0.0213 m",
    "bin3.wall2.layer2.material=phenolic-foam",
    "bin4.vent.diameter=1 1/8 in",
    "bin1.shell.mass=31.7 lb",
    "bin4.load.mass=313.123456789 kg",
    "bin4.start-after=bin1 core",
};

static void settings_survive(void **state)
{
    (void)state;
    fv_plant *plant = must_read("networks/four-bins.xml");
    for (size_t i = 0; i < sizeof settings / sizeof *settings; i++) {
        fv_text text = {0};
        must_set(plant, settings[i]);
        fv_plant *again = rewritten(plant, &text);
        if (!compare_plants(plant, again, false))
            fail_msg("%s does not survive", settings[i]);
        fv_plant_free(again);
        fv_text_free(&text);
    }
    assert_true(plant->vessels[0]->coil.drill.v == 0.002);
    assert_int_equal(plant->vessels[0]->coil.drill.origin, FV_KIND);
    assert_int_equal(plant->vessels[1]->coil.drill.origin, FV_SETTING);
    assert_false(fv_is_set(plant->vessels[3]->load.count));
    fv_plant_free(plant);
}

/* The height of a wall, known by tape, has no effect beside an outside coefficient and is not written with it. */
static void what_is_outdone_goes(void **state)
{
    (void)state;
    fv_text text = {0};
    fv_plant *plant = must_read("networks/four-bins.xml");
    assert_int_equal(plant->kinds[0]->walls[0]->height.origin, FV_GIVEN);
    must_set(plant, "bin.wall1.outside=10 W/m2/K");
    fv_plant *again = rewritten(plant, &text);
    assert_int_equal(again->kinds[0]->walls[0]->height.origin, FV_ASSUMED);
    assert_true(again->kinds[0]->walls[0]->outside.v == 10);
    fv_plant_free(again);
    fv_plant_free(plant);
    fv_text_free(&text);
}

static void lists_taken_over_by_lines_survive(void **state)
{
    (void)state;
    fv_text text = {0};
    fv_plant *plant = must_read("networks/far-bench.xml");
    must_set(plant, "s6.barb.bore=14 mm");
    must_set(plant, "s5.valve.type=globe-valve");
    must_set(plant, "s1.barb.count=3"); /* the others keep what they had from it */
    assert_true(plant->lines[6]->fittings[1]->count.v == 3.0);
    assert_true(plant->lines[7]->fittings[1]->count.v == 2.0);
    assert_string_equal(plant->lines[10]->fittings[0]->type, "globe-valve");
    fv_plant *again = rewritten(plant, &text);
    assert_true(compare_plants(plant, again, false));
    fv_plant_free(again);
    fv_plant_free(plant);
    fv_text_free(&text);
}

/* Who is like a part that changed alone, in what nobody had said: such a value is not given to it, and no file can say
 * that, so it is written in full. */
static void what_nobody_said_survives(void **state)
{
    (void)state;
    fv_text text = {0};
    fv_plant *plant = must_read("networks/far-bench.xml");
    must_set(plant, "s1.wind=3 m/s");
    assert_true(plant->lines[6]->wind.v == 3.0 && !fv_is_set(plant->lines[7]->wind));
    fv_plant *again = rewritten(plant, &text);
    assert_null(strstr(text.text, "like=\"s1\""));
    assert_non_null(strstr(text.text, "like=\"chest\""));
    for (size_t i = 0; i < plant->line_count; i++)
        plant->lines[i]->part.like = NULL;
    assert_true(compare_plants(plant, again, false));
    fv_plant_free(again);
    fv_plant_free(plant);
    fv_text_free(&text);
}

static void odd_texts_survive(void **state)
{
    (void)state;
    fv_text text = {0};
    fv_plant *plant = must_read("networks/hand.xml");
    plant->title = "5 < 6 & \"7\" > 'x'\t\xc3\xa9 \n end";
    plant->currency = "\xe2\x82\xac";
    fv_plant *again = rewritten(plant, &text);
    assert_string_equal(again->title, plant->title);
    assert_string_equal(again->currency, plant->currency);
    fv_plant_free(again);
    fv_plant_free(plant);
    fv_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_network_comes_back),  cmocka_unit_test(settings_survive),
        cmocka_unit_test(what_is_outdone_goes),      cmocka_unit_test(lists_taken_over_by_lines_survive),
        cmocka_unit_test(what_nobody_said_survives), cmocka_unit_test(odd_texts_survive),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
