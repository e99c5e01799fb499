/* SPDX-License-Identifier: MIT */
/* What a file says arrives as it was meant: values in SI, origins, how they are known, encodings, standard input. */
#include "farvessel/plantfile.h"

#include <math.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define OPEN "<network xmlns=\"" FV_PLANTFILE_NAMESPACE "\" title=\"K\xc3\xbchlraum\">"
#define BODY                                                                                                           \
    "<site altitude='1000 ft'/>"                                                                                       \
    "<boiler id='b' at='n' output='2 boiler_horsepower' relief='4 psi' known='nameplate relief:guess'/>"               \
    "<hose id='s' from='n' to='c' length='10 ft' bore='3/4 in' known='tape'/>"                                         \
    "<vessel id='v' at='c'><coil bore='1 in' length='2 m' holes='10' drill='3 mm'/>"                                   \
    "<drain diameter='25 mm'/></vessel></network>"

static fv_plant *must_read(const char *bytes, size_t length)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(bytes, length, "x.xml", NULL, faults);
    for (size_t i = 0; !plant && i < fv_faults_count(faults); i++)
        printf("%d: %s\n", fv_faults_at(faults, i)->line, fv_faults_at(faults, i)->text);
    assert_non_null(plant);
    fv_faults_free(faults);
    return plant;
}

/* The inch (25.4 mm), the foot, the pound and standard gravity are exact by definition; the boiler horsepower is the
 * 33 475 Btu/h of the trade. */
static void values_arrive_in_si(void **state)
{
    (void)state;
    fv_plant *p = must_read(OPEN BODY, strlen(OPEN BODY));
    assert_true(fabs(p->site.altitude.v - 304.8) < 1e-12);
    assert_true(fabs(p->boilers[0]->output.v / (2 * 33475.0 * 1055.05585262 / 3600.0) - 1.0) < 1e-4);
    assert_true(fabs(p->boilers[0]->relief.v / (4 * 6894.757293168) - 1.0) < 1e-12);
    assert_true(fabs(p->lines[0]->length.v - 3.048) < 1e-12);
    assert_true(fabs(p->lines[0]->bore.v - 0.01905) < 1e-15);
    assert_int_equal(p->lines[0]->kind, FV_LINE_HOSE);
    assert_true(p->vessels[0]->coil.holes.v == 10.0);
    assert_string_equal(p->title, "K\xc3\xbchlraum");
    fv_plant_free(p);
}

static void origins_and_knowledge_arrive(void **state)
{
    (void)state;
    fv_plant *p = must_read(OPEN BODY, strlen(OPEN BODY));
    assert_int_equal(p->boilers[0]->output.origin, FV_GIVEN);
    assert_int_equal(p->boilers[0]->output.known, FV_KNOWN_NAMEPLATE);
    assert_int_equal(p->boilers[0]->relief.known, FV_KNOWN_GUESS);
    assert_int_equal(p->boilers[0]->feed.origin, FV_ASSUMED);
    assert_int_equal(p->boilers[0]->feed.known, FV_KNOWN_UNSAID);
    assert_int_equal(p->lines[0]->bore.known, FV_KNOWN_TAPE);
    assert_int_equal(p->lines[0]->friction.origin, FV_UNSET);
    assert_true(isnan(p->lines[0]->friction.v));
    assert_int_equal(p->site.air.origin, FV_ASSUMED);
    fv_plant_free(p);
}

static void same_title(const char *bytes, size_t length)
{
    fv_plant *p = must_read(bytes, length);
    assert_string_equal(p->title, "K\xc3\xbchlraum");
    fv_plant_free(p);
}

static void encodings_are_read(void **state)
{
    (void)state;
    const char *utf8 = OPEN BODY;
    size_t n = strlen(utf8);
    char bytes[4096];
    assert_true(2 * n + 200 < sizeof bytes);

    int with_mark = sprintf(bytes, "\xef\xbb\xbf%s", utf8);
    same_title(bytes, (size_t)with_mark);

    int with_returns = sprintf(bytes, "<?xml version='1.0' encoding='UTF-8'?>\r\n%s\r\n", utf8);
    same_title(bytes, (size_t)with_returns);

    size_t latin = (size_t)sprintf(bytes, "<?xml version='1.0' encoding='ISO-8859-1'?>");
    for (size_t i = 0; i < n; i++) {
        if (utf8[i] == '\xc3')
            bytes[latin++] = (char)((unsigned char)utf8[++i] + 0x40);
        else
            bytes[latin++] = utf8[i];
    }
    same_title(bytes, latin);

    for (int big = 0; big < 2; big++) { /* UTF-16 with its mark, either end first */
        size_t used = 0;
        bytes[used++] = big ? '\xfe' : '\xff';
        bytes[used++] = big ? '\xff' : '\xfe';
        for (size_t i = 0; i < n; i++) {
            char c = utf8[i] == '\xc3' ? (char)((unsigned char)utf8[++i] + 0x40) : utf8[i];
            bytes[used++] = big ? '\0' : c;
            bytes[used++] = big ? c : '\0';
        }
        same_title(bytes, used);
    }
}

static void standard_input_is_read(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    assert_non_null(freopen("networks/hand.xml", "rb", stdin));
    fv_plant *p = fv_plantfile_read("-", NULL, faults);
    assert_non_null(p);
    assert_string_equal(p->file, "standard input");
    assert_int_equal(p->vessel_count, 2);
    fv_plant_free(p);
    fv_faults_free(faults);
}

