/* SPDX-License-Identifier: MIT */
/* All candidates met so far: each choice is judged once and followed once, several at a time. */
#include "study/size/parts.h"

#include <search.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static int by_choice(const void *one, const void *other)
{
    const size_candidate *a = one, *b = other;
    return memcmp(a->choice, b->choice, a->dimensions * sizeof *a->choice);
}

bool size_pool_open(size_pool *pool, const fv_size_answer *answer, const study_work *work)
{
    *pool = (size_pool){.answer = answer, .arena = fv_arena_new(), .work = work};
    pool->basis = (size_basis){.plant = answer->plant, .limits = &answer->options.limits};
    return pool->arena != NULL;
}

void size_pool_close(size_pool *pool)
{
    while (pool->by_choice)
        tdelete(*(size_candidate **)pool->by_choice, &pool->by_choice, by_choice);
    fv_arena_free(pool->arena);
    free(pool->list);
    *pool = (size_pool){0};
}

size_t size_pool_find(size_pool *pool, const int *choice)
{
    const size_t dimensions = pool->answer->dimension_count;
    const size_candidate asked = {.choice = choice, .dimensions = dimensions};
    size_candidate **kept = tfind(&asked, &pool->by_choice, by_choice);
    if (kept)
        return (*kept)->index;
    void *list = pool->list;
    const bool good = fv_grow(&list, &pool->capacity, pool->count + 1, sizeof *pool->list);
    pool->list = list;
    size_candidate *c = good ? fv_arena_alloc(pool->arena, 1, sizeof *c) : NULL;
    int *own = c ? fv_arena_alloc(pool->arena, dimensions + 1, sizeof *own) : NULL;
    if (!own)
        return SIZE_MAX;
    memcpy(own, choice, dimensions * sizeof *own);
    c->choice = own;
    c->dimensions = dimensions;
    c->index = pool->count;
    if (!tsearch(c, &pool->by_choice, by_choice))
        return SIZE_MAX;
    pool->list[pool->count++] = c;
    return c->index;
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
