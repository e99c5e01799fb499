/* SPDX-License-Identifier: MIT */
/* All candidates met so far: each choice is judged once and followed once, several at a time. */
#include "study/size/parts.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { TABLE_LEAST = 256 };

/* What every choice is held against; NULL members where memory or a property is missing, said in faults. */
static bool open_basis(size_pool *pool, fv_faults *faults)
{
    const fv_plant *plant = pool->answer->plant;
    size_basis *basis = &pool->basis;
    *basis = (size_basis){.plant = plant, .limits = &pool->answer->options.limits};
    basis->needs = fv_arena_alloc(pool->arena, plant->vessel_count + 1, sizeof *basis->needs);
    bool good = basis->needs;
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    for (size_t i = 0; i < plant->vessel_count && good; i++)
        good = fv_vessel_need_of(plant, plant->vessels[i], fv_sat_line(), &basis->needs[i], faults) != FV_FAIL;
    int vessel;
    if (good && size_vent_pressure(plant, &basis->vent_now, &vessel) == FV_FAIL) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        good = false;
    }
    return good;
}

bool size_pool_open(size_pool *pool, const fv_size_answer *answer, fv_faults *faults)
{
    *pool = (size_pool){.answer = answer, .arena = fv_arena_new()};
    if (!pool->arena) {
        fv_error(faults, FV_ERR_SYSTEM, answer->plant->loc, "out of memory");
        return false;
    }
    return open_basis(pool, faults);
}

void size_pool_close(size_pool *pool)
{
    study_kits_free(&pool->kits);
    fv_arena_free(pool->arena);
    free(pool->list);
    free(pool->table);
    *pool = (size_pool){0};
}

/* FNV-1a over the indices. */
static size_t hash(const size_t *choice, size_t count)
{
    uint64_t h = 14695981039346656037u;
    for (size_t i = 0; i < count; i++)
        h = (h ^ choice[i]) * 1099511628211u;
    return (size_t)(h ^ h >> 32);
}

static size_t *slot_of(const size_pool *pool, const size_t *choice)
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

size_t size_pool_find(size_pool *pool, const size_t *choice)
{
    const size_t dimensions = pool->answer->dimension_count;
    void *list = pool->list;
    pool->failed = pool->failed || !grow_table(pool);
    size_t *slot = pool->failed ? NULL : slot_of(pool, choice);
    if (slot && *slot)
        return *slot - 1;
    pool->failed = pool->failed || !fv_grow(&list, &pool->capacity, pool->count + 1, sizeof *pool->list);
    pool->list = list;
    size_candidate *c = pool->failed ? NULL : fv_arena_alloc(pool->arena, 1, sizeof *c);
    size_t *own = c ? fv_arena_alloc(pool->arena, dimensions + 1, sizeof *own) : NULL;
    pool->failed = pool->failed || !own;
    if (pool->failed)
        return SIZE_MAX;
    memcpy(own, choice, dimensions * sizeof *own);
    c->choice = own;
    pool->list[pool->count++] = c;
    *slot = pool->count;
    return pool->count - 1;
}

typedef struct {
    size_pool *pool;
    const size_t *which; /* candidates that are to be dealt with */
    size_t count;
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

static fv_status follow_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const batch *b = context;
    size_candidate *c = b->pool->list[b->which[index]];
    study_settings settings;
    study_settings_open(&settings);
    size_settings(b->pool->answer, c->choice, &settings);
    fv_status status = settings.failed
                           ? FV_FAIL
                           : size_follow(b->pool->answer->plant, &settings.change, SIZE_AS_DESIGNED,
                                         b->pool->to_the_end, study_kit(&b->pool->kits, worker), progress, &c->run);
    study_settings_free(&settings);
    if (status != FV_FAIL) {
        size_check_run(b->pool->basis.limits, &c->run, c->checks);
        c->followed = true;
    }
    return status;
}

/* Those of `which` that `is_due` picks, each once. NULL: out of memory. */
static size_t *due(size_pool *pool, const size_t *which, size_t count, bool (*is_due)(const size_candidate *),
                   size_t *found)
{
    size_t *list = calloc(count + 1, sizeof *list);
    bool *taken = calloc(pool->count + 1, sizeof *taken);
    *found = 0;
    for (size_t i = 0; list && taken && i < count; i++) {
        if (taken[which[i]] || !is_due(pool->list[which[i]]))
            continue;
        taken[which[i]] = true;
        list[(*found)++] = which[i];
    }
    if (!taken) {
        free(list);
        list = NULL;
    }
    free(taken);
    return list;
}

/* The search does not know how long it will take, so each batch takes a part of what is left of its share. */
static bool run_batch(size_pool *pool, batch *b, study_job *job, const char *what)
{
    const double part = 0.3;
    const double to = pool->from + part * (pool->to - pool->from);
    const study_work plan = {.threads = pool->answer->options.threads,
                             .progress = pool->progress,
                             .from = pool->from,
                             .to = to,
                             .what = what};
    const study_ending outcome = b->count ? study_run(&plan, b->count, job, b) : STUDY_DONE;
    pool->from = b->count ? to : pool->from;
    pool->stopped = pool->stopped || outcome == STUDY_STOPPED;
    pool->failed = pool->failed || outcome == STUDY_FAILED;
    return outcome == STUDY_DONE;
}

static bool is_new(const size_candidate *c)
{
    return c->state == SIZE_NEW;
}

static bool is_to_follow(const size_candidate *c)
{
    return c->state == SIZE_JUDGED && !c->followed;
}

bool size_pool_judge(size_pool *pool, const size_t *which, size_t count)
{
    batch b = {.pool = pool};
    size_t *list = pool->failed ? NULL : due(pool, which, count, is_new, &b.count);
    pool->failed = pool->failed || !list;
    b.which = list;
    const bool good = !pool->failed && run_batch(pool, &b, judge_one, "trying sizes");
    pool->judged += good ? b.count : 0;
    free(list);
    return good;
}

bool size_pool_follow(size_pool *pool, const size_t *which, size_t count)
{
    batch b = {.pool = pool};
    size_t *list = pool->failed ? NULL : due(pool, which, count, is_to_follow, &b.count);
    pool->failed = pool->failed || !list;
    b.which = list;
    const bool good = !pool->failed && run_batch(pool, &b, follow_one, "following the best in time");
    pool->followed += good ? b.count : 0;
    free(list);
    return good;
}
