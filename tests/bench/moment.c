/* SPDX-License-Identifier: MIT */
/* One moment: warm, cold, and as a whole process. */
#include "bench.h"

#include <fcntl.h>
#include <math.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>

extern char **environ;

static double wall(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Seconds on the clock of one run whose output is thrown away, and of processor time; false: it failed. */
static bool run_once(char *const arguments[], double *clock, double *processor)
{
    posix_spawn_file_actions_t files;
    struct rusage before, after;
    pid_t child;
    int status = -1;
    getrusage(RUSAGE_CHILDREN, &before);
    const double begin = wall();
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_addopen(&files, 1, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&files, 2, "/dev/null", O_WRONLY, 0);
    const bool started = posix_spawn(&child, arguments[0], &files, NULL, arguments, environ) == 0;
    posix_spawn_file_actions_destroy(&files);
    if (!started || waitpid(child, &status, 0) != child)
        return false;
    *clock = wall() - begin;
    getrusage(RUSAGE_CHILDREN, &after);
    *processor =
        (double)(after.ru_utime.tv_sec + after.ru_stime.tv_sec - before.ru_utime.tv_sec - before.ru_stime.tv_sec) +
        1e-6 * (double)(after.ru_utime.tv_usec + after.ru_stime.tv_usec - before.ru_utime.tv_usec -
                        before.ru_stime.tv_usec);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

/* A command of words with one space between. */
static void process(const char *program, const char *command, int runs, const char *target)
{
    char path[512], words[256], *arguments[16] = {path, words};
    snprintf(path, sizeof path, "%s", program);
    snprintf(words, sizeof words, "%s", command);
    size_t count = 2;
    for (char *space = words; (space = strchr(space, ' ')) && count + 1 < sizeof arguments / sizeof *arguments;) {
        *space++ = '\0';
        arguments[count++] = space;
    }
    double best_clock = INFINITY, best_processor = INFINITY;
    for (int i = 0; i < runs; i++) {
        double clock, processor;
        if (!run_once(arguments, &clock, &processor))
            return;
        best_clock = fmin(best_clock, clock);
        best_processor = fmin(best_processor, processor);
    }
    printf("| `%s` | %.1f ms | %.1f ms | %s |\n", command, best_clock * 1e3, best_processor * 1e3, target);
}

static void solve(void *context)
{
    bench_case *c = context;
    fv_solve(c->solver, &c->conditions, c->result, c->faults);
}
static void solve_cold(void *context)
{
    bench_case *c = context;
    fv_solver_forget(c->solver);
    solve(c);
}
/* As a study or a run in time does: other fires at each solve, by a percent. */
static void solve_other(void *context)
{
    bench_case *c = context;
    for (size_t i = 0; i < c->plant->boiler_count; i++)
        c->fire[i] = c->fire[i] < 1 ? 1 : 0.99;
    solve(c);
}

void bench_moment(const char *program)
{
    bench_case c;
    fv_faults *faults = fv_faults_new();
    printf("## One moment: 7 vessels of 12 holes each\n\n");
    if (bench_open(&c, bench_plant(BENCH_TREE, 7, faults), faults)) {
        size_t unknowns, nonzeros;
        fv_network_size(c.net, &unknowns, &nonzeros);
        solve(&c);
        const double same = bench_time(solve, &c), other = bench_time(solve_other, &c);
        const int warm = c.result->audit.iterations;
        const double cold = bench_time(solve_cold, &c);
        printf("%zu unknowns, %zu nonzeros.\n\n| what | one core | iterations | wanted |\n|---|---|---|---|\n",
               unknowns, nonzeros);
        printf("| warm, nothing changed | %.0f us | | |\n| warm, fire changed by 1 %% | %.0f us | %d | 100 us |\n"
               "| cold | %.0f us | %d | |\n\n",
               same * 1e6, other * 1e6, warm, cold * 1e6, c.result->audit.iterations);
    }
    bench_close(&c);
    printf("From the XML to the printed answer as a whole process, least of 20 runs:\n\n"
           "| command | clock | processor | wanted |\n|---|---|---|---|\n");
    process(program, "flow networks/hand.xml", 20, "10 ms");
    process(program, "flow networks/far-bench.xml", 20, "10 ms");
    process(program, "check networks/far-bench.xml", 20, "10 ms");
    printf("\n");
}

void bench_run(const char *program)
{
    printf(
        "## In time, and the questions of many runs\n\n| plant | 24 h, one core | steps | network solves | wanted |\n"
        "|---|---|---|---|---|\n");
    static const int sizes[] = {7, 100};
    double each[2] = {0}, solve[2] = {0};
    for (int i = 0; i < 2; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = bench_plant(BENCH_TREE, sizes[i], faults);
        fv_heat_options options;
        fv_heat_defaults(&options);
        options.until = 24 * 3600.0;
        const double begin = bench_now();
        fv_heat_result *r = plant ? fv_heat_run(plant, &options, NULL, faults) : NULL;
        const double took = bench_now() - begin;
        if (r) {
            printf("| %d vessels | %.1f ms | %zu | %zu | %s |\n", sizes[i], took * 1e3, r->audit.steps, r->audit.solves,
                   i == 0 ? "20 ms" : "linear in vessels x steps");
            each[i] = took / (sizes[i] * (double)r->audit.steps);
            solve[i] = took / (sizes[i] * (double)r->audit.solves);
        } else {
            printf("| %d vessels | no solution | | | |\n", sizes[i]);
            for (size_t k = 0; k < fv_faults_count(faults); k++)
                fprintf(stderr, "%s\n", fv_faults_at(faults, k)->text);
        }
        fv_heat_free(r);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    printf(
        "\nPer vessel and step: %.2f us with 7, %.2f us with 100 vessels; per vessel and network solve, of which more "
        "vessels need more in each step: %.1f us and %.1f us.\n\n",
        each[0] * 1e6, each[1] * 1e6, solve[0] * 1e6, solve[1] * 1e6);
    printf("| command | clock | processor | wanted, two cores |\n|---|---|---|---|\n");
    process(program, "heat networks/far-bench.xml", 3, "");
    process(program, "why networks/far-bench.xml", 1, "1 s");
    process(program, "size networks/far-bench.xml", 1, "5 s");
    process(program, "carry networks/far-bench.xml", 1, "3 s");
    process(program, "report networks/far-bench.xml", 1, "");
    process(program, "odds networks/far-bench.xml", 1, "4 s");
    process(program, "fit networks/far-bench.xml --log networks/far-bench-log.csv --lit 06:00 --now 07:00", 1, "5 s");
    process(program, "forecast networks/far-bench.xml --log networks/far-bench-log.csv --lit 06:00 --now 07:00", 1,
            "8 s");
    printf("\n");
}
