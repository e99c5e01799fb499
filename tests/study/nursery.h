/* SPDX-License-Identifier: MIT */
/* Three equal bins on one boiler that feeds them well, and settings on top: the plant that studies are tested on. */
#ifndef TESTS_STUDY_NURSERY_H
#define TESTS_STUDY_NURSERY_H

#include "farvessel/plantfile.h"
#include "farvessel/study.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { NURSERY_SETTINGS = 8 };

#define NURSERY_HEADER                                                                                                 \
    "<header id='h1' from='b0' to='t1' length='2 m' bore='53 mm' lagging='25 mm'/>"                                    \
    "<header id='h2' from='t1' to='t2' length='2 m' bore='53 mm' lagging='25 mm'/>"                                    \
    "<header id='h3' from='t2' to='t3' length='2 m' bore='53 mm' lagging='25 mm'/>"
#define NURSERY_HOSES(from2, from3)                                                                                    \
    "<hose id='s1' from='t1' to='c1' length='3 m' bore='25 mm'>"                                                       \
    "<valve type='ball-valve'/><barb bore='22 mm' count='2'/></hose>"                                                  \
    "<hose id='s2' like='s1' from='" from2 "' to='c2'/><hose id='s3' like='s1' from='" from3 "' to='c3'/>"
#define NURSERY_REST                                                                                                   \
    "<kind id='bin' volume='0.9 m3' target='90 degC' within='8 h'>"                                                    \
    "<coil bore='27 mm' length='1.2 m' holes='8' drill='7 mm'/>"                                                       \
    "<load form='block' medium='wood' a='13 cm' b='13 cm' c='20 cm' count='80' mass='184 kg' packing='loose' "         \
    "stack-a='0.6 m' stack-b='0.65 m' stack-c='0.7 m'/>"                                                               \
    "<wall area='4.5 m2'><layer material='plywood' thickness='6 mm'/>"                                                 \
    "<layer material='mineral-wool' thickness='60 mm'/></wall>"                                                        \
    "<vent diameter='15 mm' height='0.9 m'/><drain diameter='25 mm'/><gap area='0.5 cm2' height='0.9 m'/></kind>"      \
    "<vessel id='bin1' like='bin' at='c1'/><vessel id='bin2' like='bin' at='c2'/>"                                     \
    "<vessel id='bin3' like='bin' at='c3'/></network>"
#define NURSERY_HEAD(stock)                                                                                            \
    "<network xmlns='" FV_PLANTFILE_NAMESPACE "' title='Alder Lane Nursery: three bins'>"                              \
    "<site altitude='120 m' air='10 degC' wind='0 m/s' tees='none'/>" stock                                            \
    "<boiler id='boiler' at='b0' output='30 kW' holds='0.2 bar' relief='0.5 bar' feed='15 degC' loss='0 W' "           \
    "dryness='100 %'/>"

/* Along a header; and all from one joint, so that the three are the same in every respect. */
static const char nursery_row[] = NURSERY_HEAD("") NURSERY_HEADER NURSERY_HOSES("t2", "t3") NURSERY_REST;
static const char nursery_star[] =
    NURSERY_HEAD("") "<header id='h1' from='b0' to='t1' length='2 m' bore='53 mm' lagging='25 mm'/>" NURSERY_HOSES(
        "t1", "t1") NURSERY_REST;

static inline void nursery_say(const fv_faults *faults)
{
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        if (!fv_faults_at(faults, i)->caution)
            print_error("%s\n", fv_faults_at(faults, i)->text);
}

/* The plant with settings on top, ended by NULL; fails the test where it is not sound. */
static inline fv_plant *nursery_plant(const char *xml, const char *const *settings)
{
    fv_faults *faults = fv_faults_new();
    size_t count = 0;
    fv_plant *plant = fv_plantfile_read_memory(xml, strlen(xml), "nursery.xml", NULL, faults);
    while (settings && settings[count])
        count++;
    const bool good = plant && (count == 0 || fv_plantfile_set(plant, settings, count, faults) != FV_FAIL);
    if (!good)
        nursery_say(faults);
    fv_faults_free(faults);
    assert_true(good);
    return plant;
}

static inline fv_why_answer *nursery_why(const fv_plant *plant, const fv_why_options *options)
{
    fv_faults *faults = fv_faults_new();
    fv_why_answer *answer = fv_why_run(plant, options, NULL, faults);
    if (!answer)
        nursery_say(faults);
    fv_faults_free(faults);
    assert_non_null(answer);
    return answer;
}

#endif
