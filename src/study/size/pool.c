/* SPDX-License-Identifier: MIT */
/* All candidates met so far: each choice is judged once and followed once, several at a time. */
#include "study/size/parts.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { TABLE_LEAST = 256 };

bool size_pool_open(size_pool *pool, const fv_size_answer *answer, const study_work *work)
{
    *pool = (size_pool){.answer = answer, .arena = fv_arena_new(), .work = work};
    pool->basis = (size_basis){.plant = answer->plant, .limits = &answer->options.limits};
    return pool->arena != NULL;
}

void size_pool_close(size_pool *pool)
{
    fv_arena_free(pool->arena);
    free(pool->list);
    free(pool->table);
    *pool = (size_pool){0};
}

/* FNV-1a over the indices. */
static size_t hash(const int *choice, size_t count)
{
    uint64_t h = 14695981039346656037u;
    for (size_t i = 0; i < count; i++)
        h = (h ^ (uint64_t)choice[i]) * 1099511628211u;
    return (size_t)(h ^ h >> 32);
}

static size_t *slot_of(const size_pool *pool, const int *choice)
{
    const size_t count = pool->answer->dimension_count;
    size_t i = hash(choice, count) & (pool->table_size - 1);
    while (pool->table[i] && memcmp(pool->list[pool->table[i] - 1]->choice, choice, count * sizeof *choice) != 0)
        i = (i + 1) & (pool->table_size - 1);
    return &pool->table[i];
}

static bool grow_table(size_pool *pool)
{
    if (2 * (pool->count + 1) <= pool->table_size)
        return true;
    const size_t size = pool->table_size ? 2 * pool->table_size : TABLE_LEAST;
    size_t *table = calloc(size, sizeof *table);
    if (!table)
        return false;
    free(pool->table);
    pool->table = table;
    pool->table_size = size;
    for (size_t i = 0; i < pool->count; i++)
        *slot_of(pool, pool->list[i]->choice) = i + 1;
    return true;
}

size_t size_pool_find(size_pool *pool, const int *choice)
{
    const size_t dimensions = pool->answer->dimension_count;
    void *list = pool->list;
    size_t *slot = grow_table(pool) ? slot_of(pool, choice) : NULL;
    if (slot && *slot)
        return *slot - 1;
    const bool good = slot && fv_grow(&list, &pool->capacity, pool->count + 1, sizeof *pool->list);
    pool->list = list;
    size_candidate *c = good ? fv_arena_alloc(pool->arena, 1, sizeof *c) : NULL;
    int *own = c ? fv_arena_alloc(pool->arena, dimensions + 1, sizeof *own) : NULL;
    if (!own)
        return SIZE_MAX;
    memcpy(own, choice, dimensions * sizeof *own);
    c->choice = own;
    pool->list[pool->count++] = c;
    *slot = pool->count;
    return pool->count - 1;
}

typedef struct {
    size_pool *pool;
    size_t *which; /* candidates that are to be judged */
} batch;

static fv_status judge_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const batch *b = context;
    size_candidate *c = b->pool->list[b->which[index]];
    study_settings settings;
    (void)worker;
    (void)progress;
    study_settings_open(&settings);
    size_settings(b->pool->answer, c->choice, &settings);
    fv_status status = settings.failed && !settings.unsayable ? FV_FAIL : FV_OK;
    if (settings.unsayable)
        c->state = SIZE_UNFIT;
    else if (status != FV_FAIL)
        status = size_judge(&b->pool->basis, &settings.change, c, NULL);
    study_settings_free(&settings);
    return status;
}

/* The first to be judged is the plant as it is, against which all others are held. */
static void keep_now(size_pool *pool)
{
    if (pool->basis.now || pool->count == 0 || pool->list[0]->state == SIZE_NEW)
        return;
    size_candidate *now = pool->list[0];
    memcpy(pool->now, now->checks, sizeof pool->now);
    pool->basis.now = pool->now;
    for (int i = 0; i < FV_LIMITS; i++)
        size_allow(&pool->now[i], &now->checks[i]);
}

study_ending size_pool_judge(size_pool *pool, const size_t *which, size_t count)
{
    batch b = {.pool = pool, .which = calloc(count + 1, sizeof *b.which)};
    bool *taken = calloc(pool->count + 1, sizeof *taken);
    size_t due = 0;
    const bool good = b.which && taken;
    for (size_t i = 0; i < count && good; i++) {
        if (taken[which[i]] || pool->list[which[i]]->state != SIZE_NEW)
            continue;
        taken[which[i]] = true;
        b.which[due++] = which[i];
    }
    const study_ending ending = good ? study_run(pool->work, due, judge_one, &b) : STUDY_FAILED;
    if (ending == STUDY_DONE)
        keep_now(pool);
    free(taken);
    free(b.which);
    return ending;
}
