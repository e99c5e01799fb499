/* SPDX-License-Identifier: MIT */
/* Loads that weigh what their medium cannot or hardly can, and the slip that is named. Usual densities are common
 * practice, no source; the most that goes in is a balance of volumes: (1 - w)/1530 + w/998 m3 for a kg of wet wood. */
#include "farvessel/plantfile.h"
#include "steady/plants.h"

static const char PLANT[] = "<network xmlns=\"urn:farvessel:network:1\"><site pressure=\"101325 Pa\"/>"
                            "<boiler id=\"boiler\" at=\"a\" output=\"20 kW\" relief=\"1.2 bar\"/>"
                            "<hose id=\"s\" from=\"a\" to=\"c\" length=\"2 m\" bore=\"19 mm\"/>"
                            "<kind id=\"k\" volume=\"1 m3\">"
                            "<coil bore=\"27 mm\" length=\"2 m\" holes=\"20\" drill=\"3 mm\"/>"
                            "<load a=\"13 cm\" b=\"13 cm\" c=\"20 cm\" %s/>"
                            "<vent diameter=\"20 mm\"/></kind><vessel id=\"bin\" like=\"k\" at=\"c\"/></network>";

typedef struct {
    const char *load, *text; /* NULL: nothing is said */
    bool error;
} weighed;

static const weighed cases[] = {
    {"count=\"40\" mass=\"92 kg\"", NULL, false},
    {"count=\"40\" mass-each=\"2.3 kg\"", NULL, false},
    {"mass=\"92 kg\" mass-each=\"2.3 kg\"", NULL, false},
    {"count=\"40\" mass=\"2.3 kg\"",
     "comes to 17 kg/m3 of its pieces; wood at 60 % moisture is usually near 625 kg/m3; is 2.3 kg the mass of one "
     "piece? "
     "then write mass-each=\"2.3 kg\" instead of mass",
     false},
    {"count=\"40\" mass=\"203 kg\"", "are 203 lb meant? then write mass=\"203 lb\"", true},
    {"count=\"40\" mass=\"30 kg\"", "was the mass 66.14 kg, noted as pounds?", false},
    /* 1/(0.4/1530 + 0.6/998) is 1159 kg/m3, and 5 % more is let pass: 1217 x 0.1352 m3 = 164.5 kg */
    {"count=\"40\" mass=\"164 kg\"", NULL, false},
    {"count=\"40\" mass=\"171 kg\"", "so much does not go into that volume without pores", true},
};

static void loads_are_weighed(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fv_text text = {0};
        fv_text_add(&text, PLANT, cases[i].load);
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "plant.xml", NULL, faults);
        assert_non_null(plant);
        const bool good = fv_steady_remarks(plant, NULL, faults) == FV_OK;
        bool said = false;
        for (size_t k = 0; k < fv_faults_count(faults); k++) {
            const char *words = fv_faults_at(faults, k)->text;
            if (strstr(words, "kg/m3")) {
                print_message("%s: %s\n", cases[i].load, words);
                assert_non_null(cases[i].text);
                said = strstr(words, cases[i].text) != NULL;
            }
        }
        assert_int_equal(said, cases[i].text != NULL);
        assert_int_equal(good, !cases[i].error);
        fv_plant_free(plant);
        fv_faults_free(faults);
        fv_text_free(&text);
    }
}

/* Of count, mass and mass of each, two give the third, and a vessel's own word outdoes its kind's. */
static void two_give_the_third(void **state)
{
    (void)state;
    static const struct {
        const char *load;
        double count, mass;
    } rows[] = {{"count=\"40\" mass-each=\"2.3 kg\"", 40, 92}, {"mass=\"92 kg\" mass-each=\"2.3 kg\"", 40, 92}};
    for (size_t i = 0; i < 2; i++) {
        fv_text text = {0};
        fv_text_add(&text, PLANT, rows[i].load);
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "plant.xml", NULL, faults);
        assert_non_null(plant);
        fv_load *load = &plant->vessels[0]->load;
        assert_true(fabs(load->count.v - rows[i].count) < 1e-9 && fabs(load->mass.v - rows[i].mass) < 1e-9);
        load->count = fv_given(30);
        assert_int_equal(fv_plant_link(plant, faults), FV_OK);
        assert_true(fabs(load->count.v - 30) < 1e-9 && fabs(load->mass.v - 69) < 1e-9);
        load->count = (fv_value){.v = NAN};
        load->mass = fv_given(46);
        assert_int_equal(fv_plant_link(plant, faults), FV_OK);
        assert_true(fabs(load->count.v - 20) < 1e-9 && fabs(load->mass.v - 46) < 1e-9);
        fv_plant_free(plant);
        fv_faults_free(faults);
        fv_text_free(&text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(loads_are_weighed), cmocka_unit_test(two_give_the_third)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
