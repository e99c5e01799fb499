/* SPDX-License-Identifier: MIT */
/* Quasi-random samples, distributions and quantiles against JCGM 101:2008 and closed forms. */
#include "checks.h"
#include "num/distribution.h"
#include "num/quantile.h"
#include "num/sample.h"

enum { RUNS = 65536, SETS = 8 };

static double *even_sample(size_t dim)
{
    double *u = malloc(RUNS * dim * sizeof *u);
    assert_non_null(u);
    assert_int_equal(num_sample_normal(RUNS, dim, SETS, 7, u), FV_OK);
    return u;
}

/* Half width of the middle 95 % of the sum of four inputs, and its standard deviation. */
static void additive(const num_distribution *inputs, const char *what, double deviation, double half_width)
{
    char row[96];
    double *z = even_sample(4), *y = malloc(RUNS * sizeof *y), *scratch = malloc(2 * RUNS * sizeof *scratch);
    double squares = 0;
    for (size_t i = 0; i < RUNS; i++) {
        y[i] = 0;
        for (size_t j = 0; j < 4; j++)
            y[i] += num_distribution_at(&inputs[j], z[4 * i + j]);
        squares += y[i] * y[i];
    }
    snprintf(row, sizeof row, "%s, standard uncertainty", what);
    check_dev(row, deviation, sqrt(squares / RUNS), 2e-3, "JCGM 101:2008, 9.2");
    const double low = num_quantile(y, NULL, RUNS, 0.025, scratch), high = num_quantile(y, NULL, RUNS, 0.975, scratch);
    snprintf(row, sizeof row, "%s, half of the 95 %% interval", what);
    check_dev(row, half_width, 0.5 * (high - low), 4e-3, "JCGM 101:2008, 9.2, exact value computed");
    const double error = num_quantile_error(y, RUNS, SETS, 0.975, scratch);
    snprintf(row, sizeof row, "%s, upper end within four sampling errors", what);
    check_off(row, half_width, high, 4 * error + 1e-3, "exact value computed");
    free(z);
    free(y);
    free(scratch);
}

static void additive_model(void **state)
{
    (void)state;
    const double edge = sqrt(3.0);
    num_distribution in[4];
    for (int i = 0; i < 4; i++)
        in[i] = (num_distribution){NUM_NORMAL, 0, 1};
    additive(in, "four normal inputs", 2.0, 3.919928);
    for (int i = 0; i < 4; i++)
        in[i] = (num_distribution){NUM_RECTANGULAR, 0, edge};
    additive(in, "four rectangular inputs", 2.0, 3.879407);
    in[3].spread = 10 * edge;
    additive(in, "three and a wide one", 10.148892, 17.015814);
}

/* JCGM 101:2008, 9.3: mass of a weight from a comparison in air, deviation from nominal in mg. Printed: 1.2341, 0.0754,
 * [1.0834, 1.3825] (from memory; 400 000 pseudo-random draws, computed, gave 1.2340, 0.0755, [1.0838, 1.3836]). */
