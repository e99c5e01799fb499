/* SPDX-License-Identifier: MIT */
/* The stamped Jacobian against differences of the residual, at solutions of random plants and beside them, with all
 * corners sharp and rounded off. */
#include "steady/random_plant.h"

#include "steady/assembly.h"

enum { PLANTS = 40, ENTRIES_MOST = 900 };
/* Of the larger of the two slopes on either side; both differ from the stamp where a corner lies between. */
static const double TOLERANCE = 2e-3;
static const double NEGLIGIBLE = 1e-4;

typedef struct {
    double *stamped; /* n x n */
    double *x, *plus, *minus, *here;
    int compared, corners;
} differences;

static void stamp_dense(fv_solver *s, differences *d)
{
    const int n = s->net->unknown_count;
    steady_stamps stamps = {.record = true};
    steady_assemble(s, d->x, d->here, &stamps);
    assert_false(stamps.failed);
    memset(d->stamped, 0, (size_t)n * (size_t)n * sizeof(double));
    for (size_t k = 0; k < stamps.count; k++)
        d->stamped[stamps.rows[k] * n + stamps.cols[k]] += stamps.values[k];
    free(stamps.values);
    free(stamps.rows);
    free(stamps.cols);
}

static double step_of(const fv_solver *s, int unknown, double x)
{
    switch (s->net->measure[unknown]) {
    case STEADY_A_PRESSURE:
        return 1e-4 * fmax(1, fabs(x));
    case STEADY_A_FLOW:
        return 1e-6 * fmax(fabs(x), 0.01 * s->given.steam_scale);
    default:
        return 1e-6;
    }
}

static double unit_of(const fv_solver *s, int unknown)
{
    switch (s->net->measure[unknown]) {
    case STEADY_A_PRESSURE:
        return 100;
    case STEADY_A_FLOW:
        return s->given.steam_scale;
    default:
        return 1;
    }
}

static void compare_column(fv_solver *s, differences *d, int col, uint64_t seed)
{
    const int n = s->net->unknown_count;
    const double kept = d->x[col], h = step_of(s, col, kept);
    d->x[col] = kept + h;
    steady_assemble(s, d->x, d->plus, NULL);
    d->x[col] = kept - h;
    steady_assemble(s, d->x, d->minus, NULL);
    d->x[col] = kept;
    for (int row = 0; row < n; row++) {
        const double up = (d->plus[row] - d->here[row]) / h, down = (d->here[row] - d->minus[row]) / h;
        const double mean = 0.5 * (up + down), stamped = d->stamped[row * n + col];
        if (mean == 0 && stamped == 0)
            continue;
        /* what rounding of the residual leaves in the difference */
        const double noise = 1e-13 * (fabs(d->plus[row]) + 1 / s->work.row_scale[row]) / h;
        const double scale = fmax(fabs(up), fabs(down));
        if (fabs(up - down) > 0.05 * scale + noise) {
            d->corners++;
            continue;
        }
        d->compared++;
        /* what 100 Pa, all steam or a whole share would change of the row is lost in its scale: water's density */
        if (fabs(mean - stamped) * unit_of(s, col) * s->work.row_scale[row] < NEGLIGIBLE)
            continue;
        if (!(fabs(mean - stamped) <= TOLERANCE * scale + fabs(up - down) + noise))
            fail_msg("plant %d, row %d by unknown %d: stamped %g, differences %g", (int)seed, row, col, stamped, mean);
    }
}

static void compare(bench *b, uint64_t seed, double smoothing, differences *d)
{
    fv_solver *s = b->solver;
    const size_t n = (size_t)s->net->unknown_count;
    *d = (differences){.stamped = malloc(n * n * sizeof(double)),
                       .x = malloc(n * sizeof(double)),
                       .plus = malloc(n * sizeof(double)),
                       .minus = malloc(n * sizeof(double)),
                       .here = malloc(n * sizeof(double))};
    assert_true(d->stamped && d->x && d->plus && d->minus && d->here);
    memcpy(d->x, s->state.x, n * sizeof(double));
    uint64_t state = seed + 1;
    for (size_t i = 0; i < n; i++) /* beside the solution, where no residual is zero */
        d->x[i] += step_of(s, (int)i, d->x[i]) * between(&state, -100, 100);
    s->state.smoothing = smoothing;
    s->work.water_in_jacobian = true;
    stamp_dense(s, d);
    for (size_t i = 0; i < n; i++)
        compare_column(s, d, (int)i, seed);
    free(d->stamped);
    free(d->x);
    free(d->plus);
    free(d->minus);
    free(d->here);
}

static void stamps_are_slopes(void **state)
{
    (void)state;
    static const double SOFTNESS[] = {0, 1e-3, 0.3};
    int compared = 0, corners = 0, plants = 0;
    for (uint64_t seed = 1; plants < PLANTS; seed++) {
        bench b;
        draw_plant(&b, seed);
        if (fv_plant_link(b.plant, b.faults) == FV_FAIL) {
            bench_close(&b);
            continue;
        }
        bench_link(&b);
        draw_conditions(&b);
        if (b.net->unknown_count < ENTRIES_MOST) {
            plants++;
            bench_solve_any(&b); /* converged or not: slopes hold anywhere */
            for (size_t i = 0; i < sizeof SOFTNESS / sizeof *SOFTNESS; i++) {
                differences d;
                compare(&b, seed, SOFTNESS[i], &d);
                compared += d.compared;
                corners += d.corners;
            }
        }
        bench_close(&b);
    }
    printf("check | Jacobian's entries against differences, %d plants | equal | %d equal, %d at corners left out | | "
           "central differences\n",
           plants, compared, corners);
    assert_true(compared > 10000 && corners < compared / 50);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(stamps_are_slopes)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
