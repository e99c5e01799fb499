/* SPDX-License-Identifier: MIT */
#include "study/parallel.h"

#include <pthread.h>
#include <stdlib.h>
#include <unistd.h>

typedef struct {
    size_t stage;             /* the chains' number of stages: ended */
    size_t jobs, begun, done; /* of this stage */
} chain;

typedef struct {
    const study_work *plan;
    const study_chains *of;
    void *context;
    pthread_mutex_t lock; /* guards all below and the user's callback */
    pthread_cond_t news;  /* a job has ended */
    chain *chains;
    size_t at_work; /* jobs begun and not ended */
    bool stopped, failed;
} crew;

typedef struct {
    crew *crew;
    size_t number;
} worker;

fv_heat_cache *study_cache(study_caches *caches, size_t worker)
{
    if (!caches)
        return NULL;
    if (!caches->of[worker])
        caches->of[worker] = fv_heat_cache_new();
    return caches->of[worker];
}

void study_caches_free(study_caches *caches)
{
    for (size_t i = 0; i < STUDY_THREADS_MOST; i++)
        fv_heat_cache_free(caches->of[i]);
}

size_t study_threads(const study_work *plan, size_t n)
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
    const double whole = (double)(c->of->chains * c->of->stages);
    double part = 0;
    for (size_t i = 0; i < c->of->chains; i++) {
        const chain *h = &c->chains[i];
        part += (double)h->stage + (h->jobs > 0 ? (double)h->done / (double)h->jobs : 0);
    }
    const double share = c->plan->from + (c->plan->to - c->plan->from) * (whole > 0 ? part / whole : 1);
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

/* With the lock held: readies the chain's stage, or the next that has jobs. */
static void begin_stage(crew *c, size_t number)
{
    chain *h = &c->chains[number];
    for (; h->stage < c->of->stages && !c->failed; h->stage++) {
        h->jobs = h->begun = h->done = 0;
        c->failed = c->of->prepare(c->context, number, h->stage, &h->jobs) == FV_FAIL;
        if (h->jobs > 0)
            return;
    }
    h->jobs = h->begun = h->done = 0;
}

/* The chain that is furthest behind of those with a job to begin, for it will take longest, the last of equals; NULL:
 * there is none. */
static chain *furthest_behind(const crew *c)
{
    chain *found = NULL;
    for (size_t i = 0; i < c->of->chains; i++) {
        chain *h = &c->chains[i];
        if (h->begun < h->jobs && (!found || h->stage <= found->stage))
            found = h;
    }
    return found;
}

/* Takes the next job, waiting for one while others may still bring some about; false: none left, or all are to end. */
static bool take(crew *c, study_task *task)
{
    pthread_mutex_lock(&c->lock);
    ask_user(c);
    chain *h = furthest_behind(c);
    while (!h && c->at_work > 0 && !c->stopped && !c->failed) {
        pthread_cond_wait(&c->news, &c->lock);
        h = furthest_behind(c);
    }
    const bool got = h && !c->stopped && !c->failed;
    if (got) {
        task->chain = (size_t)(h - c->chains);
        task->stage = h->stage;
        task->index = h->begun++;
        c->at_work++;
    }
    pthread_mutex_unlock(&c->lock);
    return got;
}

static void hand_in(crew *c, const study_task *task, fv_status status)
{
    pthread_mutex_lock(&c->lock);
    chain *h = &c->chains[task->chain];
    c->at_work--;
    c->failed = c->failed || status == FV_FAIL;
    if (++h->done == h->jobs && !c->stopped && !c->failed) {
        h->stage++;
        begin_stage(c, task->chain);
    }
    pthread_cond_broadcast(&c->news);
    pthread_mutex_unlock(&c->lock);
}

static void *work(void *context)
{
    worker *w = context;
    const fv_progress progress = {.tick = tick, .context = w};
    study_task task = {.worker = w->number, .progress = &progress};
    while (take(w->crew, &task))
        hand_in(w->crew, &task, w->crew->of->job(w->crew->context, &task));
    return NULL;
}

static void let_work(crew *c, size_t wanted)
{
    pthread_t threads[STUDY_THREADS_MOST];
    worker workers[STUDY_THREADS_MOST];
    size_t started = 0;
    for (size_t i = 0; i < wanted; i++)
        workers[i] = (worker){.crew = c, .number = i};
    while (started + 1 < wanted && pthread_create(&threads[started], NULL, work, &workers[started + 1]) == 0)
        started++;
    work(&workers[0]);
    for (size_t i = 0; i < started; i++)
        pthread_join(threads[i], NULL);
}

/* `most`: jobs that there can be at a time. */
static study_ending run(const study_work *plan, const study_chains *chains, void *context, size_t most)
{
    crew c = {.plan = plan, .of = chains, .context = context};
    c.chains = calloc(chains->chains + 1, sizeof *c.chains);
    if (!c.chains)
        return STUDY_FAILED;
    const bool locks = pthread_mutex_init(&c.lock, NULL) == 0;
    const bool both = locks && pthread_cond_init(&c.news, NULL) == 0;
    c.failed = !both;
    for (size_t i = 0; i < chains->chains && !c.failed; i++)
        begin_stage(&c, i);
    if (!c.failed)
        let_work(&c, study_threads(plan, most));
    if (both)
        pthread_cond_destroy(&c.news);
    if (locks)
        pthread_mutex_destroy(&c.lock);
    free(c.chains);
    return c.stopped ? STUDY_STOPPED : c.failed ? STUDY_FAILED : STUDY_DONE;
}

study_ending study_run_chains(const study_work *plan, const study_chains *chains, void *context)
{
    return run(plan, chains, context, STUDY_THREADS_MOST);
}

/* ---- jobs that are all known: one chain of one stage ---- */

typedef struct {
    study_job *job;
    void *context;
    size_t count;
} batch;

static fv_status prepare_batch(void *context, size_t of, size_t stage, size_t *jobs)
{
    (void)of;
    (void)stage;
    *jobs = ((const batch *)context)->count;
    return FV_OK;
}

static fv_status do_one(void *context, const study_task *task)
{
    const batch *b = context;
    return b->job(b->context, task->index, task->worker, task->progress);
}

study_ending study_run(const study_work *plan, size_t n, study_job *job, void *context)
{
    const study_chains one = {.chains = 1, .stages = 1, .prepare = prepare_batch, .job = do_one};
    batch b = {.job = job, .context = context, .count = n};
    return run(plan, &one, &b, n);
}
