/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share beside checks.h: whole tables of reference/flow. */
#ifndef TESTS_FLOW_CHECK_H
#define TESTS_FLOW_CHECK_H

#include "checks.h"

enum { ROWS_MOST = 256 };

/* The rows of reference/flow/<name> in a new array that the caller frees. */
static inline table_row *table_rows(const char *name, size_t *count)
{
    char path[128];
    snprintf(path, sizeof path, "flow/%s", name);
    FILE *file = open_table(path);
    table_row *rows = calloc(ROWS_MOST, sizeof *rows);
    assert_non_null(rows);
    for (*count = 0; *count < ROWS_MOST && next_row(file, &rows[*count]);)
        (*count)++;
    fclose(file);
    return rows;
}

/* Density and viscosity of dry saturated steam by the name of a row in saturation.csv. */
static inline void saturated_steam(const char *name, double *p, double *rho, double *mu)
{
    size_t count;
    table_row *rows = table_rows("saturation.csv", &count);
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

#endif
