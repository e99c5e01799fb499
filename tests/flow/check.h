/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share: one printed row per published check, and rows of numbers from reference/flow. */
#ifndef TESTS_FLOW_CHECK_H
#define TESTS_FLOW_CHECK_H

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

#define REFERENCE_COLUMNS 12

/* Prints the row and fails the test when got is off by more than `tolerance`, relative (absolute where expected is 0).
 */
static inline void check_row(const char *what, double expected, double got, double tolerance, const char *source)
{
    double dev = expected != 0.0 ? got / expected - 1.0 : got;
    printf("check | %s | %.9g | got %.9g | dev %+.2e | %s\n", what, expected, got, dev, source);
    if (!(fabs(dev) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

/* The same with the deviation in plain units, for coefficients that pass through zero. */
static inline void check_row_absolute(const char *what, double expected, double got, double tolerance,
                                      const char *source)
{
    printf("check | %s | %.5g | got %.5g | off by %+.3f | %s\n", what, expected, got, got - expected, source);
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

typedef struct {
    char text[REFERENCE_COLUMNS][32];
    double value[REFERENCE_COLUMNS];
} reference_row;

/* Reads the rows of reference/flow/<name>, without comments and heading, into a new array that the caller frees. */
static inline reference_row *reference_rows(const char *name, size_t *count)
{
    char path[128];
    char line[512];
    snprintf(path, sizeof path, "reference/flow/%s", name);
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("cannot read %s (tests run from the project's root)", path);
    reference_row *rows = calloc(256, sizeof *rows);
    assert_non_null(rows);
    bool heading = true;
    *count = 0;
    while (fgets(line, sizeof line, file)) {
        if (line[0] == '#')
            continue;
        if (heading) {
            heading = false;
            continue;
        }
        assert_true(*count < 256);
        reference_row *row = &rows[(*count)++];
        size_t column = 0;
        for (char *cell = strtok(line, ",\n"); cell && column < REFERENCE_COLUMNS; cell = strtok(NULL, ",\n")) {
            snprintf(row->text[column], sizeof row->text[column], "%s", cell);
            row->value[column++] = strtod(cell, NULL);
        }
    }
    fclose(file);
    return rows;
}

/* Density and viscosity of dry saturated steam by the name of a row in saturation.csv. */
static inline void saturated_steam(const char *name, double *p, double *rho, double *mu)
{
    size_t count;
    reference_row *rows = reference_rows("saturation.csv", &count);
    *p = *rho = *mu = (double)NAN;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(rows[i].text[0], name) == 0) {
            *p = rows[i].value[1];
            *rho = rows[i].value[2];
            *mu = rows[i].value[3];
        }
    }
    free(rows);
    if (isnan(*p))
        fail_msg("no row '%s' in saturation.csv", name);
}

/* A repeatable number in 0..1. */
static inline double next_random(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (double)(*state >> 11) / 9007199254740992.0;
}

#endif
