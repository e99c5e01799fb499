/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share: a printed row for each check, rows of reference files, repeatable numbers. */
#ifndef TESTS_HEATUP_CHECK_H
#define TESTS_HEATUP_CHECK_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KELVIN 273.15
#define PI 3.14159265358979323846

/* Prints the row; fails the test when `got` is off by more than `tolerance`, in the unit of the figure. */
static inline void check_off(const char *what, double expected, double got, double tolerance, const char *source)
{
    printf("check | %s | %.8g | got %.8g | off by %+.1e, allowed %.1e | %s\n", what, expected, got, got - expected,
           tolerance, source);
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

/* The same, relative. */
static inline void check_dev(const char *what, double expected, double got, double tolerance, const char *source)
{
    double dev = got / expected - 1;
    printf("check | %s | %.8g | got %.8g | dev %+.1e, allowed %.1e | %s\n", what, expected, got, dev, tolerance,
           source);
    if (!(fabs(dev) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

/* Largest deviation of many, printed once. */
static inline void check_worst(const char *what, double worst, double tolerance, const char *source)
{
    printf("check | %s | 0 | worst %.1e | allowed %.1e | %s\n", what, worst, tolerance, source);
    if (!(worst <= tolerance))
        fail_msg("%s: off by %.3e, allowed %.1e", what, worst, tolerance);
}

static inline void check_between(const char *what, double low, double high, double got, const char *source)
{
    printf("check | %s | %g to %g | got %.4g | %s | %s\n", what, low, high, got,
           got >= low && got <= high ? "inside" : "OUTSIDE", source);
    if (!(got >= low && got <= high))
        fail_msg("%s: %.6g is not between %g and %g", what, got, low, high);
}

/* Opens a reference file and passes comments and the heading. */
static inline FILE *open_reference(const char *path, char *line, int size)
{
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("cannot read %s (tests run from the project's root)", path);
    while (fgets(line, size, file) && line[0] == '#')
        ;
    return file;
}

/* A repeatable number in 0..1. */
static inline double next_random(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (double)(*state >> 11) / 9007199254740992.0;
}

#endif
