/* SPDX-License-Identifier: MIT */
/* Plants at the edge of what the file may say: a right answer that passes its own audit, or a reason that is true. */
#include "farvessel/farvessel.h"

#include <math.h>
#include <setjmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define HEAD "<network xmlns='urn:farvessel:network:1'>"
#define SITE "<site pressure='1013.25 hPa' air='15 degC'/>"
#define BOILER "<boiler id='b' at='n0' output='12 kW' holds='0.3 bar' relief='0.5 bar'/>"
#define DRUM                                                                                                           \
    "<kind id='drum' volume='200 L'><coil bore='20 mm' length='0.6 m' holes='12' drill='3 mm'/>"                       \
    "<load form='block' a='10 cm' b='10 cm' c='20 cm' count='30' mass='60 kg'/><drain diameter='25 mm'/></kind>"
#define TAIL "</network>"

typedef struct {
    fv_plant *plant;
    fv_flow_answer *flow;
    fv_faults *faults;
} outcome;

static void drop(outcome *o)
{
    fv_flow_answer_free(o->flow);
    fv_plant_free(o->plant);
    fv_faults_free(o->faults);
}

static void print_faults(const char *name, const fv_faults *faults)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        if (!fv_faults_at(faults, i)->caution)
            print_message("%s: %s\n", name, fv_faults_at(faults, i)->text);
}

static bool says(const fv_faults *faults, const char *word)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        if (strstr(fv_faults_at(faults, i)->text, word))
            return true;
    return false;
}

/* Reads and solves. Whatever comes out audits itself, or there is a reason; never neither. */
static outcome solve(const char *name, const char *xml)
{
    outcome o = {.faults = fv_faults_new()};
    o.plant = fv_plantfile_read_memory(xml, strlen(xml), name, NULL, o.faults);
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.turndown = false;
    if (o.plant)
        o.flow = fv_flow_answer_new(o.plant, &options, NULL, o.faults);
    if (!o.flow) {
        print_faults(name, o.faults);
        assert_true(fv_faults_errors(o.faults) > 0);
        return o;
    }
    const fv_audit *audit = &o.flow->state->audit;
    print_message("%s: %d iterations, mass %.1e, energy %.1e\n", name, audit->iterations, audit->mass_relative,
                  audit->energy_relative);
    assert_true(audit->converged);
    assert_true(audit->mass_relative < 1e-9);
    assert_true(audit->energy_relative < 1e-9);
    return o;
}

static outcome solved(const char *name, const char *xml)
{
    outcome o = solve(name, xml);
    assert_non_null(o.flow);
    return o;
}

static double steam(const outcome *o, const char *id)
{
    return o->flow->state->vessels[fv_plant_vessel_index(o->plant, id)].steam;
}

static void a_huge_and_a_hair_thin_bore(void **state)
{
    (void)state;
    outcome o = solved("bores", HEAD SITE BOILER DRUM "<pipe id='p1' from='n0' to='c1' length='2 m' bore='900 mm'/>"
                                                      "<pipe id='p2' from='n0' to='c2' length='2 m' bore='1 mm'/>"
                                                      "<vessel id='v1' like='drum' at='c1'/>"
                                                      "<vessel id='v2' like='drum' at='c2'/>" TAIL);
    assert_true(steam(&o, "v1") > 0.001);
    assert_true(steam(&o, "v2") >= 0 && steam(&o, "v2") < 1e-3 * steam(&o, "v1"));
    drop(&o);
}

static void lines_of_a_millimetre(void **state)
{
    (void)state;
    outcome o = solved("millimetres", HEAD SITE BOILER DRUM
                       "<pipe id='p1' from='n0' to='n1' length='1 mm' bore='20 mm'/>"
                       "<pipe id='p2' from='n1' to='c1' length='1 mm' bore='20 mm'/>"
                       "<pipe id='p3' from='n1' to='c2' length='1 mm' bore='20 mm'/>"
                       "<vessel id='v1' like='drum' at='c1'/><vessel id='v2' like='drum' at='c2'/>" TAIL);
    assert_true(fabs(steam(&o, "v1") / steam(&o, "v2") - 1) < 1e-9); /* limit 1: identical branches at one point */
    drop(&o);
    o = solve("no length", HEAD SITE BOILER DRUM "<pipe id='p1' from='n0' to='c1' length='0 m' bore='20 mm'/>"
                                                 "<vessel id='v1' like='drum' at='c1'/>" TAIL);
    assert_null(o.flow);
    assert_true(says(o.faults, "length"));
    drop(&o);
}

