/* SPDX-License-Identifier: MIT */
/* Small plants drawn from a seed: two to seven vessels in a row on one header, with a bottleneck somewhere. All
 * coefficients that matter are said, so that the plants stay what they are. */
#ifndef TESTS_ADVICE_SEEDED_H
#define TESTS_ADVICE_SEEDED_H

#include "farvessel/farvessel.h"
#include "study/advise.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { SEEDED_LEAST = 2, SEEDED_MOST = 7 };

/* xorshift64* (Vigna 2016), so that a seed gives the same plant everywhere. */
typedef struct {
    uint64_t state;
} seeded_dice;

static inline double seeded_throw(seeded_dice *d)
{
    d->state ^= d->state >> 12;
    d->state ^= d->state << 25;
    d->state ^= d->state >> 27;
    return (double)((d->state * 2685821657736338717ull) >> 11) * 0x1p-53;
}

static inline double seeded_between(seeded_dice *d, double low, double high)
{
    return low + seeded_throw(d) * (high - low);
}

static inline double seeded_pick(seeded_dice *d, const double *list, size_t count)
{
    const size_t i = (size_t)(seeded_throw(d) * (double)count);
    return list[i < count ? i : count - 1];
}
#define SEEDED_PICK(d, ...)                                                                                            \
    seeded_pick(d, (const double[]){__VA_ARGS__}, sizeof((const double[]){__VA_ARGS__}) / sizeof(double))

static inline void seeded_lines(seeded_dice *d, int vessels, fv_text *xml)
{
    const double header = SEEDED_PICK(d, 27, 35, 41, 53), hose = SEEDED_PICK(d, 15, 19, 25, 32);
    const bool valves = seeded_throw(d) < 0.8;
    for (int i = 1; i <= vessels; i++) {
        char from[16];
        snprintf(from, sizeof from, i == 1 ? "b0" : "t%d", i - 1);
        fv_text_add(xml,
                    "<header id=\"h%d\" from=\"%s\" to=\"t%d\" length=\"%.1f m\" bore=\"%.0f mm\" lagging=\"20 mm\" "
                    "roughness=\"0.05 mm\"/>",
                    i, from, i, seeded_between(d, 1.5, 8), header);
        fv_text_add(xml, "<hose id=\"s%d\" from=\"t%d\" to=\"c%d\" length=\"%.1f m\" bore=\"%.0f mm\" k=\"1\">", i, i,
                    i, seeded_between(d, 2, 9), hose);
        if (valves)
            fv_text_add(xml, "<valve id=\"v%d\" type=\"ball-valve\"/>", i);
        fv_text_add(xml, "<barb bore=\"%.0f mm\" k=\"0.5\"/></hose>", hose - 4);
    }
}

static inline void seeded_vessels(seeded_dice *d, int vessels, fv_text *xml)
{
    const double drill = SEEDED_PICK(d, 2.5, 3, 3.5, 4), holes = SEEDED_PICK(d, 10, 16, 24);
    const double within = seeded_between(d, 4, 11);
    const bool alike = seeded_throw(d) < 0.5;
    const int leaky = seeded_throw(d) < 0.25 ? 1 + (int)(seeded_throw(d) * vessels) : 0;
    double mass = seeded_between(d, 50, 160), diameter = seeded_between(d, 9, 16);
    for (int i = 1; i <= vessels; i++) {
        if (!alike) {
            mass = seeded_between(d, 50, 160);
            diameter = seeded_between(d, 9, 16);
        }
        fv_text_add(xml,
                    "<vessel id=\"n%d\" at=\"c%d\" volume=\"0.7 m3\" target=\"85 degC\" hold=\"%.0f min\" "
                    "within=\"%.1f h\" cool=\"60 degC\"><coil bore=\"27 mm\" length=\"1.3 m\" holes=\"%.0f\" "
                    "drill=\"%.1f mm\" cd=\"0.65\" regain=\"0.5\" entry=\"0.5\"/>",
                    i, i, 60.0, within, holes, drill);
        fv_text_add(xml,
                    "<load form=\"cylinder\" diameter=\"%.1f cm\" height=\"30 cm\" count=\"%.0f\" mass=\"%.0f kg\" "
                    "packing=\"loose\" "
                    "density=\"420 kg/m3\" specific-heat=\"3.1 kJ/kg/K\" conductivity=\"0.45 W/m/K\" "
                    "surface=\"200 W/m2/K\"/>",
                    diameter, fmax(1, mass / (420 * 0.30 * 0.785398e-4 * diameter * diameter)), mass);
        fv_text_add(xml,
                    "<wall area=\"4 m2\" outside=\"9 W/m2/K\"><layer thickness=\"%.0f mm\" conductivity=\"0.04 W/m/K\" "
                    "density=\"60 kg/m3\" specific-heat=\"900 J/kg/K\"/></wall><drain diameter=\"30 mm\"/>"
                    "<vent diameter=\"%.0f mm\" height=\"0.9 m\"/>",
                    seeded_between(d, 15, 40), SEEDED_PICK(d, 20, 30, 40));
        if (i == leaky)
            fv_text_add(xml, "<gap area=\"%.0f cm2\" height=\"0.9 m\" cd=\"0.6\"/>", seeded_between(d, 8, 40));
        fv_text_add(xml, "</vessel>");
    }
}

/* The caller frees the text. */
static inline fv_text seeded_xml(uint64_t seed)
{
    seeded_dice d = {.state = 0x9e3779b97f4a7c15ull * (seed + 1)};
    fv_text xml = {0};
    for (int i = 0; i < 8; i++)
        seeded_throw(&d);
    const int vessels = SEEDED_LEAST + (int)(seeded_throw(&d) * (SEEDED_MOST - SEEDED_LEAST + 1));
    fv_text_add(&xml,
                "<network xmlns=\"urn:farvessel:network:1\" title=\"Plant %d\"><site altitude=\"100 m\" air=\"10 "
                "degC\" wind=\"1 m/s\"/><boiler id=\"boiler\" at=\"b0\" output=\"%.1f kW\" holds=\"%.2f bar\" "
                "relief=\"0.5 bar\" water=\"%.0f L\" fuel=\"propane\"/>",
                (int)seed, vessels * seeded_between(&d, 2.5, 8), SEEDED_PICK(&d, 0.1, 0.2, 0.3),
                seeded_between(&d, 15, 60));
    seeded_lines(&d, vessels, &xml);
    seeded_vessels(&d, vessels, &xml);
    fv_text_add(&xml, "</network>");
    return xml;
}

static inline fv_plant *seeded_read(const char *xml)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(xml, strlen(xml), "seeded.xml", NULL, faults);
    fv_text said = {0};
    fv_report_faults(faults, &said);
    if (!plant)
        fail_msg("%s\n%s", said.text, xml);
    fv_text_free(&said);
    fv_faults_free(faults);
    return plant;
}

static inline fv_plant *seeded_plant(uint64_t seed)
{
    fv_text xml = seeded_xml(seed);
    fv_plant *plant = seeded_read(xml.text);
    fv_text_free(&xml);
    return plant;
}

static inline size_t seeded_count(const char *name, size_t usual)
{
    const char *text = getenv(name);
    return text ? (size_t)strtoul(text, NULL, 10) : usual;
}

/* As the user would have it followed. NULL: it cannot be. */
static inline fv_heat_result *seeded_run(const fv_plant *plant)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    fv_faults *faults = fv_faults_new();
    fv_heat_result *result = fv_heat_run(plant, &options, NULL, faults);
    fv_faults_free(faults);
    return result;
}

#endif
