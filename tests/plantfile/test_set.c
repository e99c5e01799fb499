/* SPDX-License-Identifier: MIT */
/* --set: what it refuses, and what it says. */
#include "farvessel/plantfile.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const char *setting, *message;
} refusal;

static const refusal refusals[] = {
    {"s1.bore=25", "s1: bore=\"25\": a bare number; expected a length"},
    {"s1.bore", "'s1.bore' has no '='; write part.attribute=value, such as s1.bore=25 mm"},
    {"bore=25 mm", "'bore' names no attribute; write part.attribute=value"},
    {"=25 mm", "'' names no attribute"},
    {"s1.=25 mm", "'s1.' names no attribute"},
    {"x1.bore=25 mm", "nothing is called 'x1'; did you mean 'h1'?"},
    {"binn1.target=80 degC", "nothing is called 'binn1'; did you mean 'bin1'?"},
    {"bin1.lod.mass=3 kg", "nothing is called 'bin1.lod'"},
    {"bin1.wall3.area=3 m2", "nothing is called 'bin1.wall3'"},
    {"bin1.wall0.area=3 m2", "nothing is called 'bin1.wall0'"},
    {"s1.boer=25 mm", "s1 is a hose, which has no 'boer' that can be set; did you mean 'bore'?"},
    {"s1.id=s9", "s1 is a hose, which has no 'id' that can be set"},
    {"s1.condensate=up", "s1: condensate=\"up\"; it must be with, back or drip"},
    {"s1.bore=3 m", "hose 's1': bore is 3 m; it must be between 1 mm and 1 m"},
    {"s1.to=c9", "vessel 'bin1': no line ends at its joint 'c1'"},
    {"bin1.like=bun", "vessel 'bin1' is like 'bun', but nothing has that id"},
    {"boiler.relief=50 mbar", "relief is 50 mbar, below the 0.1 bar that the boiler holds"},
};

static void wrong_settings_are_refused(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read("networks/four-bins.xml", NULL, faults);
        assert_non_null(plant);
        bool said = false;
        assert_int_equal(fv_plantfile_set(plant, &refusals[i].setting, 1, faults), FV_FAIL);
        for (size_t j = 0; j < fv_faults_count(faults); j++)
            said = said || strstr(fv_faults_at(faults, j)->text, refusals[i].message);
        if (!said)
            for (size_t j = 0; j < fv_faults_count(faults); j++)
                printf("%s: %s\n", refusals[i].setting, fv_faults_at(faults, j)->text);
        assert_true(said);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
}

/* Two changes that are right only together, and their file in messages. */
static void changes_are_made_together(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read("networks/four-bins.xml", NULL, faults);
    const char *const both[] = {"boiler.relief = 3 psi", "boiler.holds= 2 psi"};
    assert_int_equal(fv_plantfile_set(plant, both, 2, faults), FV_OK);
    assert_int_equal(plant->boilers[0]->holds.origin, FV_SETTING);
    const char *wrong = "s1.bore=-1 mm";
    size_t before = fv_faults_count(faults);
    assert_int_equal(fv_plantfile_set(plant, &wrong, 1, faults), FV_FAIL);
    assert_string_equal(fv_faults_at(faults, before)->file, "--set");
    fv_plant_free(plant);
    fv_faults_free(faults);
}

static void cautions_are_said_once(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read("networks/far-bench.xml", NULL, faults);
    size_t before = fv_faults_count(faults);
    assert_true(before > 0);
    const char *change = "site.air=4 degC";
    assert_int_equal(fv_plantfile_set(plant, &change, 1, faults), FV_OK);
    assert_int_equal(fv_faults_count(faults), before);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wrong_settings_are_refused),
        cmocka_unit_test(changes_are_made_together),
        cmocka_unit_test(cautions_are_said_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