/* A micrometre: nothing passes to speak of; the boiler holds its pressure. */
static void holes_of_a_micrometre(void **state)
{
    (void)state;
    outcome o =
        solved("micrometre", HEAD SITE BOILER
               "<pipe id='p1' from='n0' to='c1' length='2 m' bore='20 mm' heat-loss='0 W/m'/>"
               "<vessel id='v1' at='c1' volume='200 L'><coil bore='20 mm' length='0.6 m' holes='12' drill='0.001 mm'/>"
               "<load form='block' a='10 cm' b='10 cm' c='20 cm' count='30' mass='60 kg'/>"
               "<drain diameter='25 mm'/></vessel>" TAIL);
    /* 12 choked holes: at most A sqrt(p rho) by order of magnitude */
    assert_true(steam(&o, "v1") > 0 && steam(&o, "v1") < 12 * 0.25 * 3.15e-12 * sqrt(1.3e5 * 0.76) * 2);
    assert_int_equal(o.flow->state->boilers[0].state, FV_BOILER_HOLDING);
    assert_true(fabs(o.flow->state->boilers[0].pressure - 30000) < 1e-3);
    drop(&o);
}

static void one_vessel_open_of_many(void **state)
{
    (void)state;
    fv_text xml = {0};
    fv_text_add(&xml, HEAD SITE BOILER DRUM);
    for (int i = 0; i < 20; i++) {
        fv_text_add(&xml, "<header id='h%d' from='n%d' to='n%d' length='1 m' bore='40 mm'/>", i, i, i + 1);
        fv_text_add(&xml,
                    "<hose id='s%d' from='n%d' to='c%d' length='2 m' bore='19 mm'><valve id='t%d' open='%d'/></hose>",
                    i, i + 1, i, i, i == 13);
        fv_text_add(&xml, "<vessel id='v%d' like='drum' at='c%d'/>", i, i);
    }
    fv_text_add(&xml, TAIL);
    outcome o = solved("one valve open", xml.text);
    for (int i = 0; i < 20; i++) {
        const double got = o.flow->state->vessels[i].steam;
        assert_true(i == 13 ? got > 0.001 : fabs(got) < 1e-12);
    }
    drop(&o);
    fv_text_free(&xml);
}

/* A vessel that is full and holds: one pinhole for a vent, all steam must leave by it. */
static void all_vents_shut_but_one(void **state)
{
    (void)state;
    outcome o =
        solve("one vent", HEAD SITE BOILER "<pipe id='p1' from='n0' to='c1' length='2 m' bore='20 mm'/>"
                                           "<vessel id='v1' at='c1' volume='200 L' phase='holding' uptake='100 W'>"
                                           "<coil bore='20 mm' length='0.6 m' holes='12' drill='3 mm'/>"
                                           "<load form='block' a='10 cm' b='10 cm' c='20 cm' count='30' mass='60 kg'/>"
                                           "<vent diameter='1 mm'/></vessel>" TAIL);
    if (o.flow) {
        const fv_vessel_result *v = &o.flow->state->vessels[0];
        assert_true(v->chamber_pressure > 1000); /* it presses */
        assert_true(v->chamber_pressure < 30000);
        assert_true(v->vented > 0 && v->vented < v->steam);
    }
    drop(&o);
    o = solve("no vent", HEAD SITE BOILER "<pipe id='p1' from='n0' to='c1' length='2 m' bore='20 mm'/>"
                                          "<vessel id='v1' at='c1' volume='200 L'><coil bore='20 mm' length='0.6 m' "
                                          "holes='12' drill='3 mm'/></vessel>" TAIL);
    assert_null(o.flow); /* never a pressure vessel */
    assert_true(says(o.faults, "open") || says(o.faults, "vent"));
    drop(&o);
}

