/* SPDX-License-Identifier: MIT */
/* The name that was probably meant: the smallest edit distance, if it is small for the length. */
#include "model/near.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static bool same(char a, char b)
{
    return tolower((unsigned char)a) == tolower((unsigned char)b);
}

/* Levenshtein's distance, with one row; case does not count. */
static size_t distance(const char *a, size_t la, const char *b, size_t lb)
{
    size_t row[MODEL_NEAR_LONGEST + 1];
    for (size_t j = 0; j <= lb; j++)
        row[j] = j;
    for (size_t i = 1; i <= la; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= lb; j++) {
            size_t change = diagonal + (same(a[i - 1], b[j - 1]) ? 0 : 1);
            diagonal = row[j];
            row[j] = least(change, least(row[j], row[j - 1]) + 1);
        }
    }
    return row[lb];
}

model_near model_near_start(const char *wanted)
{
    return (model_near){.wanted = wanted, .best = NULL, .distance = 1 + strlen(wanted) / 3};
}

void model_near_try(model_near *near, const char *name)
{
    size_t wanted = strlen(near->wanted), length = name ? strlen(name) : 0;
    if (!name || wanted > MODEL_NEAR_LONGEST || length > MODEL_NEAR_LONGEST)
        return;
    const bool begins = wanted > 2 && strncmp(name, near->wanted, wanted) == 0 && name[wanted] == '-'; /* ball-valve */
    size_t d = begins ? 0 : distance(near->wanted, wanted, name, length);
    if (d < near->distance || (d == near->distance && !near->best)) {
        near->best = name;
        near->distance = d;
    }
}

void model_near_attributes(model_near *near, const fv_element *element)
{
    for (size_t i = 0; i < element->attr_count; i++)
        model_near_try(near, element->attrs[i].name);
}

typedef struct {
    model_near *near;
    const fv_element *element;
} part_search;

static bool try_part(void *context, const fv_stop *stop)
{
    const part_search *s = context;
    if (!stop->taken && (!s->element || s->element == stop->element))
        model_near_try(s->near, stop->part->id);
    return true;
}

void model_near_parts(model_near *near, const fv_plant *plant, const fv_element *element)
{
    part_search search = {near, element};
    fv_plant_walk(plant, try_part, &search);
}

const char *model_near_hint(const model_near *near, char *buffer, size_t size)
{
    if (near->best)
        snprintf(buffer, size, "; did you mean '%.64s'?", near->best);
    else
        snprintf(buffer, size, "%s", "");
    return buffer;
}
