/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share beside checks.h: examples with their sources. */
#ifndef TESTS_HEAT_CHECK_H
#define TESTS_HEAT_CHECK_H

#include "checks.h"

/* Looks `name` up in reference/heat/examples.txt and checks `got` against it, relative. */
static inline void check_example(const char *name, double got, double tolerance)
{
    char line[512], source[512] = "";
    double expected = (double)NAN;
    size_t length = strlen(name);
    FILE *file = open_reference("heat/examples.txt");
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
    check_dev(name, expected, got, tolerance, source);
}

#endif
