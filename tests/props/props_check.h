/* SPDX-License-Identifier: MIT */
/* Comparison with printed values: one row of output for each, so that a run states every deviation. */
#ifndef TESTS_PROPS_CHECK_H
#define TESTS_PROPS_CHECK_H

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Value of one unit of the last printed digit. */
static inline double last_digit(const char *printed)
{
    const char *point = strchr(printed, '.');
    const char *exponent = strpbrk(printed, "eE");
    int decimals = point ? (int)(strcspn(point + 1, "eE")) : 0;
    return pow(10, (exponent ? atoi(exponent + 1) : 0) - decimals);
}

/* True when `got` rounds to what is printed: every printed digit agrees. */
static inline bool agrees_as_printed(const char *label, const char *printed, double got, const char *source)
{
    double reference = strtod(printed, NULL);
    double deviation = got - reference;
    bool good = fabs(deviation) <= 0.500001 * last_digit(printed);
    printf("check | %s | %s | got %.10g | dev %.1e | %s%s\n", label, printed, got, deviation / reference, source,
           good ? "" : " | DIFFERS");
    return good;
}

/* True when `got` lies within a relative tolerance of the reference. */
static inline bool agrees_within(const char *label, double reference, double got, double tolerance, const char *source)
{
    double deviation = got / reference - 1;
    bool good = fabs(deviation) <= tolerance;
    printf("check | %s | %.6g | got %.6g | dev %.1e, allowed %.1e | %s%s\n", label, reference, got, deviation,
           tolerance, source, good ? "" : " | DIFFERS");
    return good;
}

static inline double relative(double got, double reference)
{
    return fabs(got / reference - 1);
}

#endif
