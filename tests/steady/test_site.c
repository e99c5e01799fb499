/* SPDX-License-Identifier: MIT */
/* What is said of a plant on its site: each remark where it is due, and not a step short of it. */
#include "farvessel/plantfile.h"
#include "steady/plants.h"

/* One boiler, a lagged header and a hose to a vessel with a wall; what a case changes stands in place of the marks. */
static const char PLANT[] = "<network xmlns=\"urn:farvessel:network:1\"><site pressure=\"101325 Pa\"/>"
                            "<boiler id=\"boiler\" at=\"a\" output=\"20 kW\" relief=\"1.2 bar\" %s/>"
                            "<header id=\"h\" from=\"a\" to=\"t\" length=\"2 m\" bore=\"40 mm\" lagging=\"20 mm\" %s/>"
                            "<hose id=\"s\" from=\"t\" to=\"c\" length=\"2 m\" bore=\"19 mm\" %s/>"
                            "<vessel id=\"bin\" at=\"c\" volume=\"1 m3\" %s>"
                            "<coil bore=\"27 mm\" length=\"2 m\" holes=\"20\" drill=\"3 mm\"/>"
                            "<load form=\"block\" a=\"0.1 m\" b=\"0.1 m\" c=\"0.2 m\" count=\"40\" mass=\"60 kg\"/>"
                            "<wall area=\"4 m2\"><layer material=\"plywood\" thickness=\"15 mm\"/></wall>"
                            "<vent diameter=\"20 mm\"/></vessel></network>";

typedef struct {
    const char *boiler, *header, *hose, *vessel;
    const char *text;
    bool due, error;
} remark;

static const char FEED[] =
    "boiler 'boiler': its feed water is at 100.0 degC, at or above the boiling point here, 100.0 degC";
static const char CHOKES[] = "boiler 'boiler': it holds more than 0.5 bar; where steam chokes it is then some percent "
                             "lighter than this model has it";
static const char NEAR[] = "vessel 'bin': its target of 98.0 degC is within 2 K of the boiling point here, 100.0 degC: "
                           "the time to it is ill-conditioned";
static const char TARGET[] = "vessel 'bin': its target is 100.0 degC, but water boils at 100.0 degC on this site and a "
                             "vented vessel gets no hotter; take a lower target and a longer hold";
static const char HOSE[] = "hose 's': rubber is not rated above 120 degC and may meet 120 degC";
static const char LAGGING[] = "header 'h': elastomeric-foam is not rated above 105 degC and may meet 105 degC";

/* Steam is at 105 degC at 0.196 bar, at 120 degC at 0.974 bar above an air of 101325 Pa (IAPWS R7-97). */
static const remark remarks[] = {
    {"feed=\"99.9 degC\"", "", "", "", FEED, false, false},
    {"feed=\"100 degC\"", "", "", "", FEED, true, true},
    {"holds=\"0.5 bar\"", "", "", "", CHOKES, false, false},
    {"holds=\"0.51 bar\"", "", "", "", CHOKES, true, false},
    {"", "", "", "target=\"97.9 degC\"", NEAR, false, false},
    {"", "", "", "target=\"98 degC\"", NEAR, true, false},
    {"", "", "", "target=\"99.9 degC\"", TARGET, false, false},
    {"", "", "", "target=\"100 degC\"", TARGET, true, false},
    {"holds=\"0.97 bar\"", "", "material=\"rubber\"", "", HOSE, false, false},
    {"holds=\"0.98 bar\"", "", "material=\"rubber\"", "", HOSE, true, false},
    {"holds=\"0.19 bar\"", "lagging-material=\"elastomeric-foam\"", "", "", LAGGING, false, false},
    {"holds=\"0.2 bar\"", "lagging-material=\"elastomeric-foam\"", "", "", LAGGING, true, false},
};

static const fv_fault *find_said(const fv_faults *faults, const char *text)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        if (strcmp(fv_faults_at(faults, i)->text, text) == 0)
            return fv_faults_at(faults, i);
    return NULL;
}

static void remarks_where_they_are_due(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof remarks / sizeof *remarks; i++) {
        const remark *r = &remarks[i];
        fv_text text = {0};
        fv_text_add(&text, PLANT, r->boiler, r->header, r->hose, r->vessel);
        fv_faults *reading = fv_faults_new(), *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read_memory(text.text, text.length, "plant.xml", NULL, reading);
        for (size_t k = 0; !plant && k < fv_faults_count(reading); k++)
            printf("fault: %s\n", fv_faults_at(reading, k)->text);
        assert_non_null(plant);
        fv_steady_check(plant, fv_sat_line(), faults);
        const fv_fault *said = find_said(faults, r->text);
        for (size_t k = 0; (said != NULL) != r->due && k < fv_faults_count(faults); k++)
            printf("case %zu says: %s\n", i, fv_faults_at(faults, k)->text);
        assert_int_equal(said != NULL, r->due);
        assert_true(!said || said->caution == !r->error);
        fv_plant_free(plant);
        fv_faults_free(faults);
        fv_faults_free(reading);
        fv_text_free(&text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(remarks_where_they_are_due)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