static void thin_air(void **state)
{
    (void)state;
    outcome o = solved("0.5 bar", HEAD "<site pressure='0.5 bar' air='-5 degC'/>" BOILER DRUM
                                       "<pipe id='p1' from='n0' to='c1' length='2 m' bore='20 mm'/>"
                                       "<vessel id='v1' like='drum' at='c1' target='70 degC'/>" TAIL);
    /* IF97: water boils at 81.317 degC at 0.5 bar (steam tables, IAPWS R7-97 region 4) */
    assert_true(fabs(o.flow->state->boiling_point - 354.467) < 0.001);
    assert_true(steam(&o, "v1") > 0.001);
    drop(&o);
    o = solve("0.5 bar, hot target", HEAD "<site pressure='0.5 bar' air='-5 degC'/>" BOILER DRUM
                                          "<pipe id='p1' from='n0' to='c1' length='2 m' bore='20 mm'/>"
                                          "<vessel id='v1' like='drum' at='c1' target='95 degC'/>" TAIL);
    fv_check_answer *check = o.plant ? fv_check_answer_new(o.plant, o.faults) : NULL;
    assert_true(says(o.faults, "boil")); /* 95 degC cannot be reached there */
    fv_check_answer_free(check);
    drop(&o);
}

static outcome with_output(const char *output)
{
    char xml[2048];
    snprintf(xml, sizeof xml,
             HEAD SITE
             "<boiler id='b' at='n0' output='%s' holds='0.3 bar' relief='0.5 bar'/>" DRUM
             "<pipe id='p1' from='n0' to='c1' length='2 m' bore='20 mm'/>"
             "<pipe id='p2' from='n0' to='c2' length='9 m' bore='20 mm'/><vessel id='v1' like='drum' at='c1'/>"
             "<vessel id='v2' like='drum' at='c2'/>" TAIL,
             output);
    return solve(output, xml);
}

static void boilers_from_a_watt_to_a_megawatt(void **state)
{
    (void)state;
    static const char *const sizes[] = {"1 W", "50 W", "1 kW", "12 kW", "100 kW", "1 MW"};
    double before = -1;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        outcome o = with_output(sizes[i]);
        assert_non_null(o.flow);
        const double all = steam(&o, "v1") + steam(&o, "v2");
        assert_true(all >= before - 1e-12); /* more fire never gives less steam */
        if (i == 0)
            assert_true(all < 1e-9); /* the lines eat it all */
        if (i == 5)
            assert_int_equal(o.flow->state->boilers[0].state, FV_BOILER_HOLDING);
        before = all;
        drop(&o);
    }
    outcome o = with_output("10 MW");
    assert_null(o.flow);
    assert_true(says(o.faults, "output"));
    drop(&o);
}

static void five_hundred_in_series(void **state)
{
    (void)state;
    enum { VESSELS = 500 };
    fv_text xml = {0};
    fv_text_add(&xml, HEAD SITE "<boiler id='b' at='n0' output='900 kW' holds='0.5 bar' relief='0.8 bar'/>" DRUM);
    for (int i = 0; i < VESSELS; i++)
        fv_text_add(&xml,
                    "<header id='h%d' from='n%d' to='n%d' length='1 m' bore='200 mm' heat-loss='0 W/m'/>"
                    "<vessel id='v%d' like='drum' at='n%d'/>",
                    i, i, i + 1, i, i + 1);
    fv_text_add(&xml, TAIL);
    outcome o = solved("500 in series", xml.text);
    double sum = 0;
    for (int i = 0; i < VESSELS; i++) {
        const double got = o.flow->state->vessels[i].steam;
        sum += got;
        if (i > 0) /* further is never more */
            assert_true(got <= o.flow->state->vessels[i - 1].steam * (1 + 1e-9));
    }
    assert_true(fabs(sum / o.flow->state->boilers[0].steam - 1) < 1e-9); /* limit 3: lines that lose nothing */
    drop(&o);
    fv_text_free(&xml);
}

