/* SPDX-License-Identifier: MIT */
#include "study/parallel.h"

#include <pthread.h>
#include <stdlib.h>
#include <unistd.h>

typedef struct {
    const study_plan *plan;
    study_job *job;
    void *context;
    size_t count;
    pthread_mutex_t lock; /* guards all below and the user's callback */
    size_t next, done;
    bool stopped, failed;
} crew;

typedef struct {
    crew *crew;
    size_t number;
} worker;

fv_heat_kit *study_kit(study_kits *kits, size_t worker)
{
    if (!kits)
        return NULL;
    if (!kits->of[worker])
        kits->of[worker] = fv_heat_kit_new();
    return kits->of[worker];
}

void study_kits_free(study_kits *kits)
{
    for (size_t i = 0; i < STUDY_THREADS_MOST; i++)
        fv_heat_kit_free(kits->of[i]);
}

size_t study_threads(const study_plan *plan, size_t n)
{
    size_t threads = plan->threads;
    if (threads == 0) {
        const long processors = sysconf(_SC_NPROCESSORS_ONLN);
        threads = processors > 0 ? (size_t)processors : 1;
    }
    if (threads > STUDY_THREADS_MOST)
        threads = STUDY_THREADS_MOST;
    if (threads > n)
        threads = n;
    return threads > 0 ? threads : 1;
}

/* With the lock held. */
static void ask_user(crew *c)
{
    const double part = c->count > 0 ? (double)c->done / (double)c->count : 1;
    const double share = c->plan->from + (c->plan->to - c->plan->from) * part;
    if (!c->stopped && !fv_progress_tick(c->plan->progress, share, c->plan->what))
        c->stopped = true;
}

/* What a job's own progress asks: the share of all jobs is what the user sees. */
static bool tick(void *context, double share, const char *what)
{
    crew *c = ((worker *)context)->crew;
    (void)share;
    (void)what;
    pthread_mutex_lock(&c->lock);
    ask_user(c);
    const bool on = !c->stopped && !c->failed;
    pthread_mutex_unlock(&c->lock);
    return on;
}

/* Takes the next job; false: none left, or all are to end. */
static bool take(crew *c, size_t *index)
{
    pthread_mutex_lock(&c->lock);
    ask_user(c);
    const bool got = !c->stopped && !c->failed && c->next < c->count;
    if (got)
        *index = c->next++;
    pthread_mutex_unlock(&c->lock);
    return got;
}

static void *work(void *context)
{
    worker *w = context;
    crew *c = w->crew;
    const fv_progress progress = {.tick = tick, .context = w};
    size_t index;
    while (take(c, &index)) {
        const fv_status status = c->job(c->context, index, w->number, &progress);
        pthread_mutex_lock(&c->lock);
        c->done++;
        c->failed = c->failed || status == FV_FAIL;
        pthread_mutex_unlock(&c->lock);
    }
    return NULL;
}

study_outcome study_run(const study_plan *plan, size_t n, study_job *job, void *context)
{
    crew c = {.plan = plan, .job = job, .context = context, .count = n};
    pthread_t threads[STUDY_THREADS_MOST];
    worker workers[STUDY_THREADS_MOST];
    const size_t wanted = study_threads(plan, n);
    size_t started = 0;
    if (pthread_mutex_init(&c.lock, NULL) != 0)
        return STUDY_FAILED;
    for (size_t i = 0; i < wanted; i++)
        workers[i] = (worker){.crew = &c, .number = i};
    while (started + 1 < wanted && pthread_create(&threads[started], NULL, work, &workers[started + 1]) == 0)
        started++;
    work(&workers[0]);
    for (size_t i = 0; i < started; i++)
        pthread_join(threads[i], NULL);
    pthread_mutex_destroy(&c.lock);
    return c.stopped ? STUDY_STOPPED : c.failed ? STUDY_FAILED : STUDY_DONE;
}
