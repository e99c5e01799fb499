/* SPDX-License-Identifier: MIT */
/* What tests share: a printed row for each check against a source, files of reference/, repeatable numbers. */
#ifndef TESTS_CHECKS_H
#define TESTS_CHECKS_H

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
    printf("check | %s | %.9g | got %.9g | off by %+.1e, allowed %.1e | %s\n", what, expected, got, got - expected,
           tolerance, source);
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

/* The same, relative; where nought is expected, absolute. */
static inline void check_dev(const char *what, double expected, double got, double tolerance, const char *source)
{
    const double dev = expected != 0 ? got / expected - 1 : got;
    printf("check | %s | %.9g | got %.9g | dev %+.1e, allowed %.1e | %s\n", what, expected, got, dev, tolerance,
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

/* reference/<path>. */
static inline FILE *open_reference(const char *path)
{
    char full[256];
    snprintf(full, sizeof full, "reference/%s", path);
    FILE *file = fopen(full, "r");
    if (!file)
        fail_msg("cannot read %s (tests run from the project's root)", full);
    return file;
}

/* The same, past its comments and its heading. */
static inline FILE *open_table(const char *path)
{
    char line[512];
    FILE *file = open_reference(path);
    while (fgets(line, sizeof line, file) && line[0] == '#')
        ;
    return file;
}

/* A row of a comma-separated table; cells that are no number are also kept as text. */
typedef struct {
    char text[12][32];
    double value[12];
} table_row;

/* The next row; comments are passed over. */
static inline bool next_row(FILE *file, table_row *row)
{
    char line[512];
    while (fgets(line, sizeof line, file)) {
        if (line[0] == '#')
            continue;
        size_t column = 0;
        for (char *cell = strtok(line, ",\n"); cell && column < 12; cell = strtok(NULL, ",\n")) {
            snprintf(row->text[column], sizeof row->text[column], "%s", cell);
            row->value[column++] = strtod(cell, NULL);
        }
        return true;
    }
    return false;
}

/* A repeatable number in 0..1. */
static inline double next_random(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (double)(*state >> 11) / 9007199254740992.0;
}

/* In low..high. */
static inline double random_between(uint64_t *state, double low, double high)
{
    return low + (high - low) * next_random(state);
}

#endif
