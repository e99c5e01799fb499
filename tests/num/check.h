/* SPDX-License-Identifier: MIT */
/* What the statistics tests share: one printed row per check, and lines of a table in reference/num. */
#ifndef TESTS_NUM_CHECK_H
#define TESTS_NUM_CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Off by at most `tolerance`, in units of the value itself. */
static inline void check_near(const char *what, double expected, double got, double tolerance, const char *source)
{
    printf("check | %s | %.10g | got %.10g | off by %+.2e, allowed %.0e | %s\n", what, expected, got, got - expected,
           tolerance, source);
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: expected %.17g, got %.17g", what, expected, got);
}

static inline void check_relative(const char *what, double expected, double got, double tolerance, const char *source)
{
    check_near(what, expected, got, tolerance * fabs(expected), source);
}

static inline FILE *open_reference(const char *name)
{
    char path[128];
    snprintf(path, sizeof path, "reference/num/%s", name);
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("cannot read %s (tests run from the project's root)", path);
    return file;
}

#endif
