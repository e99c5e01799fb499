/* SPDX-License-Identifier: MIT */
/* Jobs side by side: the same to the bit for any number of threads, stopped cleanly, failures said. */
#include "study/parallel.h"

#include "study/nursery.h"

#include <pthread.h>

enum { JOBS = 200, STOP_AFTER = 5 };

typedef struct {
    double result[JOBS];
    int times[JOBS];
    size_t busy[STUDY_THREADS_MOST]; /* jobs that a worker does just now */
    bool overlap[STUDY_THREADS_MOST];
    size_t fails_at;
} board;

static fv_status compute(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    board *b = context;
    b->overlap[worker] = b->overlap[worker] || b->busy[worker]++ > 0;
    double sum = 0;
    for (int i = 1; i < 2000; i++)
        sum += sin((double)index / i);
    b->result[index] = sum;
    b->times[index]++;
    b->busy[worker]--;
    if (!fv_progress_tick(progress, 0.5, "one job"))
        return FV_OK;
    return index == b->fails_at ? FV_FAIL : FV_OK;
}

static void same_for_any_number_of_threads(void **state)
{
    (void)state;
    board alone = {.fails_at = JOBS}, many = {.fails_at = JOBS};
    study_work plan = {.threads = 1, .to = 1, .what = "counting"};
    assert_int_equal(study_run(&plan, JOBS, compute, &alone), STUDY_DONE);
    static const size_t counts[] = {0, 2, 3, 7, 64};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        memset(&many, 0, sizeof many);
        many.fails_at = JOBS;
        plan.threads = counts[i];
        assert_int_equal(study_run(&plan, JOBS, compute, &many), STUDY_DONE);
        assert_memory_equal(many.result, alone.result, sizeof alone.result);
        for (size_t k = 0; k < STUDY_THREADS_MOST; k++)
            assert_false(many.overlap[k]);
        for (size_t k = 0; k < JOBS; k++)
            assert_int_equal(many.times[k], 1);
    }
    assert_int_equal(study_threads(&plan, 3), 3);
    assert_int_equal(study_threads(&plan, 0), 1);
    assert_int_equal(study_run(&plan, 0, compute, &many), STUDY_DONE);
}

typedef struct {
    int asked;
    double last;
    bool forward;
    pthread_t caller;
} user;

static bool stop_soon(void *context, double share, const char *what)
{
    user *u = context;
    u->forward = u->forward && share >= u->last;
    u->last = share;
    assert_string_equal(what, "counting");
    return ++u->asked < STOP_AFTER;
}

static void stops_when_asked(void **state)
{
    (void)state;
    for (size_t threads = 1; threads < 4; threads++) {
        board b = {.fails_at = JOBS};
        user u = {.forward = true};
        const fv_progress progress = {stop_soon, &u};
        const study_work plan = {.threads = threads, .progress = &progress, .from = 0.2, .to = 0.7, .what = "counting"};
        assert_int_equal(study_run(&plan, JOBS, compute, &b), STUDY_STOPPED);
        assert_int_equal(u.asked, STOP_AFTER); /* never asked again after the no */
        assert_true(u.forward && u.last >= 0.2 && u.last <= 0.7);
        int done = 0;
        for (size_t k = 0; k < JOBS; k++)
            done += b.times[k];
        assert_true(done < JOBS);
    }
}

static void a_failed_job_ends_it(void **state)
{
    (void)state;
    board b = {.fails_at = 3};
    const study_work plan = {.threads = 2, .to = 1, .what = "counting"};
    assert_int_equal(study_run(&plan, JOBS, compute, &b), STUDY_FAILED);
    assert_int_equal(b.times[JOBS - 1], 0);
}

/* ---- chains ---- */

enum { CHAINS = 7, STAGES = 5 };

/* Each stage of a chain works on what the stage before left; the number of its jobs follows from that, too. */
typedef struct {
    double value[CHAINS];
    double made[CHAINS][JOBS];
    size_t jobs[CHAINS], next[CHAINS];
    int done;
    size_t fails_at;
} relay;

static fv_status hand_on(void *context, size_t chain, size_t stage, size_t *jobs)
{
    relay *r = context;
    assert_int_equal(stage, r->next[chain]++);
    for (size_t i = 0; i < r->jobs[chain]; i++)
        r->value[chain] += r->made[chain][i];
    r->jobs[chain] = stage == 2 ? 0 : (size_t)(7 * r->value[chain]) % 4 + (chain + stage) % 3;
    *jobs = r->jobs[chain];
    return stage == STAGES - 1 && chain == r->fails_at ? FV_FAIL : FV_OK;
}

static fv_status run_leg(void *context, const study_task *task)
{
    relay *r = context;
    assert_int_equal(task->stage + 1, r->next[task->chain]); /* none of the next stage has begun */
    double sum = 0;
    for (int i = 1; i < 2000; i++)
        sum += fabs(sin(r->value[task->chain] + (double)task->index / i));
    r->made[task->chain][task->index] = sum;
    __atomic_add_fetch(&r->done, 1, __ATOMIC_RELAXED);
    fv_progress_tick(task->progress, 0.5, "one leg");
    return FV_OK;
}

static const study_chains legs = {.chains = CHAINS, .stages = STAGES, .prepare = hand_on, .job = run_leg};

static void chains_go_on_by_themselves(void **state)
{
    (void)state;
    relay alone = {.fails_at = CHAINS};
    study_work plan = {.threads = 1, .to = 1, .what = "counting"};
    assert_int_equal(study_run_chains(&plan, &legs, &alone), STUDY_DONE);
    assert_true(alone.done > CHAINS);
    for (size_t i = 0; i < CHAINS; i++)
        assert_int_equal(alone.next[i], STAGES);
    for (size_t threads = 2; threads < 9; threads++) {
        relay many = {.fails_at = CHAINS};
        user u = {.forward = true, .asked = -100000};
        const fv_progress progress = {stop_soon, &u};
        plan.threads = threads;
        plan.progress = &progress;
        assert_int_equal(study_run_chains(&plan, &legs, &many), STUDY_DONE);
        assert_memory_equal(many.value, alone.value, sizeof alone.value);
        assert_int_equal(many.done, alone.done);
        assert_true(u.forward && u.last > 0.999);
    }
}

static void chains_end_when_they_must(void **state)
{
    (void)state;
    for (size_t threads = 1; threads < 5; threads++) {
        relay r = {.fails_at = 1};
        study_work plan = {.threads = threads, .to = 1, .what = "counting"};
        assert_int_equal(study_run_chains(&plan, &legs, &r), STUDY_FAILED);
        relay stopped = {.fails_at = CHAINS};
        user u = {.forward = true};
        const fv_progress progress = {stop_soon, &u};
        plan.progress = &progress;
        assert_int_equal(study_run_chains(&plan, &legs, &stopped), STUDY_STOPPED);
        assert_int_equal(u.asked, STOP_AFTER);
    }
    const study_chains none = {.chains = 0, .stages = STAGES, .prepare = hand_on, .job = run_leg};
    const study_work plan = {.threads = 3, .to = 1, .what = "counting"};
    assert_int_equal(study_run_chains(&plan, &none, NULL), STUDY_DONE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(same_for_any_number_of_threads),
                                       cmocka_unit_test(stops_when_asked), cmocka_unit_test(a_failed_job_ends_it),
                                       cmocka_unit_test(chains_go_on_by_themselves),
                                       cmocka_unit_test(chains_end_when_they_must)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
