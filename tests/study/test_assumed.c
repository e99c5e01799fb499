/* SPDX-License-Identifier: MIT */
/* Assumptions ranked by what they move the last core: against runs of the plant with the same thing said. */
#include "farvessel/assumed.h"
#include "farvessel/change.h"
#include "farvessel/plantfile.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char PLANT[] = "networks/four-bins.xml";

static double last_core(const fv_plant *plant)
{
    fv_heat_options options;
    fv_faults *faults = fv_faults_new();
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    fv_heat_result *r = fv_heat_run(plant, &options, NULL, faults);
    double last = 0.0;
    assert_non_null(r);
    for (size_t i = 0; i < r->vessel_count; i++)
        last = fmax(last, r->vessels[i].core);
    fv_heat_free(r);
    fv_faults_free(faults);
    return last;
}

static const fv_assumed_row *find(const fv_assumed_answer *answer, const char *element, const char *attribute)
{
    for (size_t i = 0; i < answer->row_count; i++)
        if (strcmp(answer->rows[i].element->name, element) == 0 && strcmp(answer->rows[i].attr->name, attribute) == 0)
            return &answer->rows[i];
    return NULL;
}

/* The same change made by a setting, as a user would. */
static void check_setting(const fv_plant *plant, const fv_assumed_row *row, const char *path)
{
    fv_faults *faults = fv_faults_new();
    fv_setting setting = {path, row->attr->name, row->to};
    const fv_change change = {.settings = &setting, .count = 1};
    fv_plant *changed = fv_change_copy(&change, plant, faults);
    assert_non_null(changed);
    assert_true(fabs(last_core(changed) - row->last_core) < 1e-3);
    fv_plant_free(changed);
    fv_faults_free(faults);
}

static void ranks_what_a_run_with_it_said_gives(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(PLANT, NULL, faults);
    fv_assumed_answer *answer = fv_assumed_run(plant, 2, NULL, faults);
    assert_non_null(answer);
    assert_true(fabs(answer->last_core - last_core(plant)) < 1e-9);
    assert_true(answer->row_count > 5);
    for (size_t i = 0; i < answer->row_count; i++) {
        const fv_assumed_row *row = &answer->rows[i];
        assert_true(i == 0 || fabs(answer->rows[i - 1].shift) >= fabs(row->shift));
        assert_true(fabs(row->shift) >= 60.0);
        if (isfinite(row->shift))
            assert_true(fabs(row->last_core - answer->last_core - row->shift) < 1e-9);
    }
    check_setting(plant, find(answer, "site", "air"), "site");
    check_setting(plant, find(answer, "boiler", "dryness"), "boiler");
    fv_assumed_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

static void packing_stands_out(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read("networks/far-bench.xml", NULL, faults);
    fv_assumed_answer *answer = fv_assumed_run(plant, 0, NULL, faults);
    const fv_assumed_row *packing = find(answer, "load", "packing");
    assert_non_null(packing);
    /* A stack of 140 pieces is 5.2 times as wide as one of them: conduction takes about 27 times as long. */
    assert_true(packing == &answer->rows[0] && packing->shift > 10.0 * 3600.0);
    fv_assumed_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

static void is_the_same_for_any_number_of_threads(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read(PLANT, NULL, faults);
    fv_assumed_answer *one = fv_assumed_run(plant, 1, NULL, faults), *many = fv_assumed_run(plant, 5, NULL, faults);
    assert_int_equal(one->row_count, many->row_count);
    for (size_t i = 0; i < one->row_count; i++) {
        assert_ptr_equal(one->rows[i].attr, many->rows[i].attr);
        assert_memory_equal(&one->rows[i].last_core, &many->rows[i].last_core, sizeof(double));
    }
    fv_assumed_free(one);
    fv_assumed_free(many);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* A run of hundreds of vessels for each of dozens of assumptions takes minutes, and `check` is to answer at once. */
static void of_a_large_plant_none_is_tried(void **state)
{
    (void)state;
    fv_text text = {0};
    fv_text_add(&text,
                "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: many'><site air='15 degC'/>"
                "<boiler id='b' at='b0' output='500 kW' holds='0.3 bar' relief='0.5 bar'/>"
                "<kind id='drum' volume='208 L'><coil bore='20 mm' length='0.9 m' holes='20' drill='3 mm'/>"
                "<load form='block' a='10 cm' b='10 cm' c='20 cm' count='10'/><drain diameter='30 mm'/></kind>");
    for (int i = 0; i < 150; i++)
        fv_text_add(&text,
                    "<hose id='s%d' from='b0' to='c%d' length='4 m' bore='19 mm'/><vessel id='d%d' like='drum' "
                    "at='c%d'/>",
                    i, i, i, i);
    fv_text_add(&text, "</network>");
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "many.xml", NULL, faults);
    fv_assumed_answer *answer = fv_assumed_run(plant, 0, NULL, faults);
    assert_true(answer && answer->too_many && answer->runs == 0 && answer->row_count == 0);
    fv_assumed_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
    fv_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ranks_what_a_run_with_it_said_gives),
        cmocka_unit_test(packing_stands_out),
        cmocka_unit_test(is_the_same_for_any_number_of_threads),
        cmocka_unit_test(of_a_large_plant_none_is_tried),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
