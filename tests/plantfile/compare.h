/* SPDX-License-Identifier: MIT */
/* Compares two plants part by part through the schema. */
#ifndef TESTS_PLANTFILE_COMPARE_H
#define TESTS_PLANTFILE_COMPARE_H

#include "farvessel/plantfile.h"
#include "model/parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    fv_stop *list;
    size_t count, capacity;
} compare_stops;

static inline bool compare_collect(void *context, const fv_stop *stop)
{
    compare_stops *s = context;
    void *list = s->list;
    if (!fv_grow(&list, &s->capacity, s->count + 1, sizeof(fv_stop)))
        return false;
    s->list = list;
    s->list[s->count++] = *stop;
    return true;
}

static inline bool compare_text(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

/* `origins`: they must agree, too; else values alone (a setting, once written, is given). */
static inline bool compare_part(const fv_stop *a, const fv_stop *b, bool origins)
{
    char who[200];
    bool same = a->element == b->element;
    for (size_t i = 0; same && i < a->element->attr_count; i++) {
        const fv_attr *attr = &a->element->attrs[i];
        bool good;
        if (model_is_text(attr)) {
            good = compare_text(*fv_attr_text(a->part, attr), *fv_attr_text(b->part, attr));
        } else {
            const fv_value x = *fv_attr_value(a->part, attr), y = *fv_attr_value(b->part, attr);
            good = (x.v == y.v || (isnan(x.v) && isnan(y.v))) && fv_is_set(x) == fv_is_set(y) &&
                   (!origins || (x.origin == y.origin && x.known == y.known)) && x.spread_as == y.spread_as &&
                   fabs((double)x.spread - (double)y.spread) <= 2e-6 * (double)x.spread;
        }
        if (!good)
            printf("differs: %s, %s\n", model_name(a, who, sizeof who), attr->name);
        same = same && good;
    }
    return same;
}

static inline bool compare_plants(const fv_plant *a, const fv_plant *b, bool origins)
{
    compare_stops x = {0}, y = {0};
    bool same = fv_plant_walk(a, compare_collect, &x) && fv_plant_walk(b, compare_collect, &y) && x.count == y.count &&
                compare_text(a->title, b->title) && compare_text(a->currency, b->currency) &&
                a->node_count == b->node_count;
    for (size_t i = 0; same && i < x.count; i++)
        same = compare_part(&x.list[i], &y.list[i], origins);
    for (size_t i = 0; same && i < a->node_count; i++)
        same = strcmp(a->nodes[i], b->nodes[i]) == 0;
    free(x.list);
    free(y.list);
    return same;
}

#endif