/* Attributes of a tag over several lines, comments, processing instructions, other people's xsi attributes. */
static void what_does_not_matter_is_passed_over(void **state)
{
    (void)state;
    static const char text[] =
        "<?xml version='1.0'?>\n<!-- <network> -- in words: a > b ---- is not allowed, - is -->\n";
    static const char good[] =
        "<?xml version='1.0'?>\n<!-- a comment with <tags and > in it -->\n<?editor width='4'?>\n"
        "<network xmlns='" FV_PLANTFILE_NAMESPACE "'\n  xmlns:xsi='http://www.w3.org/2001/XMLSchema-instance'\n"
        "  xsi:schemaLocation='" FV_PLANTFILE_NAMESPACE " network.xsd' title='K\xc3\xbchlraum'>\n<!-- x -->" BODY;
    fv_faults *faults = fv_faults_new();
    assert_null(fv_plantfile_read_memory(text, sizeof text - 1, "x.xml", NULL, faults));
    fv_faults_free(faults);
    same_title(good, sizeof good - 1);
}

/* Of the cautions, those that a grower should meet. */
static void cautions_are_given(void **state)
{
    (void)state;
    static const char *const wanted[] = {
        "boiler 'b': no relief pressure is said; every boiler needs a relief valve",
        "header 'h': bore is 20 mm, narrower than a branch of 25 mm",
        "hose 's': length is 30 m; usual is at most 25 m: check it",
        "coil of vessel 'v': the holes add up to 1.20 times the bore's area",
        "coil of vessel 'v': holes of 3 mm every 5 mm; keep three diameters between them",
        "drain 1 of vessel 'v': diameter is 1.2 m; usual is at most 1 m: check it",
        "wall 1 of vessel 'v': area is 1000 m2; usual is at most 200 m2: check it",
        "layer 1 of vessel 'v': thickness is 600 mm; usual is at most 500 mm: check it",
        "wall 1 of vessel 'v': eps softens at about 80 degC, below steam temperature",
    };
    static const char text[] =
        OPEN "<boiler id='b' at='a' output='20 kW'/><header id='h' from='a' to='n' length='2 m' bore='20 mm'/>"
             "<hose id='s' from='n' to='c' length='30 m' bore='25 mm'/><vessel id='v' at='c'>"
             "<coil bore='15 mm' length='1 m' holes='30' drill='3 mm' spacing='5 mm'/><drain diameter='1200 mm'/>"
             "<wall area='1000 m2'><layer thickness='600 mm' material='eps'/></wall></vessel></network>";
    fv_faults *faults = fv_faults_new();
    fv_plant *p = fv_plantfile_read_memory(text, sizeof text - 1, "x.xml", NULL, faults);
    assert_non_null(p);
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        bool said = false;
        for (size_t j = 0; j < fv_faults_count(faults); j++)
            said = said || strstr(fv_faults_at(faults, j)->text, wanted[i]);
        if (!said)
            fail_msg("not said: %s", wanted[i]);
    }
    assert_int_equal(fv_faults_count(faults), sizeof wanted / sizeof *wanted);
    fv_plant_free(p);
    fv_faults_free(faults);
}

/* One standard deviation, as a share, in kelvins, or up to twice more or less; written and read again. */
static void spreads(void **state)
{
    (void)state;
    static const char file[] =
        "<network xmlns=\"urn:farvessel:network:1\"><site air=\"12 degC\" spread=\"air:1 K\"/>"
        "<boiler id=\"b\" at=\"b0\" output=\"24 kW\" relief=\"0.5 bar\" dryness=\"97 %\" "
        "spread=\"output:8 % dryness:1 %\"/>"
        "<hose id=\"s\" from=\"b0\" to=\"c1\" length=\"4 m\" bore=\"20 mm\" spread=\"2 % bore:0.2 mm\"/>"
        "<vessel id=\"v\" at=\"c1\"><coil bore=\"27 mm\" length=\"2 m\" holes=\"30\" drill=\"3 mm\"/>"
        "<load a=\"1 dm\" b=\"1 dm\" c=\"1 dm\" mass=\"80 kg\"/><drain diameter=\"30 mm\"/>"
        "<gap area=\"1.5 cm2\" spread=\"area:factor 2\"/></vessel></network>";
    fv_text text = {0};
    fv_plant *plant = fv_plantfile_read_memory(file, sizeof file - 1, "spread.xml", NULL, NULL);
    for (int again = 0; again < 2; again++) {
        assert_non_null(plant);
        assert_int_equal(plant->site.air.spread_as, FV_SPREAD_ABSOLUTE);
        assert_true(plant->site.air.spread == 1);
        assert_int_equal(plant->boilers[0]->output.spread_as, FV_SPREAD_RELATIVE);
        assert_true(fabs((double)plant->boilers[0]->output.spread - 0.08) < 1e-7);
        assert_int_equal(plant->boilers[0]->dryness.spread_as, FV_SPREAD_ABSOLUTE);
        assert_true(fabs((double)plant->lines[0]->length.spread - 0.02) < 1e-7);
        assert_true(fabs((double)plant->lines[0]->bore.spread - 0.01) < 1e-7);
        assert_int_equal(plant->vessels[0]->openings[1]->area.spread_as, FV_SPREAD_FACTOR);
        assert_true(plant->vessels[0]->openings[1]->area.spread == 2);
        assert_int_equal(plant->boilers[0]->feed.spread_as, FV_SPREAD_UNSAID);
        if (!again)
            assert_true(fv_plantfile_write(plant, &text));
        fv_plant_free(plant);
        plant = again ? NULL : fv_plantfile_read_memory(text.text, text.length, "again.xml", NULL, NULL);
    }
    fv_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(spreads),
        cmocka_unit_test(values_arrive_in_si),
        cmocka_unit_test(origins_and_knowledge_arrive),
        cmocka_unit_test(encodings_are_read),
        cmocka_unit_test(standard_input_is_read),
        cmocka_unit_test(what_does_not_matter_is_passed_over),
        cmocka_unit_test(cautions_are_given),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