/* Loops that carry nothing, or the same twice. */
static void loops_that_say_nothing(void **state)
{
    (void)state;
    outcome o = solved("twin pipes", HEAD SITE BOILER DRUM "<pipe id='p1' from='n0' to='c1' length='3 m' bore='15 mm'/>"
                                                           "<pipe id='p2' from='n0' to='c1' length='3 m' bore='15 mm'/>"
                                                           "<vessel id='v1' like='drum' at='c1'/>" TAIL);
    const fv_line_result *l = o.flow->state->lines;
    assert_true(fabs(l[0].flow_to / l[1].flow_to - 1) < 1e-9); /* limit 2: half each */
    drop(&o);
    o = solved("twin pipes, one turned round", HEAD SITE BOILER DRUM
               "<pipe id='p1' from='n0' to='c1' length='3 m' bore='15 mm'/>"
               "<pipe id='p2' from='c1' to='n0' length='3 m' bore='15 mm'/><vessel id='v1' like='drum' at='c1'/>" TAIL);
    l = o.flow->state->lines;
    assert_true(fabs(l[0].flow_to / -l[1].flow_from - 1) < 1e-9);
    drop(&o);
    o = solved("mirror ring",
               HEAD SITE BOILER DRUM "<pipe id='a1' from='n0' to='c1' length='3 m' bore='25 mm'/>"
                                     "<pipe id='a2' from='n0' to='c2' length='3 m' bore='25 mm'/>"
                                     "<pipe id='x' from='c1' to='c2' length='3 m' bore='25 mm' heat-loss='0 W/m'/>"
                                     "<vessel id='v1' like='drum' at='c1'/>"
                                     "<vessel id='v2' like='drum' at='c2'/>" TAIL);
    assert_true(fabs(steam(&o, "v1") / steam(&o, "v2") - 1) < 1e-9);
    assert_true(fabs(o.flow->state->lines[2].flow_to) < 1e-9 * steam(&o, "v1")); /* nothing crosses */
    drop(&o);
    o = solve("triangle on the end",
              HEAD SITE BOILER DRUM "<pipe id='p' from='n0' to='c1' length='3 m' bore='25 mm'/>"
                                    "<vessel id='v1' like='drum' at='c1'/>"
                                    "<pipe id='t1' from='c1' to='n1' length='1 m' bore='25 mm'/>"
                                    "<pipe id='t2' from='n1' to='n2' length='1 m' bore='25 mm'/>"
                                    "<pipe id='t3' from='n2' to='c1' length='1 m' bore='25 mm'/>" TAIL);
    drop(&o); /* a loop behind the vessel, which only warms the room: solved, or refused as leading nowhere */
    o = solve("loop on itself", HEAD SITE BOILER DRUM "<pipe id='p' from='n0' to='c1' length='3 m' bore='25 mm'/>"
                                                      "<pipe id='q' from='c1' to='c1' length='3 m' bore='25 mm'/>"
                                                      "<vessel id='v1' like='drum' at='c1'/>" TAIL);
    assert_null(o.flow);
    assert_true(says(o.faults, "two joints"));
    drop(&o);
}

/* A grid of 8 x 8 equal lines with one boiler in the middle: everything is degenerate by symmetry. */
static void a_grid_of_equal_loops(void **state)
{
    (void)state;
    enum { N = 9 };
    fv_text xml = {0};
    fv_text_add(&xml, HEAD SITE "<boiler id='b' at='g4x4' output='200 kW' holds='0.3 bar' relief='0.5 bar'/>" DRUM);
    for (int i = 0; i < N; i++)
        for (int k = 0; k < N; k++) {
            if (i + 1 < N)
                fv_text_add(&xml, "<pipe id='x%dx%d' from='g%dx%d' to='g%dx%d' length='1 m' bore='30 mm'/>", i, k, i, k,
                            i + 1, k);
            if (k + 1 < N)
                fv_text_add(&xml, "<pipe id='y%dx%d' from='g%dx%d' to='g%dx%d' length='1 m' bore='30 mm'/>", i, k, i, k,
                            i, k + 1);
            if ((i == 0 || i == N - 1) && (k == 0 || k == N - 1))
                fv_text_add(&xml, "<vessel id='v%dx%d' like='drum' at='g%dx%d'/>", i, k, i, k);
        }
    fv_text_add(&xml, TAIL);
    outcome o = solved("grid", xml.text);
    for (size_t i = 1; i < o.flow->state->vessel_count; i++)
        assert_true(fabs(o.flow->state->vessels[i].steam / o.flow->state->vessels[0].steam - 1) < 1e-8);
    drop(&o);
    fv_text_free(&xml);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_huge_and_a_hair_thin_bore), cmocka_unit_test(lines_of_a_millimetre),
        cmocka_unit_test(holes_of_a_micrometre),       cmocka_unit_test(one_vessel_open_of_many),
        cmocka_unit_test(all_vents_shut_but_one),      cmocka_unit_test(thin_air),
        cmocka_unit_test(five_hundred_in_series),      cmocka_unit_test(boilers_from_a_watt_to_a_megawatt),
        cmocka_unit_test(loops_that_say_nothing),      cmocka_unit_test(a_grid_of_equal_loops)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
