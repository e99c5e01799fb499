/* SPDX-License-Identifier: MIT */
/* A small plant for the tests of size and carry: drums on a thin header, quick to follow. */
#ifndef TESTS_STUDY_YARD_H
#define TESTS_STUDY_YARD_H

#include "farvessel/farvessel.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define YARD_SITE "<site altitude=\"120 m\" air=\"12 degC\"/>"
#define YARD_STOCK                                                                                                     \
    "<stock currency=\"EUR\">"                                                                                         \
    "<hose bore=\"15 mm\" price=\"10\"/><hose bore=\"19 mm\" price=\"14\"/>"                                           \
    "<header bore=\"27 mm\" price=\"8\"/><header bore=\"41 mm\" price=\"12\"/>"                                        \
    "<coil bore=\"27 mm\" price=\"9\"/>"                                                                               \
    "<drill size=\"2 mm\" price=\"1.5\"/><drill size=\"3 mm\" price=\"2\"/><drill size=\"4 mm\" price=\"3\"/>"         \
    "<lagging thickness=\"25 mm\" price=\"20\"/>"                                                                      \
    "<boiler output=\"9 kW\" price=\"1500\"/><boiler output=\"18 kW\" price=\"2600\"/>"                                \
    "</stock>"
#define YARD_BOILER(output)                                                                                            \
    "<boiler id=\"boiler\" at=\"b0\" output=\"" output "\" holds=\"0.1 bar\" relief=\"0.5 bar\" fuel=\"propane\"/>"
#define YARD_LINES                                                                                                     \
    "<header id=\"h1\" from=\"b0\" to=\"t1\" length=\"3 m\" bore=\"21 mm\" lagging=\"20 mm\"/>"                        \
    "<header id=\"h2\" from=\"t1\" to=\"t2\" length=\"9 m\" bore=\"21 mm\" lagging=\"20 mm\"/>"                        \
    "<hose id=\"s1\" from=\"t1\" to=\"c1\" length=\"2 m\" bore=\"19 mm\"><barb bore=\"15 mm\" count=\"2\"/></hose>"    \
    "<hose id=\"s2\" like=\"s1\" from=\"t2\" to=\"c2\"/>"
#define YARD_KIND(within)                                                                                              \
    "<kind id=\"drum\" volume=\"210 L\" target=\"80 degC\" hold=\"1 h\" within=\"" within "\" cool=\"60 degC\">"       \
    "<coil bore=\"27 mm\" length=\"0.9 m\" holes=\"10\" drill=\"3 mm\"/>"                                              \
    "<load form=\"cylinder\" medium=\"straw\" diameter=\"12 cm\" height=\"30 cm\" count=\"24\" mass=\"70 kg\" "        \
    "moisture=\"70 %\"/>"                                                                                              \
    "<wall area=\"2 m2\"><layer material=\"mineral-wool\" thickness=\"30 mm\"/></wall>"                                \
    "<drain diameter=\"30 mm\"/><vent diameter=\"15 mm\" height=\"0.8 m\"/>"                                           \
    "</kind>"
#define YARD_VESSELS "<vessel id=\"d1\" like=\"drum\" at=\"c1\"/><vessel id=\"d2\" like=\"drum\" at=\"c2\"/>"
#define YARD(stock, output, lines, within, vessels)                                                                    \
    "<network xmlns=\"urn:farvessel:network:1\" title=\"Two drums\">" YARD_SITE stock YARD_BOILER(output)              \
    lines YARD_KIND(within) vessels "</network>"
#define YARD_PLAIN YARD(YARD_STOCK, "6 kW", YARD_LINES, "6 h", YARD_VESSELS)

static inline fv_plant *yard_read(const char *xml)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(xml, strlen(xml), "yard.xml", NULL, faults);
    fv_text said = {0};
    fv_report_faults(faults, &said);
    if (!plant)
        fail_msg("%s", said.text);
    fv_text_free(&said);
    fv_faults_free(faults);
    return plant;
}

/* The plant read anew with settings as --set takes them. */
static inline fv_plant *yard_set(const char *xml, const char *const *settings, size_t count)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = yard_read(xml);
    if (count)
        assert_int_not_equal(fv_plantfile_set(plant, settings, count, faults), FV_FAIL);
    fv_faults_free(faults);
    return plant;
}

/* The plant written to a file's text and read back. */
static inline fv_plant *yard_saved(const fv_plant *plant)
{
    fv_text xml = {0};
    assert_true(fv_plantfile_write(plant, &xml));
    fv_plant *again = yard_read(xml.text);
    fv_text_free(&xml);
    return again;
}

static inline fv_heat_result *yard_run(const fv_plant *plant, double fire)
{
    fv_faults *faults = fv_faults_new();
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.fire = fire;
    fv_heat_result *result = fv_heat_run(plant, &options, NULL, faults);
    assert_non_null(result);
    fv_faults_free(faults);
    return result;
}

static inline bool yard_equal(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

/* A change as the texts that --set takes; free each. */
static inline size_t yard_texts(const fv_change *change, const fv_plant *plant, char **texts)
{
    for (size_t i = 0; i < change->count; i++) {
        fv_text text = {0};
        assert_true(fv_setting_write(&change->settings[i], plant, &text));
        texts[i] = text.text;
    }
    return change->count;
}

/* All that why says of a plant, what could be done included. */
static inline fv_why_answer *yard_why(const fv_plant *plant)
{
    fv_faults *faults = fv_faults_new();
    fv_why_options options;
    fv_why_defaults(&options);
    options.remedies = true;
    fv_why_answer *answer = fv_why_run(plant, &options, NULL, faults);
    assert_non_null(answer);
    fv_faults_free(faults);
    return answer;
}

/* The plan that so many looked at find. */
static inline fv_plan_answer *yard_plan(const fv_plant *plant, size_t most)
{
    fv_faults *faults = fv_faults_new();
    fv_plan_options options;
    fv_plan_defaults(&options);
    options.most = most;
    fv_plan_answer *answer = fv_plan_run(plant, &options, NULL, faults);
    assert_non_null(answer);
    fv_faults_free(faults);
    return answer;
}

#endif
