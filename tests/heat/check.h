/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share: a printed row for each published check, and values from reference/heat. */
#ifndef TESTS_HEAT_CHECK_H
#define TESTS_HEAT_CHECK_H

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

/* Prints the row; fails the test when `got` is off by more than `tolerance`, relative. */
static inline void check_row(const char *what, double expected, double got, double tolerance, const char *source)
{
    double dev = got / expected - 1.0;
    printf("check | %s | %.9g | got %.9g | dev %+.1e, allowed %.1e | %s\n", what, expected, got, dev, tolerance,
           source);
    if (!(fabs(dev) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

static inline FILE *open_reference(const char *name)
{
    char path[128];
    snprintf(path, sizeof path, "reference/heat/%s", name);
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("cannot read %s (tests run from the project's root)", path);
    return file;
}

/* Looks `name` up in reference/heat/examples.txt and checks `got` against it, relative. */
static inline void check_example(const char *name, double got, double tolerance)
{
    char line[512], source[512] = "";
    double expected = (double)NAN;
    size_t length = strlen(name);
    FILE *file = open_reference("examples.txt");
    while (fgets(line, sizeof line, file)) {
        if (strncmp(line, name, length) != 0 || strncmp(line + length, " | ", 3) != 0)
            continue;
        char *end;
        expected = strtod(line + length + 3, &end);
        snprintf(source, sizeof source, "%s", end + 3);
        source[strcspn(source, "\n")] = 0;
    }
    fclose(file);
    if (isnan(expected) || !source[0])
        fail_msg("no row '%s' with a source in examples.txt", name);
    check_row(name, expected, got, tolerance, source);
}

/* A row of a comma-separated table; cells that are no number are also kept as text. */
typedef struct {
    char text[9][32];
    double value[9];
} table_row;

/* Reads the next row of data; the first line after the comments, the heading, starts with a letter and counts as
 * data only when `heading` is already true. */
static inline bool next_row(FILE *file, bool *heading, table_row *row)
{
    char line[512];
    while (fgets(line, sizeof line, file)) {
        if (line[0] == '#')
            continue;
        if (!*heading) {
            *heading = true;
            continue;
        }
        size_t column = 0;
        for (char *cell = strtok(line, ",\n"); cell && column < 9; cell = strtok(NULL, ",\n")) {
            snprintf(row->text[column], sizeof row->text[column], "%s", cell);
            row->value[column++] = strtod(cell, NULL);
        }
        return true;
    }
    return false;
}

/* A repeatable number in low..high. */
static inline double random_between(uint64_t *state, double low, double high)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * ((double)(*state >> 11) / 9007199254740992.0);
}

#endif
