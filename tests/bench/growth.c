/* SPDX-License-Identifier: MIT */
/* How the cold solve grows with the plant. Each measured in processes of its own: its memory is its own, and a small
 * plant's is as new as a large one's, which the first solve has to ask the system for. */
#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct {
    double link, compile, cold, again, klu, residual; /* s */
    double relative;
    long memory; /* KiB */
    int iterations;
    size_t unknowns, nonzeros;
    int solved;
} row;

static bool measure(bench_shape shape, bool losses, int vessels, row *r)
{
    bench_case c;
    fv_faults *faults = fv_faults_new();
    double begin = bench_now();
    fv_plant *plant = bench_plant(shape, vessels, faults);
    for (size_t i = 0; plant && !losses && i < plant->line_count; i++)
        plant->lines[i]->heat_loss = fv_given(0);
    r->link = bench_now() - begin;
    begin = bench_now();
    const bool open = bench_open(&c, plant, faults);
    r->compile = bench_now() - begin;
    if (open) {
        struct rusage use;
        fv_network_size(c.net, &r->unknowns, &r->nonzeros);
        begin = bench_now();
        r->solved = fv_solve(c.solver, &c.conditions, c.result, faults) != FV_FAIL;
        r->cold = bench_now() - begin;
        r->iterations = c.result->audit.iterations;
        r->relative = fmax(c.result->audit.mass_relative, c.result->audit.energy_relative);
        getrusage(RUSAGE_SELF, &use);
        r->memory = use.ru_maxrss;
        r->again = INFINITY;
        for (int i = 0; r->solved && i < 3; i++) {
            fv_solver_forget(c.solver);
            begin = bench_now();
            fv_solve(c.solver, &c.conditions, c.result, faults);
            r->again = fmin(r->again, bench_now() - begin);
        }
        begin = bench_now();
        steady_assemble(c.solver, c.solver->state.x, c.solver->work.residual, NULL);
        r->residual = bench_now() - begin;
        bench_matrix m;
        if (r->solved && bench_matrix_of(&c, &m)) {
            r->klu = bench_klu(&m);
            bench_matrix_free(&m);
        }
    }
    bench_close(&c);
    return open;
}

/* In a child; false: it crashed or could not. */
static bool measure_apart(bench_shape shape, bool losses, int vessels, row *r)
{
    int ends[2];
    if (pipe(ends) != 0)
        return false;
    fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        *r = (row){0};
        const bool good = measure(shape, losses, vessels, r) && write(ends[1], r, sizeof *r) == sizeof *r;
        _exit(good ? 0 : 1);
    }
    close(ends[1]);
    const bool good = child > 0 && read(ends[0], r, sizeof *r) == sizeof *r;
    close(ends[0]);
    if (child > 0)
        waitpid(child, NULL, 0);
    return good;
}

/* The best of several. */
static bool measure_often(bench_shape shape, bool losses, int vessels, int times, row *best)
{
    *best = (row){.cold = INFINITY};
    for (int i = 0; i < times; i++) {
        row r;
        if (!measure_apart(shape, losses, vessels, &r))
            return false;
        if (r.cold < best->cold)
            *best = r;
    }
    return true;
}

/* What `flow` answers: the moment, verdicts, turn-down, and the lids. */
static void answers(void)
{
    static const int sizes[] = {10, 100, 990};
    printf("\n| whole answer of flow, tree | solved and predicted, s | with turn-down, s | lids, s "
           "|\n|---|---|---|---|\n");
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = bench_plant(BENCH_TREE, sizes[i], faults);
        fv_flow_options options;
        fv_flow_defaults(&options);
        double took[3];
        for (int k = 0; k < 3 && plant; k++) {
            const double begin = bench_now();
            options.turndown = k == 1;
            if (k < 2)
                fv_flow_answer_free(fv_flow_answer_new(plant, &options, NULL, faults));
            else
                fv_lid_free(fv_lid_run(plant, faults));
            took[k] = bench_now() - begin;
        }
        if (plant)
            printf("| %d vessels | %.3f | %.3f | %.3f |\n", sizes[i], took[0], took[1], took[2]);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
}

void bench_growth(void)
{
    static const struct {
        int vessels, times;
    } sizes[] = {{10, 40}, {100, 20}, {1000, 10}, {10000, 5}, {100000, 2}};
    enum { SIZES = sizeof sizes / sizeof *sizes };
    printf(
        "## Growth\n\nTen vessels of 12 holes to a boiler of 15 kW, joined as a tree of headers or as a ladder (a loop "
        "for every ten), built by the C API. `cold solve`: the first of a process, the least of several processes; "
        "`again`: "
        "a later one from nothing, its memory at hand. `floor`: iterations x one KLU refactorisation and solve of the "
        "same matrix; `of floor`: cold solve over floor. Wanted: exponent at most 1.1, 10,000 vessels in 0.3 s, "
        "100,000 in "
        "4 s and 2 GiB, at most 6 times the floor.\n\n"
        "| shape | vessels | unknowns | plant, s | network, s | cold solve, s | again, s | iterations | floor, s | of "
        "floor | one "
        "residual, ms | memory, MiB | exponent | of again | audit "
        "|\n|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|\n");
    for (int kind = 0; kind < 4; kind++) {
        const bool losses = kind < 2;
        const bench_shape shape = kind % 2 ? BENCH_LADDER : BENCH_TREE;
        static const char *const names[] = {"tree", "ladder", "tree that loses no heat", "ladder that loses no heat"};
        double before = NAN, again_before = NAN;
        for (int i = 0; i < SIZES; i++) {
            row r;
            if (!measure_often(shape, losses, sizes[i].vessels, sizes[i].times, &r)) {
                printf("| %s | %d | could not be made |\n", names[kind], sizes[i].vessels);
                continue;
            }
            const double floor = r.solved ? r.iterations * r.klu : (double)NAN;
            char exponent[16] = "", of_again[16] = "", audit[32] = "no solution";
            if (i > 0 && r.solved) {
                snprintf(exponent, sizeof exponent, "%.2f", log10(r.cold / before));
                snprintf(of_again, sizeof of_again, "%.2f", log10(r.again / again_before));
            }
            if (r.solved)
                snprintf(audit, sizeof audit, "%.0e", r.relative);
            printf("| %s | %d | %zu | %.4f | %.4f | %.5f | %.5f | %d | %.5f | %.1f | %.2f | %ld | %s | %s | %s |\n",
                   names[kind], sizes[i].vessels, r.unknowns, r.link, r.compile, r.cold, r.again, r.iterations, floor,
                   r.cold / floor, r.residual * 1e3, r.memory / 1024, exponent, of_again, audit);
            if (!r.solved)
                break;
            before = r.cold;
            again_before = r.again;
        }
    }
    answers();
    printf("\n");
}
