/* SPDX-License-Identifier: MIT */
/* Draws weighted by the true density against posteriors known in closed form. */
#include "checks.h"
#include "num/posterior.h"
#include "num/quantile.h"
#include "num/sample.h"

enum { N = 4096 };

/* Prior N(20, 100), readings 22, 21, 23 of variance 4: mean 21.9737, variance 1.3158 (Kalman's filter, in any order).
 * Drawn from a guess that is off and too wide, the weights put it right. */
static void static_filter(void **state)
{
    (void)state;
    double z[N], x[N], density[N], proposal[N], weights[N], scratch[2 * N], mean = 0, variance = 0;
    static const double reading[3] = {22, 21, 23};
    assert_int_equal(num_sample_normal(N, 1, 1, 1, z), FV_OK);
    for (int i = 0; i < N; i++) {
        x[i] = 21.5 + 1.8 * z[i];
        proposal[i] = -0.5 * z[i] * z[i];
        density[i] = -0.5 * pow(x[i] - 20, 2) / 100;
        for (int k = 0; k < 3; k++)
            density[i] -= 0.5 * pow(x[i] - reading[k], 2) / 4;
    }
    const double size = num_importance_weights(density, proposal, N, weights);
    for (int i = 0; i < N; i++)
        mean += weights[i] * x[i];
    for (int i = 0; i < N; i++)
        variance += weights[i] * pow(x[i] - mean, 2);
    check_off("static filter, mean", 21.973684211, mean, 0.01, "Kalman, closed form");
    check_off("static filter, variance", 1.315789474, variance, 0.02, "Kalman, closed form");
    check_off("static filter, 90 % point", 21.973684 + 1.2815516 * 1.1470787, num_quantile(x, weights, N, 0.9, scratch),
              0.02, "normal quantile");
    assert_true(size > 0.5 * N && size < N);
}

static void draws(void **state)
{
    (void)state;
    const double covariance[4] = {4, 1.2, 1.2, 1}, mode[2] = {3, -1};
    double factor[4], z[2 * N], x[2], sum[3] = {0};
    assert_int_equal(num_cholesky(covariance, 2, factor), FV_OK);
    check_off("factor, first", 2, factor[0], 1e-15, "by hand");
    check_off("factor, below", 0.6, factor[2], 1e-15, "by hand");
    check_off("factor, last", 0.8, factor[3], 1e-15, "by hand");
    assert_true(factor[1] == 0);
    assert_int_equal(num_sample_normal(N, 2, 1, 2, z), FV_OK);
    for (int i = 0; i < N; i++) {
        num_posterior_draw(mode, factor, 2, z + 2 * i, x);
        sum[0] += pow(x[0] - 3, 2) / N;
        sum[1] += (x[0] - 3) * (x[1] + 1) / N;
        sum[2] += pow(x[1] + 1, 2) / N;
    }
    check_off("drawn, first variance", 4, sum[0], 0.02, "as asked for");
    check_off("drawn, covariance", 1.2, sum[1], 0.02, "as asked for");
    check_off("drawn, second variance", 1, sum[2], 0.01, "as asked for");
    const double singular[4] = {1, 2, 2, 1};
    assert_int_equal(num_cholesky(singular, 2, factor), FV_FAIL);
}

static void weights_and_places(void **state)
{
    (void)state;
    const double density[4] = {0, log(3.0), -INFINITY, NAN}, proposal[4] = {0, 0, 0, 0};
    double weights[4];
    check_off("effective size of 1 : 3", 1.6, num_importance_weights(density, proposal, 4, weights), 1e-12,
              "16 / 10, by hand");
    /* 3/4 is cut at 1/2, then 1/4 : 1/2 */
    check_off("cut weight", 2.0 / 3, weights[1], 1e-12, "by hand");
    assert_true(weights[2] == 0 && weights[3] == 0);
    const double nothing[2] = {-INFINITY, -INFINITY};
    assert_true(num_importance_weights(nothing, proposal, 2, weights) == 0);
}

/* J'J + 1 = [[3, 1], [1, 6]], of determinant 17. */
static void ridge_covariance(void **state)
{
    (void)state;
    const double j[6] = {1, 1, 1, 0, 0, 2};
    double c[4];
    assert_int_equal(num_ridge_covariance(j, 3, 2, c), FV_OK);
    check_off("ridge, first", 6.0 / 17, c[0], 1e-15, "by hand");
    check_off("ridge, beside", -1.0 / 17, c[1], 1e-15, "by hand");
    check_off("ridge, below", -1.0 / 17, c[2], 1e-15, "by hand");
    check_off("ridge, last", 3.0 / 17, c[3], 1e-15, "by hand");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(static_filter), cmocka_unit_test(draws),
                                       cmocka_unit_test(ridge_covariance), cmocka_unit_test(weights_and_places)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
