/* SPDX-License-Identifier: MIT */
/* The list of candidates, in the answer's arena. */
#include "study/plan/parts.h"

#include <string.h>

plan_candidate *plan_add(plan_question *q, const plan_candidate *candidate)
{
    if (q->count == q->capacity) {
        const size_t capacity = q->capacity ? 2 * q->capacity : 64;
        plan_candidate *list = fv_arena_alloc(q->answer->arena, capacity, sizeof *list);
        if (!list)
            return NULL;
        if (q->count)
            memcpy(list, q->list, q->count * sizeof *list);
        q->list = list;
        q->capacity = capacity;
    }
    q->list[q->count] = *candidate;
    return &q->list[q->count++];
}

int *plan_point(plan_question *q, const int *point)
{
    const size_t n = q->adviser.handling.count;
    int *own = fv_arena_alloc(q->answer->arena, n + 1, sizeof *own);
    if (own && point)
        memcpy(own, point, n * sizeof *own);
    return own;
}