static void mass_calibration(void **state)
{
    (void)state;
    const num_distribution in[5] = {{NUM_NORMAL, 100000, 0.050},
                                    {NUM_NORMAL, 1.234, 0.020},
                                    {NUM_RECTANGULAR, 1.20, 0.10},
                                    {NUM_RECTANGULAR, 8000, 1000},
                                    {NUM_RECTANGULAR, 8000, 50}};
    double *z = even_sample(5), *y = malloc(RUNS * sizeof *y), *scratch = malloc(2 * RUNS * sizeof *scratch);
    double mean = 0, squares = 0, x[5];
    for (size_t i = 0; i < RUNS; i++) {
        for (size_t j = 0; j < 5; j++)
            x[j] = num_distribution_at(&in[j], z[5 * i + j]);
        y[i] = (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100000;
        mean += y[i] / RUNS;
    }
    for (size_t i = 0; i < RUNS; i++)
        squares += pow(y[i] - mean, 2) / RUNS;
    check_off("mass, mean", 1.2341, mean, 5e-4, "JCGM 101:2008, 9.3");
    check_off("mass, standard uncertainty", 0.0754, sqrt(squares), 3e-4, "JCGM 101:2008, 9.3");
    check_off("mass, lower end", 1.0834, num_quantile(y, NULL, RUNS, 0.025, scratch), 2e-3, "JCGM 101:2008, 9.3");
    check_off("mass, upper end", 1.3825, num_quantile(y, NULL, RUNS, 0.975, scratch), 2e-3, "JCGM 101:2008, 9.3");
    free(z);
    free(y);
    free(scratch);
}

/* Medians, and the values one standard normal deviation up. */
static void distributions(void **state)
{
    (void)state;
    const num_distribution tenth = {NUM_LOG_NORMAL, 0.62, 0.10}, share = {NUM_LOGIT_NORMAL, 0.6, 0.05},
                           leak = {NUM_LOG_RECTANGULAR, 3.0, 2.0}, flat = {NUM_RECTANGULAR, 5, 2};
    check_off("log-normal, median", 0.62, num_distribution_at(&tenth, 0), 1e-15, "definition");
    check_off("log-normal 10 %, one up", 0.682, num_distribution_at(&tenth, 1), 1e-12, "0.62 x 1.1");
    check_off("logit-normal, median", 0.6, num_distribution_at(&share, 0), 1e-15, "definition");
    const double rise = (num_distribution_at(&share, 1e-4) - num_distribution_at(&share, -1e-4)) / 2e-4;
    check_off("logit-normal, slope at the median", 0.05, rise, 1e-8, "delta method");
    assert_true(num_distribution_at(&share, 9) < 1 && num_distribution_at(&share, -9) > 0);
    check_off("factor of 2, even in the logarithm, upper quarter", 3 * sqrt(2.0),
              num_distribution_at(&leak, num_normal_quantile(0.75)), 1e-12, "closed form");
    check_off("rectangular, lower end", 3, num_distribution_at(&flat, -12), 1e-12, "definition");
}

/* Beyond the 40 dimensions of the sequence: margins stay even, and inputs independent. */
static void many_dimensions(void **state)
{
    (void)state;
    enum { N = 1024, D = 100 };
    double *z = malloc(N * D * sizeof *z), *again = malloc(N * D * sizeof *z), worst = 0, mean = 0;
    assert_int_equal(num_sample_normal(N, D, 4, 3, z), FV_OK);
    assert_int_equal(num_sample_normal(N, D, 4, 3, again), FV_OK);
    assert_memory_equal(z, again, N * D * sizeof *z);
    for (size_t j = 0; j < D; j++) {
        double sum = 0, with_first = 0;
        for (size_t i = 0; i < N; i++) {
            sum += z[i * D + j] / N;
            with_first += z[i * D + j] * z[i * D + (j + 41) % D] / N;
        }
        worst = fmax(worst, fabs(with_first));
        mean = fmax(mean, fabs(sum));
    }
    /* pseudo-random points would have 0.03 each, so 0.1 at worst of a hundred */
    check_off("100 dimensions, largest mean", 0, mean, 0.02, "symmetry");
    check_off("100 dimensions, largest correlation", 0, worst, 0.13, "independence, 4 standard errors");
    free(z);
    free(again);
}

static void quantiles(void **state)
{
    (void)state;
    const double x[5] = {3, 1, 4, 1.5, 9}, weight[5] = {0, 1, 1, 1, 1}, never[4] = {1, 2, INFINITY, INFINITY};
    double scratch[10];
    check_off("median of five", 3, num_quantile(x, NULL, 5, 0.5, scratch), 1e-15, "definition");
    check_off("of five, 10 %", 1, num_quantile(x, NULL, 5, 0.1, scratch), 1e-15, "Hyndman & Fan type 5");
    check_off("of five, 40 %", 2.25, num_quantile(x, NULL, 5, 0.4, scratch), 1e-14, "Hyndman & Fan type 5, by hand");
    check_off("one without weight", 2.75, num_quantile(x, weight, 5, 0.5, scratch), 1e-14, "1, 1.5, 4, 9 by hand");
    assert_true(isinf(num_quantile(never, NULL, 4, 0.9, scratch)));
    assert_true(num_quantile(never, NULL, 4, 0.3, scratch) < 2);
    check_off("effective size", 4, num_effective_size(weight, 5), 1e-14, "definition");
    assert_true(isnan(num_quantile_error(never, 4, 2, 0.9, scratch)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(additive_model), cmocka_unit_test(mass_calibration),
                                       cmocka_unit_test(distributions), cmocka_unit_test(many_dimensions),
                                       cmocka_unit_test(quantiles)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
