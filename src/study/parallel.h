/* SPDX-License-Identifier: MIT */
/* Independent jobs on several threads. A job writes only what belongs to its index (or, as scratch, to its worker), so
 * the outcome is the same to the bit for any number of threads. */
#ifndef STUDY_PARALLEL_H
#define STUDY_PARALLEL_H

#include "farvessel/heatup.h"

enum { STUDY_THREADS_MOST = 64 };

/* Does job `index`. `worker` is below the number of threads and never two jobs' at a time. Long jobs should pass on
 * `progress` (each has its own, to be asked from its thread only) and return FV_OK when it says stop. FV_FAIL ends the
 * whole: jobs not begun are left out. */
typedef fv_status study_job(void *context, size_t index, size_t worker, const fv_progress *progress);

/* What runs on the same thread share. Made when first asked for; the answers are the same without. */
typedef struct {
    fv_heat_cache *of[STUDY_THREADS_MOST];
} study_caches;
/* NULL: there are none, or out of memory; a run then makes its own. */
fv_heat_cache *study_cache(study_caches *caches, size_t worker);
void study_caches_free(study_caches *caches);

typedef struct {
    size_t threads;              /* 0: as many as there are processors */
    const fv_progress *progress; /* of the user; called by one thread at a time, from any; NULL: none */
    double from, to;             /* share of the whole that these jobs take the user's progress through */
    const char *what;
    study_caches *caches; /* for the jobs' runs; NULL: each makes its own */
} study_work;

typedef enum { STUDY_DONE, STUDY_STOPPED, STUDY_FAILED } study_ending;

/* Threads that a plan gets for n jobs: at least one, never more than n. */
size_t study_threads(const study_work *plan, size_t n);

/* Runs jobs 0 to n-1. STUDY_STOPPED: the user asked to stop. STUDY_FAILED: some job returned FV_FAIL. A system that
 * gives no more threads only makes it slower: the caller's own thread takes part. */
study_ending study_run(const study_work *plan, size_t n, study_job *job, void *context);

/* One job of a chain's stage. */
typedef struct {
    size_t chain, stage, index, worker;
    const fv_progress *progress; /* as of a study_job */
} study_task;

/* Several chains side by side, each of which goes on by stages: the jobs of a stage are independent of each other, and
 * which they are follows from the stages before. No chain waits for another. */
typedef struct {
    size_t chains, stages;
    /* Asked when the chain's stage before has ended, once for each stage: how many jobs are there? May be 0. Called by
     * one thread at a time, of all chains. FV_FAIL ends the whole. */
    fv_status (*prepare)(void *context, size_t chain, size_t stage, size_t *jobs);
    fv_status (*job)(void *context, const study_task *task);
} study_chains;
study_ending study_run_chains(const study_work *plan, const study_chains *chains, void *context);

#endif
