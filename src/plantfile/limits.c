/* SPDX-License-Identifier: MIT */
/* How much of everything a file may hold, in one table for reading and for people. */
#include "plantfile/limits.h"

#include <stddef.h>
#include <string.h>

#define PLACE(limit) offsetof(fv_plantfile_limits, limit)

fv_plantfile_limits fv_plantfile_limits_default(void)
{
    return (fv_plantfile_limits){.bytes_most = 16u << 20,
                                 .elements_most = 50000,
                                 .depth_most = 32,
                                 .attributes_most = 100,
                                 .value_most = 1000,
                                 .boilers_most = 1000,
                                 .lines_most = 4000,
                                 .vessels_most = 1000,
                                 .inside_most = 1000,
                                 .taken_most = 100000,
                                 .actions_most = 10000,
                                 .stock_most = 1000,
                                 .weather_most = 10000,
                                 .faults_most = 500};
}

/* Elements that are counted together in the whole file, by their names in the schema; NULL: limited elsewhere. */
static const struct {
    const char *elements, *what;
    size_t place;
} rows[] = {{NULL, "bytes of the file", PLACE(bytes_most)},
            {NULL, "elements", PLACE(elements_most)},
            {NULL, "elements inside each other", PLACE(depth_most)},
            {NULL, "attributes of an element", PLACE(attributes_most)},
            {NULL, "bytes of a value", PLACE(value_most)},
            {"|boiler|", "boilers", PLACE(boilers_most)},
            {"|header|pipe|hose|", "headers, pipes and hoses", PLACE(lines_most)},
            {"|vessel|kind|", "vessels and kinds", PLACE(vessels_most)},
            {NULL, "parts inside one part, such as holes of a coil", PLACE(inside_most)},
            {NULL, "parts that like=\"...\" brings in", PLACE(taken_most)},
            {"|action|thermostat|", "actions and thermostats", PLACE(actions_most)},
            {"|stock/hose|stock/header|stock/coil|stock/drill|stock/lagging|stock/boiler|", "sizes in stock",
             PLACE(stock_most)},
            {"|weather|", "rows of weather", PLACE(weather_most)},
            {NULL, "faults that are listed", PLACE(faults_most)}};
enum { ROWS = sizeof rows / sizeof *rows };
_Static_assert((int)ROWS <= (int)PLANTFILE_LIMITS, "plantfile_counts has a place for each");

static size_t value_of(const fv_plantfile_limits *limits, size_t place)
{
    size_t value;
    memcpy(&value, (const char *)limits + place, sizeof value);
    return value;
}

static bool is_among(const char *elements, const char *element)
{
    const size_t length = strlen(element);
    for (const char *at = elements ? strstr(elements, element) : NULL; at; at = strstr(at + 1, element))
        if (at[-1] == '|' && at[length] == '|')
            return true;
    return false;
}

const char *plantfile_count(const fv_plantfile_limits *limits, plantfile_counts *counts, const char *element,
                            size_t *most)
{
    for (size_t i = 0; i < ROWS; i++) {
        if (!is_among(rows[i].elements, element))
            continue;
        *most = value_of(limits, rows[i].place);
        return ++counts->of[i] > *most ? rows[i].what : NULL;
    }
    return NULL;
}

bool fv_plantfile_limit_at(const fv_plantfile_limits *limits, size_t i, const char **what, size_t *most)
{
    if (!what || !most)
        return false;
    const fv_plantfile_limits usual = fv_plantfile_limits_default();
    if (i >= ROWS)
        return false;
    *what = rows[i].what;
    *most = value_of(limits ? limits : &usual, rows[i].place);
    return true;
}
